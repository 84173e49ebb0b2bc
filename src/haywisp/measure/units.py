"""Units of length, weight and temperature, and quantities turned from one into another."""

from haywisp.errors import HaywispError
from haywisp.measure.types import Quantity

# Exact by the international yard and pound agreement of 1959: 1 in = 2.54 cm, 1 lb = 0.45359237 kg.
# Each unit by its kind, its size in the first unit of that kind, and what that one reads where it reads nought.
UNITS = {
    "cm": ("length", 1.0, 0.0),
    "m": ("length", 100.0, 0.0),
    "in": ("length", 2.54, 0.0),
    "kg": ("weight", 1.0, 0.0),
    "lb": ("weight", 0.45359237, 0.0),
    "°C": ("temperature", 1.0, 0.0),
    "°F": ("temperature", 5 / 9, -160 / 9),
}


class NoConversion(HaywispError):
    """A quantity can't be given in the unit asked for."""

    def __init__(self, quantity: Quantity, unit: str) -> None:
        like = [other for other in UNITS if _kind(other) == _kind(quantity.unit)] or [quantity.unit]
        super().__init__(
            f"{quantity.value:g} {quantity.unit} can't be given in {unit}: it can be given in {', '.join(like)}."
        )


def converted(quantity: Quantity, unit: str) -> Quantity:
    """The same quantity in another unit of its kind; its error grows with the size of the unit alone.

    Raises NoConversion between kinds, and for a unit that is not known unless it is the quantity's own.
    """
    if unit == quantity.unit:
        return quantity
    if not _kind(unit) or _kind(unit) != _kind(quantity.unit):
        raise NoConversion(quantity, unit)
    (_, old, old_zero), (_, new, new_zero) = UNITS[quantity.unit], UNITS[unit]
    value = (quantity.value * old + old_zero - new_zero) / new
    error = None if quantity.error is None else quantity.error * old / new
    return Quantity(value, unit, error, quantity.method, quantity.source)


def _kind(unit: str) -> str:
    return UNITS[unit][0] if unit in UNITS else ""
