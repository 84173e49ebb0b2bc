"""Shapes that several pages share: links, options of a form, facts in words, the verdict, rows of visits."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Ref:
    """Something that can be linked to: its id and its name."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Namesakes:
    """What is kept already under a name: ``what`` is ``owner``, ``yard`` or ``horse``."""

    what: str
    name: str
    found: tuple[Ref, ...]


@dataclass(frozen=True, slots=True)
class TapeView:
    """What a tape tells in words: ``error`` says how well it is known, ``caution`` of which horses."""

    value: float
    sentence: str
    method: str
    error: str
    source: str
    caution: str


@dataclass(frozen=True, slots=True)
class Option:
    """One value that a field can take, and how a person reads it."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class OptionGroup:
    """Options under one heading, such as the muscles of one part of the body."""

    label: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The options of every field of an entry's form. ``values`` maps an aspect's id to the values it can take."""

    structures: tuple[OptionGroup, ...]
    techniques: tuple[Option, ...]
    sides: tuple[Option, ...]
    pressures: tuple[Option, ...]
    signs: tuple[Option, ...]
    aspects: tuple[Option, ...]
    values: Mapping[str, tuple[Option, ...]]
    actions: tuple[Option, ...]
    flags: tuple[Option, ...] = ()


@dataclass(frozen=True, slots=True)
class FactView:
    """A fact in words, and the thread of the entry it was recorded in ("" for a standing flag)."""

    sentence: str
    thread: str


@dataclass(frozen=True, slots=True)
class ReasonView:
    """Why a caution applies.

    ``gives_way_to`` is what it takes to work where it asks for the vet: ``nobody`` may, the ``vet`` (or the law) alone
    lifts it, or a written ``reason`` does; "" where it only limits.
    """

    caution: str
    name: str
    wording: str
    because: tuple[FactView, ...]
    absolute: bool
    source: str
    gives_way_to: str = ""


@dataclass(frozen=True, slots=True)
class VerdictView:
    """The gate's verdict in words; ``excluded``, ``techniques`` and ``caps`` are sentences, empty when free.

    ``pressure`` is a sentence on ``pressure_cap``, "" where it limits nothing. ``set_aside`` are the sentences to show
    where work goes on against the gate's advice, and ``can_be_set_aside`` is whether a written reason would do.
    """

    verdict: str
    name: str
    reasons: tuple[ReasonView, ...]
    excluded: tuple[str, ...]
    techniques: tuple[str, ...]
    caps: tuple[str, ...]
    pressure_cap: str
    pressure: str = ""
    set_aside: tuple[str, ...] = ()
    can_be_set_aside: bool = False


@dataclass(frozen=True, slots=True)
class VetWord:
    """What the vet answered: at which visit it was written down, when, the words, and whether bodywork may go on."""

    visit_id: str
    visit_day: date
    day: date
    text: str
    agrees: bool


@dataclass(frozen=True, slots=True)
class PatternView:
    """A compensation pattern, with its support and what speaks against it; never a diagnosis."""

    pattern: str
    name: str
    says: str
    probability: float
    support: tuple[FactView, ...]
    against: tuple[FactView, ...]
    check_next: str
    call: str
    source: str


@dataclass(frozen=True, slots=True)
class VisitRow:
    """One visit in a list. ``headline`` are short sentences of its findings that are not the usual ones."""

    id: str
    horse: Ref
    owner: Ref
    yard: Ref
    day: date
    number: int
    minutes: int
    status: str
    status_name: str
    open_questions: int
    bouts: int
    headline: tuple[str, ...]
    practitioner: str


@dataclass(frozen=True, slots=True)
class Counts:
    """How many entries of each part (rejected ones left out) and by status, and the questions still open.

    ``acceptable`` are the proposed ones that can be accepted at once: no open question is about them.
    """

    bouts: int
    findings: int
    responses: int
    actions: int
    notes: int
    proposed: int
    accepted: int
    corrected: int
    rejected: int
    acceptable: int
    open_questions: int


@dataclass(frozen=True, slots=True)
class ReadingChoice:
    """A scale or vital sign that can be read: its range in words, how it is read, and its parts if it has some."""

    id: str
    name: str
    range: str
    how: str
    parts: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class ReadingView:
    """A reading that is kept: in a sentence, and what the tables say of it."""

    thread: str
    what: str
    sentence: str
    says: tuple[str, ...]
    observer: str


@dataclass(frozen=True, slots=True)
class FeelChoice:
    """One aspect of a structure: what can be found, and which of it is recorded ("" for none)."""

    name: str
    values: tuple[Option, ...]
    recorded: str


@dataclass(frozen=True, slots=True)
class FeelColumn:
    """One side of a structure."""

    name: str
    choices: tuple[FeelChoice, ...]


@dataclass(frozen=True, slots=True)
class FeltPlace:
    """Something found out of the usual, in words, and the view and layer of the drawn horse that show it."""

    words: str
    structure: str
    view: str
    layer: str


@dataclass(frozen=True, slots=True)
class FeelPanel:
    """A structure to be felt, its sides beside each other."""

    structure: str
    name: str
    lies: str
    columns: tuple[FeelColumn, ...]
