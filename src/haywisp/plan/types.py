"""The session plan: an immutable problem, and an answer with its proof or gap."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Need:
    """What one structure on one side needs: weight 0 to 1 and the findings that say so.

    ``helps`` maps a technique to its relative benefit 0 to 1 for these findings, ``found`` names them as
    ``aspect:value``. ``side`` is ``both`` for a place that is worked as one.
    """

    structure: str
    side: str | None
    weight: float
    because: tuple[str, ...]
    helps: Mapping[str, float] = field(default_factory=dict)
    found: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlanProblem:
    """Needs, minutes booked, the gate's limits and the hands' budget.

    ``head_shy`` leaves poll and jaw for last, light and short. ``why`` is keyed as in the gate's limits, or by
    ``structure:side`` for one side alone, and reads after "because of". A ``refusal`` says why there may be no plan
    at all.
    """

    needs: tuple[Need, ...]
    minutes: int
    excluded: frozenset[tuple[str, str | None]] = frozenset()
    techniques_excluded: frozenset[str] = frozenset()
    caps: Mapping[tuple[str, str | None], str] = field(default_factory=dict)
    pressure_cap: str = "firm"
    why: Mapping[str, str] = field(default_factory=dict)
    thumb_minutes: float = 10.0
    head_shy: bool = False
    walk_round_minutes: float = 0.5
    refusal: str = ""


@dataclass(frozen=True, slots=True)
class PlannedBout:
    """One bout of the plan, in order: minutes are a multiple of a half; ``why`` is a sentence.

    ``side`` is ``both`` for a place that is worked as one.
    """

    order: int
    technique: str
    structure: str
    side: str | None
    minutes: float
    pressure: str
    why: str


@dataclass(frozen=True, slots=True)
class Omission:
    """A structure that was left out or got less than it asked for, and the rule or fact that is the reason."""

    structure: str
    side: str | None
    why: str


@dataclass(frozen=True, slots=True)
class Plan:
    """``status`` is ``optimal``, ``feasible`` (then ``gap`` > 0) or ``none``.

    ``refusal`` names the rule and the fact when there is none; ``left_over`` says what to do in time not planned.
    """

    status: str
    bouts: tuple[PlannedBout, ...]
    omissions: tuple[Omission, ...]
    benefit: float
    gap: float
    minutes_used: float
    refusal: str = ""
    left_over: str = ""
