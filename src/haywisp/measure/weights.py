"""Body weight by the formulas of the tables: which fit a horse and the readings at hand, and what they give."""

from collections.abc import Iterable, Iterator, Mapping
from math import prod

from haywisp.errors import HaywispError
from haywisp.knowledge import Term, WeightFormula
from haywisp.measure.readings import RANGES_CM, checked
from haywisp.measure.types import LeftOut, Quantity, TapeHorse, TapeReadings, Weighed, Weights
from haywisp.measure.units import UNITS, converted

#: The surest text first; a formula known only from memory never leads.
STATUS_ORDER = ("verified", "secondary", "own choice", "common practice", "memory")
GROWN_YEARS = 3.0
SHORT = {
    "body length": "length",
    "straight body length": "straight length",
    "withers height": "height",
    "neck circumference": "neck",
    "knee circumference": "knee",
    "forelimb length": "forelimb",
}
POWERS = {1.0: "", 2.0: "²", 3.0: "³"}


class ReadingsMissing(HaywispError):
    """A formula was asked for without all its readings."""

    def __init__(self, formula: WeightFormula, missing: Iterable[str]) -> None:
        super().__init__(f"“{formula.name}” also needs {_listed(missing)}: measure it, or take another formula.")


class NoWeight(HaywispError):
    """Readings for which a formula gives no weight at all."""

    def __init__(self, formula: WeightFormula, value: float) -> None:
        super().__init__(
            f"“{formula.name}” gives {value:.0f} {formula.weight_unit} for these readings, which is no weight: "
            f"measure again, or take another formula."
        )


class UnknownReading(HaywispError):
    """A reading of a name that no tape has."""

    def __init__(self, name: str) -> None:
        super().__init__(f"There is no reading “{name}” of a tape. There are: {', '.join(RANGES_CM)}.")


def needed(formula: WeightFormula) -> tuple[str, ...]:
    """The names of the readings that a formula takes, each once."""
    return tuple(dict.fromkeys(name for term in formula.terms for name in term.powers))


def weight_by(formula: WeightFormula, readings: TapeReadings) -> Quantity:
    """Body weight in kg by one formula from readings in cm; those it doesn't take are left aside.

    The error is the formula's published standard error, None where there is none; it holds the error of reading as it
    was in the study. Raises ReadingsMissing, BadReading for a slip, or NoWeight.
    """
    missing = [name for name in needed(formula) if name not in readings]
    if missing:
        raise ReadingsMissing(formula, missing)
    young = formula.from_years < GROWN_YEARS
    size = UNITS[formula.length_unit][1]
    given = {name: checked(name, readings[name], young=young) / size for name in needed(formula)}
    value = _pieced(formula, sum(_term(term, given) for term in formula.terms))
    if not value > 0:
        raise NoWeight(formula, value)
    return converted(Quantity(value, formula.weight_unit, formula.error, formula_words(formula), formula.source), "kg")


def weights_of(
    horse: TapeHorse,
    readings: TapeReadings,
    formulas: Mapping[str, WeightFormula],
    gives: str = "weight",
) -> Weights:
    """Every weight that the readings (in cm) and the horse allow, the one to lead with first, and why not the others.

    Surer text comes before less sure, then the horse's own type before any, a published error before none, and more
    readings before fewer. ``gives`` is ``weight`` or ``ideal weight``. Raises UnknownReading, or BadReading for a slip.
    """
    young = horse.age_years is not None and horse.age_years < GROWN_YEARS
    for name, value in readings.items():
        if name not in RANGES_CM:
            raise UnknownReading(name)
        checked(name, value, young=young)
    by, left_out = [], []
    for formula in sorted((row for row in formulas.values() if row.gives == gives), key=_order):
        why = why_not(formula, horse, readings)
        if not why:
            try:
                weight = weight_by(formula, readings)
                by.append(Weighed(formula.id, formula.name, weight, formula.population, formula.status))
                continue
            except NoWeight as none:
                why = str(none)
        left_out.append(LeftOut(formula.id, formula.name, why))
    return Weights(tuple(by), tuple(left_out))


