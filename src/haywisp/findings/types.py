"""Conclusions: what the gate says and which findings belong together."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing the gate and the patterns read: a finding, action, sign or standing flag, with where it was recorded.

    ``kind`` is ``finding``, ``action``, ``sign`` or ``flag``; ``id`` is the action, sign or flag; ``entry`` names
    the entry's thread. ``since`` is the day of an earlier visit that it stands from, None for the newest visit's own.
    """

    kind: str
    id: str = ""
    structure: str = ""
    side: str | None = None
    aspect: str = ""
    value: str = ""
    entry: str = ""
    since: date | None = None


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a caution applies: the rule's id, its wording for the owner, the facts and the rule's source.

    ``verdict`` is what this rule alone asks for: ``vet-first`` or ``within-limits``.
    """

    caution: str
    name: str
    wording: str
    facts: tuple[Fact, ...]
    absolute: bool
    source: str
    verdict: str = "within-limits"


@dataclass(frozen=True, slots=True)
class Cause:
    """What stands behind one limit, for whoever words it: the caution's id and name, and the facts of that place.

    ``effect`` is ``excluded``, ``cap``, ``technique`` or ``pressure`` (the cap that holds everywhere).
    """

    caution: str
    name: str
    facts: tuple[Fact, ...]
    effect: str


@dataclass(frozen=True, slots=True)
class Limits:
    """What the plan may not do.

    ``excluded`` are (structure, side) pairs, side None for both; ``techniques`` are excluded everywhere;
    ``caps`` maps (structure, side) to the heaviest pressure there and ``pressure_cap`` holds everywhere.
    Each exclusion's or cap's ``why`` is looked up by ``structure`` or ``technique`` id, that of ``pressure_cap`` by
    ``pressure``; ``causes`` has the same keys and holds the same reasons unworded.
    """

    excluded: frozenset[tuple[str, str | None]] = frozenset()
    techniques: frozenset[str] = frozenset()
    caps: Mapping[tuple[str, str | None], str] = field(default_factory=dict)
    pressure_cap: str = "firm"
    why: Mapping[str, str] = field(default_factory=dict)
    causes: Mapping[str, tuple[Cause, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class GateVerdict:
    """``verdict`` is ``work``, ``within-limits`` or ``vet-first``.

    The reasons, and the limits that flow to the plan.
    """

    verdict: str
    reasons: tuple[Reason, ...]
    limits: Limits


@dataclass(frozen=True, slots=True)
class PatternMatch:
    """A pattern with its probability 0 to 1 given the facts, its support, its counter-evidence and what to check
    next.
    """

    pattern: str
    name: str
    says: str
    probability: float
    support: tuple[Fact, ...]
    against: tuple[Fact, ...]
    check_next: str
    call: str
    source: str


@dataclass(frozen=True, slots=True)
class Override:
    """A written reason to work against rows of the gate: their ids, the words and the thread of the note.

    ``known`` are the threads of the entries that were there as it was written, None where that isn't asked: what was
    told after it is not covered by it.
    """

    cautions: frozenset[str]
    reason: str
    entry: str = ""
    known: frozenset[str] | None = None


@dataclass(frozen=True, slots=True)
class Overridden:
    """A reason of the gate that was set aside, and by what."""

    reason: Reason
    override: Override


@dataclass(frozen=True, slots=True)
class Held:
    """The gate's ``advice``, the ``verdict`` that holds, and what was set aside between the two."""

    advice: GateVerdict
    verdict: GateVerdict
    overridden: tuple[Overridden, ...] = ()
