"""What may be read from a tape: the plausible range of each reading, and the sentence for one outside it."""

from math import isfinite

from haywisp.errors import HaywispError

# Wide enough for the smallest and largest adult breeds; from memory, meant to catch slips and wrong units only.
RANGES_CM = {
    "girth": (70.0, 280.0, "measured round the barrel just behind the elbows and the withers"),
    "body length": (50.0, 260.0, "measured from the point of the shoulder to the point of the buttock"),
    "neck circumference": (40.0, 200.0, "measured half-way between poll and withers"),
    "withers height": (60.0, 220.0, "measured from level ground to the highest point of the withers"),
}


class BadReading(HaywispError):
    """A tape reading that can't be one of a grown horse."""

    def __init__(self, name: str, value: float) -> None:
        low, high, how = RANGES_CM[name]
        super().__init__(
            f"The {name} of {value:g} cm is outside {low:g} to {high:g} cm: give it in centimetres, {how}."
        )


def checked(name: str, value: float) -> float:
    """The reading itself when it lies in its range; :class:`BadReading` otherwise."""
    low, high, _ = RANGES_CM[name]
    if not isfinite(value) or not low <= value <= high:
        raise BadReading(name, value)
    return value
