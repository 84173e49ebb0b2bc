"""One picture: from placed landmarks and known sizes to measures, curves, camera and stance, each with its error."""

from collections.abc import Iterator, Mapping
from math import degrees, isfinite
from typing import TYPE_CHECKING

from haywisp.measure.posture.checking import check
from haywisp.measure.posture.kinds import LENGTHS, MEASURES, STANCE, WITHERS_HEIGHT, columns
from haywisp.measure.posture.landmarks import INSTEAD, LANDMARKS, TRACES, place, stretch
from haywisp.measure.posture.placing import DEFAULT_PLACING
from haywisp.measure.posture.types import (
    Z95,
    CurvePoint,
    Flag,
    KnownSizes,
    Measure,
    PlacedLandmarks,
    PlacingError,
    Posture,
    Squareness,
    Yaw,
)
from haywisp.measure.types import Quantity

if TYPE_CHECKING:
    from haywisp.measure.posture.reckoning import Reckoned

MOST_YAW_DEGREES = 10.0
MOST_TILT_DEGREES = 10.0
#: Up to this chance of more than that yaw a picture counts as square; from one half it counts as turned.
CHANCE_IN_DOUBT, CHANCE_TURNED = 0.05, 0.5
#: Where the feet of a horse that stands square are, over withers height: design defaults, no source.
SQUARE_STANCE: Mapping[str, tuple[float, float]] = {
    "near forefoot under": (-0.10, 0.10),
    "near hind foot under": (-0.03, 0.17),
    "forefeet apart": (-0.08, 0.08),
    "hind feet apart": (-0.08, 0.08),
}
#: Figures of the camera's pose that are fitted at each yaw.
POSE_FITTED = 4
NO_SIZES = KnownSizes()
SCALED_BY = ("stick_cm", "withers_height_cm", "croup_height_cm", "body_length_cm")


def measure_posture(
    placed: PlacedLandmarks, known: KnownSizes = NO_SIZES, placing: PlacingError = DEFAULT_PLACING
) -> Posture:
    """Posture of a horse on one side view.

    Angles are in degrees, everything else over withers height, and in cm as well where something of known size is told.
    Errors are standard errors. A subclass of HaywispError says what has to be placed or told otherwise.
    """
    check(placed, known)
    from haywisp.measure.posture.evidence import evidence
    from haywisp.measure.posture.reckoning import reckon

    seen, start = evidence([(placed, known)], placing.sd)
    reckoned = reckon(seen, start)
    scaled = any(getattr(known, field) is not None for field in SCALED_BY)
    kinds = {name: (kind.unit, kind.method) for name, kind in MEASURES.items()}
    kinds |= {name: ("1", row[2]) for name, row in STANCE.items()}
    if scaled:
        kinds |= {f"{name} in cm": ("cm", f"({MEASURES[name].method}) × height of the withers") for name in LENGTHS}
        kinds[WITHERS_HEIGHT] = ("cm", "height of the withers above the ground line")
    source = f"landmarks on a photograph; {placing.source}"
    found = {
        name: _measure(name, Quantity(float(value), kinds[name][0], float(sd), kinds[name][1], source))
        for name, value, sd in zip(columns(curves=False), reckoned.value[0], reckoned.sd[0], strict=False)
        if name in kinds and isfinite(value) and isfinite(sd)
    }
    stance = {name: found.pop(name) for name in STANCE if name in found}
    yaw = _yaw(reckoned, source)
    tilt = _tilt(reckoned, placed, source)
    return Posture(
        placed,
        found,
        {name: _points(reckoned, range(*stretch(name).indices(10_000))) for name in TRACES if _has(placed, name)},
        {name: _points(reckoned, [place(name)])[0] for name in LANDMARKS if name in placed.points},
        found.get(WITHERS_HEIGHT),
        tilt,
        yaw,
        stance,
        tuple(_flags(yaw, tilt, stance, float(reckoned.misfit[0]), len(seen.rows) - POSE_FITTED)),
        {name: _missing(placed, kind.needs) for name, kind in MEASURES.items() if name not in found},
    )


def _measure(name: str, quantity: Quantity) -> Measure:
    half = Z95 * (quantity.error or 0.0)
    return Measure(name, quantity, quantity.value - half, quantity.value + half)


def _yaw(reckoned: "Reckoned", source: str) -> Yaw:
    chance = float(reckoned.too_far[0])
    squareness: Squareness = (
        "square" if chance <= CHANCE_IN_DOUBT else "turned" if chance >= CHANCE_TURNED else "in doubt"
    )
    method = "camera fitted to the ground line and known sizes"
    return Yaw(
        Quantity(degrees(reckoned.turned[0]), "°", degrees(reckoned.turned_sd[0]), f"{method}, without sign", source),
        Quantity(degrees(reckoned.yaw[0]), "°", degrees(reckoned.yaw_sd[0]), f"{method}, head nearer positive", source),
        chance,
        squareness,
    )


def _tilt(reckoned: "Reckoned", placed: PlacedLandmarks, source: str) -> Quantity:
    sign = 1 if placed.side == "right" else -1
    return Quantity(
        sign * degrees(reckoned.tilt[0]), "°", degrees(reckoned.tilt_sd[0]),
        "camera fitted to the ground line; positive where level ground falls to the right of the picture", source,
    )  # fmt: skip


def _points(reckoned: "Reckoned", rows: "range | list[int]") -> tuple[CurvePoint, ...]:
    first = len(columns(curves=False))
    value, sd = reckoned.value[0, first:], reckoned.sd[0, first:]
    return tuple(
        CurvePoint(float(value[2 * row]), float(value[2 * row + 1]), float(sd[2 * row]), float(sd[2 * row + 1]))
        for row in rows
    )


def _has(placed: PlacedLandmarks, line: str) -> bool:
    instead = INSTEAD.get(line, ())
    return line in placed.traces or (bool(instead) and all(name in placed.points for name in instead))


def _missing(placed: PlacedLandmarks, needs: tuple[str, ...]) -> tuple[str, ...]:
    """The landmarks and lines of those needed that are absent; of a line, the landmarks that may stand for it."""
    lines = {name for name in needs if name in TRACES and not _has(placed, name)}
    return tuple(name for name in needs if name in lines or (name in LANDMARKS and name not in placed.points))


def most_misfit(degrees_left: int) -> float:
    """χ² that is exceeded once in a thousand, by Wilson & Hilferty's cube root (from memory); 1 where none is left."""
    if degrees_left < 1:
        return 1.0
    ninth = 2 / (9 * degrees_left)
    return float(degrees_left * (1 - ninth + 3.09 * ninth**0.5) ** 3)


def _flags(yaw: Yaw, tilt: Quantity, stance: Mapping[str, Measure], misfit: float, degrees_left: int) -> Iterator[Flag]:
    if yaw.squareness == "turned":
        yield Flag("yaw too large", yaw.amount.value, 0.0, MOST_YAW_DEGREES, "°")
    elif yaw.squareness == "in doubt":
        yield Flag("yaw in doubt", 100 * yaw.chance_too_far, 0.0, 100 * CHANCE_IN_DOUBT, "%")
    if abs(tilt.value) > MOST_TILT_DEGREES:
        yield Flag("tilt too large", tilt.value, -MOST_TILT_DEGREES, MOST_TILT_DEGREES, "°")
    if misfit > (most := most_misfit(degrees_left)):
        yield Flag("sizes disagree", misfit, 0.0, most, "1")
    for name, (low, high) in SQUARE_STANCE.items():
        if name in stance and not low <= stance[name].quantity.value <= high:
            yield Flag("stance", stance[name].quantity.value, low, high, "1", name)
