"""Arithmetic of quantities: units are checked, independent errors add in quadrature, an unknown error stays unknown."""

from math import hypot, isfinite

from haywisp.errors import HaywispError
from haywisp.measure.types import Quantity


class UnitsDiffer(HaywispError):
    """Two quantities of different units were added or subtracted."""

    def __init__(self, left: Quantity, right: Quantity) -> None:
        super().__init__(
            f"{left.value:g} {left.unit} and {right.value:g} {right.unit} have different units: "
            f"give both in {left.unit} or both in {right.unit}."
        )


class ZeroDivisor(HaywispError):
    """A ratio was asked for whose lower part is nought."""

    def __init__(self, divisor: Quantity) -> None:
        super().__init__(f"A ratio to 0 {divisor.unit} has no value: measure the lower part again.")


def plus(left: Quantity, right: Quantity) -> Quantity:
    """The sum of two quantities of one unit."""
    return _joined(left, right, left.value + right.value, "+")


def minus(left: Quantity, right: Quantity) -> Quantity:
    """The difference of two quantities of one unit."""
    return _joined(left, right, left.value - right.value, "-")


def ratio(upper: Quantity, lower: Quantity) -> Quantity:
    """The quotient of two quantities; its unit is ``1`` where theirs agree."""
    if lower.value == 0 or not isfinite(lower.value):
        raise ZeroDivisor(lower)
    value = upper.value / lower.value
    error = None
    if upper.error is not None and lower.error is not None:
        error = hypot(upper.error / lower.value, value * lower.error / lower.value)
    unit = "1" if upper.unit == lower.unit else f"{upper.unit}/{lower.unit}"
    return Quantity(value, unit, error, f"({upper.method}) / ({lower.method})", _sources(upper, lower))


def _joined(left: Quantity, right: Quantity, value: float, sign: str) -> Quantity:
    if left.unit != right.unit:
        raise UnitsDiffer(left, right)
    error = None if left.error is None or right.error is None else hypot(left.error, right.error)
    return Quantity(value, left.unit, error, f"({left.method}) {sign} ({right.method})", _sources(left, right))


def _sources(left: Quantity, right: Quantity) -> str:
    return left.source if left.source == right.source else f"{left.source}; {right.source}"
