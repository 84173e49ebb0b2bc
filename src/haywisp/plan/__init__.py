"""Choose what, where, how deep and in which order, under rules; or say which rule and fact leave no plan."""

from haywisp.plan.checking import check
from haywisp.plan.needs import needs_from_facts
from haywisp.plan.problem import problem_for
from haywisp.plan.sequence import walks
from haywisp.plan.solving import solve
from haywisp.plan.types import Need, Omission, Plan, PlannedBout, PlanProblem

__all__ = [
    "Need",
    "Omission",
    "Plan",
    "PlanProblem",
    "PlannedBout",
    "check",
    "needs_from_facts",
    "problem_for",
    "solve",
    "walks",
]
