"""Rows of the knowledge tables: frozen, each with the source that it was taken from."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from haywisp.knowledge.scale_types import Scale, VitalSign, WeightFormula


@dataclass(frozen=True, slots=True)
class Structure:
    """A muscle, ligament, fascia or body region that a practitioner names.

    ``group`` is the part of the body (``head-and-neck``, ``forehand``, ``trunk``, ``hindquarters`` or ``regions``);
    ``region`` is the id of the region that holds a muscle (a region holds itself). ``paired`` is False for a
    structure
    on the midline. ``spoken`` are the forms in the language loaded, the first of them the name to print.
    ``kind`` is ``muscle``, ``ligament``, ``fascia``, ``tissue`` or ``region``; ``layer`` is ``superficial`` or ``deep``
    (empty for a region). ``lies`` says where the hand finds it, ``trade_names`` what practitioners call it, and
    ``not_worked`` why no technique of a stage may be given there (empty: it can be opened, worked and closed).
    """

    id: str
    name: str
    latin: str
    kind: str
    group: str
    region: str
    paired: bool
    layer: str
    origin: str
    insertion: str
    action: str
    nerve: str
    neighbours: tuple[str, ...]
    source: str
    spoken: tuple[str, ...] = ()
    lies: str = ""
    trade_names: tuple[str, ...] = ()
    not_worked: str = ""


@dataclass(frozen=True, slots=True)
class Technique:
    """A technique of the hands.

    ``stage`` is ``contact``, ``opening``, ``preparing``, ``deep``, ``closing``, ``stretch`` or ``thermal``;
    ``needs`` lists
    the stages of which at least one must come before on the same region; ``deepest`` is the heaviest pressure
    it is given with; ``loads`` maps a hand part (``thumb``, ``fingers``, ``palm``, ``fist``, ``forearm``, ``body``)
    to a relative effort 0 to 1;
    ``suits`` and ``never`` are ids of structures, regions or groups; ``helps`` maps an ``aspect:value`` finding to a
    relative benefit 0 to 1.
    """

    id: str
    name: str
    does: str
    stage: str
    deepest: str
    needs: tuple[str, ...]
    minutes_per_pass: float
    loads: Mapping[str, float]
    suits: tuple[str, ...]
    never: tuple[str, ...]
    helps: Mapping[str, float]
    source: str
    spoken: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign by which a horse answers.

    ``direction`` is ``settling`` or ``guarding``, ``weight`` 0 to 1, half-life in seconds.
    """

    id: str
    name: str
    direction: str
    weight: float
    half_life_s: float
    source: str


@dataclass(frozen=True, slots=True)
class Aspect:
    """What can be found of a structure, and the values it can take."""

    id: str
    name: str
    values: tuple[str, ...]
    usual: str
    source: str


@dataclass(frozen=True, slots=True)
class ActionKind:
    """What the speaker can decide for after the session; ``wording`` is how the owner reads it."""

    id: str
    name: str
    wording: str
    source: str


@dataclass(frozen=True, slots=True)
class Trigger:
    """One thing that makes a caution apply: ``kind`` is ``finding``, ``action``, ``sign`` or ``flag``; empty fields
    match anything.

    For a finding ``aspect`` and ``value`` are read and ``structures`` (ids of structures, regions or groups, read
    with ``knowledge.fit.covers``) narrows it; for the rest ``id`` is.
    """

    kind: str
    id: str = ""
    aspect: str = ""
    value: str = ""
    structures: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Caution:
    """A rule of the screening gate.

    ``verdict`` is ``vet-first`` or ``within-limits``. ``site`` says what the rule excludes: ``found`` (the
    structure of
    the finding), ``body`` (everything) or ``none``; ``structures`` and ``techniques`` are excluded besides.
    ``pressure_cap`` is ``""``, ``light``
    or ``moderate``, and holds on the found structure when ``site`` is ``found-cap``, else everywhere.
    An ``absolute`` rule can't be overridden, nor can one that is the vet's or the law's alone to lift (``vet_alone``);
    any other vet-first rule gives way to a written reason. One trigger is enough unless ``all_triggers``: then each of
    them must be met, findings on the same structure and side (flags, actions and signs belong to the whole horse).
    """

    id: str
    name: str
    verdict: str
    absolute: bool
    triggers: tuple[Trigger, ...]
    site: str
    structures: tuple[str, ...]
    techniques: tuple[str, ...]
    pressure_cap: str
    owner_wording: str
    source: str
    all_triggers: bool = False
    vet_alone: bool = False


@dataclass(frozen=True, slots=True)
class Evidence:
    """One finding that speaks for (weight > 0) or against (weight < 0) a pattern, in log-odds."""

    structures: tuple[str, ...]
    aspect: str
    value: str
    weight: float


@dataclass(frozen=True, slots=True)
class Pattern:
    """A compensation pattern in the trade's own words; never a diagnosis.

    ``prior`` is its probability 0 to 1 before anything was found; ``call`` is empty, ``vet``, ``saddler``,
    ``dentist`` or ``farrier``.
    """

    id: str
    name: str
    says: str
    prior: float
    evidence: tuple[Evidence, ...]
    check_next: str
    call: str
    source: str


@dataclass(frozen=True, slots=True)
class Exercise:
    """A mobilisation or ground exercise for the owner.

    ``suits`` are ids of structures, regions or groups, none of them meaning any horse; ``action`` is the kind of
    action that it carries out (``baited-stretches``, ``groundwork`` or ``walk-in-hand``).
    """

    id: str
    name: str
    how: str
    repetitions: int
    hold_s: float
    days_per_week: int
    suits: tuple[str, ...]
    never: str
    source: str
    action: str = ""


@dataclass(frozen=True, slots=True)
class Flag:
    """A standing fact about a horse that the screening gate reads; ``asks`` is the question to the owner.

    ``lasting`` is True for what stays with the horse (an old tumour) and False for what is asked again each visit.
    ``group`` puts like questions together: ``illness``, ``readings``, ``lameness``, ``skin``, ``vet``, ``yard``,
    ``breeding``, ``today`` or ``handling``; the questions are asked in this order.
    """

    id: str
    name: str
    asks: str
    lasting: bool
    source: str
    group: str = ""


@dataclass(frozen=True, slots=True)
class Language:
    """The words of one language, as read from its tables: name of the table, then its entries."""

    code: str
    tables: Mapping[str, Mapping[str, object]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Tables:
    """Everything that is known before anyone speaks, by id."""

    structures: Mapping[str, Structure]
    techniques: Mapping[str, Technique]
    signs: Mapping[str, Sign]
    aspects: Mapping[str, Aspect]
    actions: Mapping[str, ActionKind]
    cautions: Mapping[str, Caution]
    patterns: Mapping[str, Pattern]
    exercises: Mapping[str, Exercise]
    language: Language
    flags: Mapping[str, Flag] = field(default_factory=dict)
    weight_formulas: Mapping[str, WeightFormula] = field(default_factory=dict)
    scales: Mapping[str, Scale] = field(default_factory=dict)
    vital_signs: Mapping[str, VitalSign] = field(default_factory=dict)
