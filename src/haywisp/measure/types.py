"""Quantities that carry their unit and error, scores, vital signs, and photographs with their sizes."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from haywisp.measure.photographs.types import CameraNotes, Frame, KeptPhoto, PhotoSizes, Point

__all__ = [
    "CameraNotes",
    "Frame",
    "KeptPhoto",
    "LeftOut",
    "Meaning",
    "PhotoSizes",
    "Point",
    "Quantity",
    "Score",
    "ScoreChange",
    "TapeHorse",
    "TapeReadings",
    "VitalReading",
    "Weighed",
    "Weights",
]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value with its unit and its standard error in the same unit (None where the source gives none)."""

    value: float
    unit: str
    error: float | None
    method: str
    source: str


@dataclass(frozen=True, slots=True)
class TapeHorse:
    """What a formula of body weight asks of a horse.

    ``type`` is ``arabian``, ``draft``, ``other``, ``pony``, ``stock``, ``thoroughbred`` or ``warmblood``, empty where
    it isn't known; ``age_years`` None where it isn't.
    """

    type: str = ""
    age_years: float | None = None
    in_foal: bool = False


@dataclass(frozen=True, slots=True)
class Weighed:
    """A weight in kg by one formula, with whom the formula was made for and how sure its text is."""

    formula: str
    name: str
    weight: Quantity
    population: str
    status: str


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A formula that was not used, and why, as a sentence."""

    formula: str
    name: str
    why: str


@dataclass(frozen=True, slots=True)
class Weights:
    """The weights by every formula that fits a horse, the one to lead with first, and the formulas left out."""

    by: tuple[Weighed, ...]
    left_out: tuple[LeftOut, ...]


@dataclass(frozen=True, slots=True)
class Score:
    """A score as it was given, with the limits and step that its scale had on that day.

    ``site`` is the part that was scored, empty for the whole horse; ``side`` is ``left``, ``right`` or None. ``error``
    is its standard error in the scale's unit, None where it isn't known.
    """

    scale: str
    unit: str
    minimum: float
    maximum: float
    step: float
    value: float
    observer: str
    day: date
    site: str = ""
    side: str | None = None
    error: float | None = None


@dataclass(frozen=True, slots=True)
class ScoreChange:
    """A later score less an earlier one.

    ``shown`` says whether the change is larger than 1.96 of its standard errors; None where an error isn't known.
    """

    earlier: Score
    later: Score
    change: Quantity
    shown: bool | None


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a score says in words: its level, what the marks make of it, and what the screening gate should hear.

    ``mark`` and ``mark_source`` are empty where no mark is published; ``flag`` is empty where the gate hears nothing.
    """

    level: str
    mark: str
    mark_source: str
    flag: str
    caution: str


@dataclass(frozen=True, slots=True)
class VitalReading:
    """A vital sign as it was read, against the range of grown horses.

    ``verdict`` is ``within``, ``below``, ``above`` or ``not judged`` (too young). ``held_by`` of ``pages`` print a
    range that holds the reading; both are 0 where it isn't judged. ``flags`` are what the screening gate should hear,
    whatever the age.
    """

    sign: str
    reading: Quantity
    verdict: str
    sentence: str
    held_by: int
    pages: int
    flags: tuple[str, ...]


#: Readings of a tape by name, in centimetres.
TapeReadings = Mapping[str, float]
