"""Two pictures of one horse against one another: what differs by more than the error, and when that is not told."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import hypot

from haywisp.measure.posture.measuring import MOST_TILT_DEGREES, MOST_YAW_DEGREES
from haywisp.measure.posture.types import (
    Z95,
    Comparison,
    Difference,
    Overlay,
    PlacedLandmarks,
    Posture,
    Refusal,
)
from haywisp.measure.quantities import minus

#: Pictures whose yaws differ by more, or with a foot placed further off (over withers height), are not compared.
MOST_YAW_APART = 10.0
MOST_STANCE_APART = 0.08
NO_SWAY: Mapping[str, float] = {}


def compare(first: Posture, second: Posture, sway: Mapping[str, float] = NO_SWAY) -> Comparison:
    """Second less first of every measure that both have.

    ``sway`` is, by measure, the SD (in its unit) by which this horse's posture differs from one moment of a visit to
    the next; without it the error is that of the pictures alone. Errors are taken as independent, which is cautious
    where both rest on the same told sizes.
    """
    refusals = tuple(_refusals(first, second))
    flags = (*first.flags, *second.flags)
    if refusals:
        return Comparison((), None, refusals, flags)
    differences = tuple(
        _difference(name, first, second, sway.get(name, 0.0)) for name in first.measures if name in second.measures
    )
    overlay = Overlay(first.curves, second.curves, second_to_first(first.placed, second.placed))
    return Comparison(differences, overlay, (), flags)


def _difference(name: str, first: Posture, second: Posture, sway: float) -> Difference:
    one, other = first.measures[name].quantity, second.measures[name].quantity
    change = minus(other, one)
    error = hypot(change.error or 0.0, sway * 2**0.5)
    half = Z95 * error
    return Difference(
        name, one, other, replace(change, error=error), change.value - half, change.value + half,
        "larger than error" if abs(change.value) > half else "not shown to have changed",
    )  # fmt: skip


def _refusals(first: Posture, second: Posture) -> Iterator[Refusal]:
    if first.placed.side != second.placed.side:
        yield Refusal("other side", 0.0, 0.0, 0.0, "1")
    yaws, tilts = [(one.yaw.amount.value, one.yaw) for one in (first, second)], (first.tilt.value, second.tilt.value)
    if any(yaw.squareness == "turned" for _, yaw in yaws):
        yield Refusal("yaw too large", yaws[0][0], yaws[1][0], MOST_YAW_DEGREES, "°")
    signed = (first.yaw.signed.value, second.yaw.signed.value)
    if abs(signed[1] - signed[0]) > MOST_YAW_APART:
        yield Refusal("yaw differs", *signed, MOST_YAW_APART, "°")
    if max(abs(tilt) for tilt in tilts) > MOST_TILT_DEGREES:
        yield Refusal("tilt too large", *tilts, MOST_TILT_DEGREES, "°")
    for name in first.stance.keys() & second.stance.keys():
        feet = (first.stance[name].quantity.value, second.stance[name].quantity.value)
        if abs(feet[1] - feet[0]) > MOST_STANCE_APART:
            yield Refusal("stance differs", *feet, MOST_STANCE_APART, "1", name)


def second_to_first(
    first: PlacedLandmarks, second: PlacedLandmarks
) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """The similarity from pixels of the second picture to those of the first: withers on withers, ground on ground."""
    (to_withers, to_ground), (from_withers, from_ground) = _spine(first), _spine(second)
    turn = (to_withers - to_ground) / (from_withers - from_ground)
    shift = to_withers - turn * from_withers
    return (turn.real, -turn.imag, shift.real), (turn.imag, turn.real, shift.imag)


def _spine(placed: PlacedLandmarks) -> tuple[complex, complex]:
    """The withers and the foot of the square from them to the ground line, as complex pixels."""
    withers, front, behind = (complex(*placed.points[name]) for name in ("withers", "ground front", "ground behind"))
    along = (front - behind) / abs(front - behind)
    return withers, behind + along * ((withers - behind) * along.conjugate()).real
