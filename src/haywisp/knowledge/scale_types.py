"""Rows of the tables that count: formulas of body weight, scales and vital signs."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Term:
    """Readings, each to its power, times ``factor`` and over ``divisor``: one part of the sum of a formula."""

    powers: Mapping[str, float]
    factor: float = 1.0
    divisor: float = 1.0

    def __str__(self) -> str:
        product = " × ".join(name if power == 1 else f"{name}^{power:g}" for name, power in self.powers.items())
        return (
            (f"{self.factor:g} × " if self.factor != 1 else "")
            + product
            + (f" / {self.divisor:g}" if self.divisor != 1 else "")
        )


@dataclass(frozen=True, slots=True)
class Piece:
    """Where the sum of a formula's terms is ``at_least`` so much, the weight is ``slope`` × sum + ``constant``."""

    at_least: float
    slope: float
    constant: float

    def __str__(self) -> str:
        return f"from {self.at_least:g}: × {self.slope:g} {self.constant:+g}"


@dataclass(frozen=True, slots=True)
class WeightFormula:
    """A published formula of body weight from tape readings, and the horses it was made for.

    ``gives`` is ``weight`` or ``ideal weight``. Readings go in as ``length_unit`` (``cm``, ``m`` or ``in``) and the
    result and its standard ``error`` (None where none is published) are in ``weight_unit`` (``kg`` or ``lb``).
    ``horse_types`` empty is any type; ages are from ``from_years`` to below ``to_years`` (None: no end). ``status`` is
    ``verified``, ``secondary``, ``memory``, ``common practice`` or ``own choice``.
    """

    id: str
    name: str
    gives: str
    length_unit: str
    weight_unit: str
    terms: tuple[Term, ...]
    horse_types: tuple[str, ...]
    from_years: float
    in_foal: bool
    population: str
    status: str
    source: str
    to_years: float | None = None
    error: float | None = None
    pieces: tuple[Piece, ...] = ()


@dataclass(frozen=True, slots=True)
class Level:
    """One level of a scale; ``says`` is empty where no landmark is known for it."""

    value: float
    name: str
    says: str = ""

    def __str__(self) -> str:
        return f"{self.value:g} {self.name}" + (f" ({self.says})" if self.says else "")


@dataclass(frozen=True, slots=True)
class Band:
    """What a score means from ``at_least`` up to the next band; ``flag`` is what the screening gate should hear."""

    at_least: float
    says: str
    source: str
    flag: str = ""

    def __str__(self) -> str:
        return f"from {self.at_least:g}: {self.says}" + (f" [flag {self.flag}]" if self.flag else "")


@dataclass(frozen=True, slots=True)
class ScaleLimits:
    """Limits that another page gives a scale."""

    minimum: float
    maximum: float
    says: str

    def __str__(self) -> str:
        return f"{self.minimum:g} to {self.maximum:g}: {self.says}"


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale that is scored by eye and hand, as a whole or part by part.

    ``more`` says what a higher score has more of. ``combine`` makes the whole of the parts: ``mean`` (to the nearest
    step), ``sum``, or empty where parts stand alone. ``reliability`` is the published ICC by part; ``error`` a
    published standard error in the scale's unit, None where there is none. ``status`` as for a formula.
    """

    id: str
    name: str
    unit: str
    minimum: float
    maximum: float
    step: float
    more: str
    parts: tuple[str, ...]
    combine: str
    part_minimum: float
    part_maximum: float
    levels: tuple[Level, ...]
    bands: tuple[Band, ...]
    how: str
    caution: str
    status: str
    source: str
    error: float | None = None
    other_limits: tuple[ScaleLimits, ...] = ()
    reliability: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Spread:
    """The range that one page prints."""

    low: float
    high: float
    unit: str

    def __str__(self) -> str:
        return f"{self.low:g} to {self.high:g} {self.unit}"


@dataclass(frozen=True, slots=True)
class Alarm:
    """What the screening gate should hear of a reading in ``unit`` that lies over ``above`` or under ``below``."""

    flag: str
    unit: str
    source: str
    above: float | None = None
    below: float | None = None

    def __str__(self) -> str:
        side, limit = ("above", self.above) if self.above is not None else ("below", self.below)
        return f"{side} {limit:g} {self.unit}: flag {self.flag}"


@dataclass(frozen=True, slots=True)
class VitalSign:
    """A resting sign of a grown horse: its usual range, both ends included, and what is impossible.

    ``spread`` are the ranges that single pages print; ``whole`` is True for what is counted. A horse younger than
    ``adult_from_years`` is not judged by the range.
    """

    id: str
    name: str
    unit: str
    low: float
    high: float
    possible_low: float
    possible_high: float
    whole: bool
    adult_from_years: float
    spread: tuple[Spread, ...]
    alarms: tuple[Alarm, ...]
    how: str
    status: str
    source: str
