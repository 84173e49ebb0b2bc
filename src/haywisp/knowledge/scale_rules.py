"""The checks of the tables that count: formulas of body weight, scales and vital signs."""

from collections.abc import Iterator, Sequence

from haywisp.knowledge.flaws import among, blank, known, within
from haywisp.knowledge.scale_types import Alarm, Scale, VitalSign, WeightFormula
from haywisp.knowledge.types import Tables

STATUSES = ("verified", "secondary", "memory", "common practice", "own choice")
HORSE_TYPES = ("arabian", "draft", "other", "pony", "stock", "thoroughbred", "warmblood")
TAPE_READINGS = (
    "girth",
    "body length",
    "straight body length",
    "neck circumference",
    "withers height",
    "knee circumference",
    "forelimb length",
)
GIVES = ("weight", "ideal weight")
LENGTH_UNITS = ("cm", "m", "in")
WEIGHT_UNITS = ("kg", "lb")
COMBINE = ("mean", "sum", "")
VITAL_UNITS = ("°C", "°F", "/min", "s", "quarters")


def weight_formula_wrong(row: WeightFormula) -> Iterator[str]:
    """What is wrong with a formula: its terms and pieces, its units, and whom it is for."""
    yield from blank(row, "population")
    yield from among("gives", row.gives, GIVES)
    yield from among("status", row.status, STATUSES)
    yield from among("length_unit", row.length_unit, LENGTH_UNITS)
    yield from among("weight_unit", row.weight_unit, WEIGHT_UNITS)
    yield from known("horse_types", row.horse_types, HORSE_TYPES)
    yield from within("from_years", row.from_years, 0, 40)
    if row.to_years is not None and row.to_years <= row.from_years:
        yield "to_years must be more than from_years."
    if row.error is not None and not row.error > 0:
        yield "error must be more than 0; leave it out where none is published."
    if not row.terms:
        yield "it has no terms."
    for term in row.terms:
        yield from known("a term", term.powers, TAPE_READINGS)
        if not term.powers or any(not power > 0 for power in term.powers.values()):
            yield "a term needs readings with powers above 0."
        if not (term.factor > 0 and term.divisor > 0):
            yield "factor and divisor of a term must be more than 0."
    yield from _rising("pieces", [piece.at_least for piece in row.pieces], 0)
    if any(not piece.slope > 0 for piece in row.pieces):
        yield "the slope of a piece must be more than 0."


def scale_wrong(row: Scale, tables: Tables) -> Iterator[str]:
    """What is wrong with a scale: its limits and parts, its levels, and what its bands let the gate hear."""
    yield from blank(row, "unit", "more", "how", "caution")
    yield from among("status", row.status, STATUSES)
    yield from among("combine", row.combine, COMBINE)
    if not row.minimum < row.maximum or not row.part_minimum < row.part_maximum:
        yield "each minimum must be less than its maximum."
    elif not _on_step(row.maximum - row.minimum, row.step):
        yield f"step is {row.step:g} and must part the scale evenly."
    if row.combine and not row.parts:
        yield "combine needs parts."
    if len(set(row.parts)) < len(row.parts):
        yield "parts must be named once each."
    count = len(row.parts)
    if row.combine == "sum" and (row.part_minimum * count, row.part_maximum * count) != (row.minimum, row.maximum):
        yield "the sums of the parts' limits must be the limits of the whole."
    if row.combine == "mean" and (row.part_minimum, row.part_maximum) != (row.minimum, row.maximum):
        yield "a mean needs parts with the limits of the whole."
    for level in row.levels:
        yield from within("a level", level.value, row.minimum, row.maximum)
    if len({level.value for level in row.levels}) < len(row.levels):
        yield "levels must be given once each."
    yield from _rising("bands", [band.at_least for band in row.bands], None)
    for band in row.bands:
        yield from within("a band", band.at_least, row.minimum, row.maximum)
        yield from blank(band, "says", "source")
    yield from known("a band", {band.flag for band in row.bands} - {""}, tables.flags)
    yield from known("reliability", row.reliability, row.parts)
    if any(not limits.minimum < limits.maximum for limits in row.other_limits):
        yield "each minimum of other_limits must be less than its maximum."


def vital_sign_wrong(row: VitalSign, tables: Tables) -> Iterator[str]:
    """What is wrong with a vital sign: its ranges, their units, and what its alarms let the gate hear."""
    yield from blank(row, "how")
    yield from among("status", row.status, STATUSES)
    yield from among("unit", row.unit, VITAL_UNITS)
    if not row.possible_low <= row.low <= row.high <= row.possible_high:
        yield "possible_low, low, high and possible_high must not fall."
    yield from within("adult_from_years", row.adult_from_years, 0, 10)
    if not row.spread:
        yield "it has no spread."
    for spread in row.spread:
        yield from among("the unit of a spread", spread.unit, _units_like(row.unit))
        if not spread.low <= spread.high:
            yield "low of a spread must not be more than high."
    for alarm in row.alarms:
        yield from _alarm_wrong(alarm, row, tables)


def _alarm_wrong(alarm: Alarm, row: VitalSign, tables: Tables) -> Iterator[str]:
    yield from known("an alarm", [alarm.flag], tables.flags)
    yield from among("the unit of an alarm", alarm.unit, _units_like(row.unit))
    yield from blank(alarm, "source")
    if (alarm.above is None) == (alarm.below is None):
        yield "an alarm needs above or below, and not both."


def _units_like(unit: str) -> tuple[str, ...]:
    return ("°C", "°F") if unit in ("°C", "°F") else (unit,)


def _rising(name: str, starts: Sequence[float], first: float | None) -> Iterator[str]:
    if any(not before < after for before, after in zip(starts, starts[1:], strict=False)):
        yield f"{name} must rise by at_least."
    if first is not None and starts and starts[0] != first:
        yield f"the first of {name} must begin at {first:g}."


def _on_step(length: float, step: float) -> bool:
    return step > 0 and abs(length / step - round(length / step)) < 1e-9
