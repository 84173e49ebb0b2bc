"""What may be read from a tape: the plausible range of each reading, and the sentence for one outside it."""

from math import isfinite

from haywisp.errors import HaywispError

# Wide enough for the smallest and largest adult breeds; from memory, meant to catch slips and wrong units only.
RANGES_CM = {
    "girth": (70.0, 280.0, "measured round the barrel just behind the elbows and the withers"),
    "body length": (50.0, 260.0, "measured from the point of the shoulder to the point of the buttock"),
    "straight body length": (
        50.0,
        250.0,
        "measured from the point of the shoulder straight back to a line square to the point of the buttock",
    ),
    "neck circumference": (40.0, 200.0, "measured half-way between poll and withers"),
    "withers height": (60.0, 220.0, "measured from level ground to the highest point of the withers"),
    "knee circumference": (12.0, 60.0, "measured round the middle of the left knee"),
    "forelimb length": (35.0, 150.0, "measured down the left forelimb from the elbow to the ground"),
}
# The least that is read from a foal of the smallest breeds; from memory, for slips only.
LEAST_OF_YOUNG_CM = {
    "girth": 35.0,
    "body length": 25.0,
    "straight body length": 25.0,
    "neck circumference": 20.0,
    "withers height": 35.0,
    "knee circumference": 8.0,
    "forelimb length": 20.0,
}


class BadReading(HaywispError):
    """A tape reading that can't be one of a horse of that age."""

    def __init__(self, name: str, value: float, *, young: bool = False) -> None:
        low, high, how = range_cm(name, young=young)
        super().__init__(
            f"The {name} of {value:g} cm is outside {low:g} to {high:g} cm: give it in centimetres, {how}."
        )


def range_cm(name: str, *, young: bool = False) -> tuple[float, float, str]:
    """The least and most of a reading in cm, and how it is taken; ``young`` for a horse that is still growing."""
    low, high, how = RANGES_CM[name]
    return (LEAST_OF_YOUNG_CM[name] if young else low), high, how


def checked(name: str, value: float, *, young: bool = False) -> float:
    """The reading itself when it lies in its range; :class:`BadReading` otherwise."""
    low, high, _ = range_cm(name, young=young)
    if not isfinite(value) or not low <= value <= high:
        raise BadReading(name, value, young=young)
    return value
