"""The page of a plan."""

from dataclasses import dataclass

from haywisp.plan.types import Plan
from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse, Visit
from haywisp.usecases.views.shared import PatternView, Ref, VerdictView, VetWord, VisitRow


@dataclass(frozen=True, slots=True)
class NeedView:
    """What one structure needs, and the findings that say so."""

    name: str
    structure: str
    side: str | None
    weight: float
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlannedBoutView:
    """One bout of the plan; ``begins`` is minutes from the start of the hands-on time, as ``m:ss``."""

    order: int
    sentence: str
    technique: Ref
    structure: Ref
    side: str | None
    minutes: float
    pressure: str
    begins: str
    why: str


@dataclass(frozen=True, slots=True)
class OmissionView:
    """What was left out or shortened, and why."""

    name: str
    why: str


@dataclass(frozen=True, slots=True)
class PlanPage:
    """A plan from the reviewed entries of a visit, for the next one.

    ``made_from`` is None; for a visit that nothing is recorded of yet it is the visit before that the plan, its verdict
    and its counts are taken from, named by its day. ``unreviewed`` counts entries that are still proposed and were left
    out. ``proof`` is a sentence on how good the plan is known to be; ``cautions`` always apply. ``vet_said`` is what
    the vet answered for this horse, newest first.
    """

    visit: Visit
    row: VisitRow
    horse: Horse
    owner: Owner
    yard: Yard
    minutes: int
    verdict: VerdictView
    plan: Plan
    bouts: tuple[PlannedBoutView, ...]
    omissions: tuple[OmissionView, ...]
    needs: tuple[NeedView, ...]
    patterns: tuple[PatternView, ...]
    unreviewed: int
    proof: str
    problems: tuple[str, ...]
    cautions: tuple[str, ...]
    made_from: Ref | None = None
    vet_said: tuple[VetWord, ...] = ()
