"""Resting vital signs: a reading against the range of grown horses, and what the screening gate should hear of it."""

from math import isfinite

from haywisp.errors import HaywispError
from haywisp.knowledge import Alarm, Spread, VitalSign
from haywisp.measure.types import Quantity, VitalReading
from haywisp.measure.units import NoConversion, converted


class BadVitalSign(HaywispError):
    """A reading that no horse can have; the sentence says what was given, what can be, and what to do."""

    def __init__(self, sign: VitalSign, wrong: str) -> None:
        super().__init__(f"{sign.name}: {wrong}")


def read_vital_sign(sign: VitalSign, value: float, unit: str = "", age_years: float | None = None) -> VitalReading:
    """A reading of a vital sign, judged for a grown horse at rest; an unknown age is taken as grown, and said so.

    ``unit`` is the row's own when empty; a temperature may also be °F. The range has both its ends. An alarm is heard
    at any age: by its own unit where it has one in the unit of the reading, or else in the row's. Raises BadVitalSign.
    """
    given = Quantity(value, unit or sign.unit, None, sign.how, sign.source)
    reading = _checked(sign, given)
    flags = tuple(dict.fromkeys(alarm.flag for alarm in _alarms(sign, given.unit) if _sounds(alarm, given, reading)))
    if age_years is not None and age_years < sign.adult_from_years:
        sentence = (
            f"{_said(sign, given)} is not judged: the range is of grown horses, and a horse under "
            f"{sign.adult_from_years:g} years differs. Ask the vet what is usual at its age."
        )
        return VitalReading(sign.id, reading, "not judged", sentence, 0, 0, flags)
    verdict = _verdict(sign, given)
    held = sum(_holds(page, given) for page in sign.spread)
    sentence = (
        f"{_said(sign, given)} is {verdict} the usual {_range(sign, given.unit)}; {held} of {len(sign.spread)} "
        f"{'page' if len(sign.spread) == 1 else 'pages'} would call it usual."
    )
    if age_years is None:
        sentence += " It is judged as a grown horse's: the age is not known."
    return VitalReading(sign.id, reading, verdict, sentence, held, len(sign.spread), flags)


def _checked(sign: VitalSign, given: Quantity) -> Quantity:
    """The reading in the sign's own unit, when a horse can have it."""
    try:
        reading = converted(given, sign.unit)
    except NoConversion as other:
        raise BadVitalSign(sign, f"it can't be read in {given.unit}; give it in {sign.unit}.") from other
    if not isfinite(reading.value) or not sign.possible_low <= reading.value <= sign.possible_high:
        low, high = (_in(limit, sign.unit, given.unit) for limit in (sign.possible_low, sign.possible_high))
        raise BadVitalSign(
            sign,
            f"{given.value:g} {given.unit} is outside {low:g} to {high:g} {given.unit}; "
            f"{_other_unit(sign, given) or 'read it again.'}",
        )
    if sign.whole and reading.value != int(reading.value):
        raise BadVitalSign(sign, f"{given.value:g} {given.unit} is no whole number; it is counted, so count it again.")
    return reading


def _other_unit(sign: VitalSign, given: Quantity) -> str:
    """A hint where the figure would be possible in another unit of the same kind."""
    if given.unit not in ("°C", "°F"):
        return ""
    other = "°F" if given.unit == "°C" else "°C"
    value = converted(Quantity(given.value, other, None, "", ""), sign.unit).value
    fits = sign.possible_low <= value <= sign.possible_high
    return f"is it in {other}? Then give {given.value:g} {other}." if fits else ""


def _alarms(sign: VitalSign, unit: str) -> tuple[Alarm, ...]:
    own = tuple(alarm for alarm in sign.alarms if alarm.unit == unit)
    return own or tuple(alarm for alarm in sign.alarms if alarm.unit == sign.unit)


def _sounds(alarm: Alarm, given: Quantity, reading: Quantity) -> bool:
    value = given.value if alarm.unit == given.unit else reading.value
    return (alarm.above is not None and value > alarm.above) or (alarm.below is not None and value < alarm.below)


def _verdict(sign: VitalSign, given: Quantity) -> str:
    low, high = (_in(end, sign.unit, given.unit) for end in (sign.low, sign.high))
    return "below" if given.value < low else "above" if given.value > high else "within"


def _holds(page: Spread, given: Quantity) -> bool:
    low, high = (_in(end, page.unit, given.unit) for end in (page.low, page.high))
    return low <= given.value <= high


def _in(value: float, unit: str, other: str) -> float:
    """The end of a range in another unit, to the tenth that pages print: 38.6 °C is 101.5 °F."""
    return value if unit == other else round(converted(Quantity(value, unit, None, "", ""), other).value, 1)


def _range(sign: VitalSign, unit: str) -> str:
    low, high = (_in(end, sign.unit, unit) for end in (sign.low, sign.high))
    return f"{low:g} {unit}" if low == high else f"{low:g} to {high:g} {unit}"


def _said(sign: VitalSign, given: Quantity) -> str:
    return f"{sign.name} {given.value:g} {given.unit}"