def why_not(formula: WeightFormula, horse: TapeHorse, readings: TapeReadings) -> str:
    """Why a formula isn't for this horse or can't be reckoned, as a sentence; empty when it can be used."""
    return next(_reasons(formula, horse, readings), "")


def _reasons(formula: WeightFormula, horse: TapeHorse, readings: TapeReadings) -> Iterator[str]:
    if formula.horse_types and horse.type not in formula.horse_types:
        what = f"this horse is of type {horse.type}" if horse.type else "the type of this horse is not known"
        yield f"It was made for type {' or '.join(formula.horse_types)}; {what}."
    ages = _ages(formula)
    if horse.age_years is None:
        yield f"It was made for horses {ages}; the age of this horse is not known."
    elif not formula.from_years <= horse.age_years < (formula.to_years or float("inf")):
        yield f"It was made for horses {ages}; this horse is {_age(horse.age_years)} old."
    if horse.in_foal and not formula.in_foal:
        yield "It is not for mares in foal."
    missing = [name for name in needed(formula) if name not in readings]
    if missing:
        yield f"It also needs {_listed(missing)}."


def formula_words(formula: WeightFormula) -> str:
    """A formula as it is written: ``girth² × length / 11900, in cm``."""
    words = " + ".join(_term_words(term) for term in formula.terms)
    pieces = formula.pieces
    if len(pieces) == 1 and pieces[0].slope == 1:
        words += f" {'−' if pieces[0].constant < 0 else '+'} {abs(pieces[0].constant):g}"
    elif pieces:
        words += "; " + ", ".join(
            f"from {piece.at_least:g} × {piece.slope:g}" + (f" + {piece.constant:g}" if piece.constant else "")
            for piece in pieces
        )
    unit = "inches" if formula.length_unit == "in" else formula.length_unit
    return f"{words}, in {unit}" + (", gives lb" if formula.weight_unit == "lb" else "")


def _term(term: Term, given: Mapping[str, float]) -> float:
    product = prod(float(given[name] ** power) for name, power in term.powers.items())
    return term.factor * product / term.divisor


def _pieced(formula: WeightFormula, total: float) -> float:
    reached = [piece for piece in formula.pieces if total >= piece.at_least]
    return reached[-1].slope * total + reached[-1].constant if reached else total


def _term_words(term: Term) -> str:
    product = " × ".join(
        SHORT.get(name, name) + POWERS.get(power, f"^{power:g}") for name, power in term.powers.items()
    )
    factor = f"{term.factor:g} × " if term.factor != 1 else ""
    return factor + product + (f" / {term.divisor:g}" if term.divisor != 1 else "")


def _order(formula: WeightFormula) -> tuple[int, bool, bool, int]:
    return (
        STATUS_ORDER.index(formula.status),
        not formula.horse_types,
        formula.error is None,
        -len(needed(formula)),
    )


def _ages(formula: WeightFormula) -> str:
    if formula.to_years is None:
        return f"of {_age(formula.from_years)} and over"
    if formula.from_years == 0:
        return f"under {_age(formula.to_years)}"
    return f"from {_age(formula.from_years)} to {_age(formula.to_years)}"


def _age(years: float) -> str:
    """``3 years``, ``6 months`` or ``7 days``, by the largest that is not below one."""
    for length, name in ((1.0, "year"), (1 / 12, "month"), (1 / 365.25, "day")):
        count = round(years / length, 1)
        if count >= (2 if name == "month" else 1):
            return f"{count:g} {name}{'' if count == 1 else 's'}"
    return "less than a day"


def _listed(names: Iterable[str]) -> str:
    *others, last = (f"the {name}" for name in names)
    return f"{', '.join(others)} and {last}" if others else last
