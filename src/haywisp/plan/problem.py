"""Needs, verdict, time and what the horse tolerated, put together as one immutable problem."""

from collections.abc import Mapping, Sequence
from typing import Protocol

from haywisp.findings.types import GateVerdict
from haywisp.plan.sites import HEAD_SHY
from haywisp.plan.types import Need, PlanProblem
from haywisp.plan.units import PRESSURES

# What a refusal says that nobody worded.
VET_FIRST = "No plan: a vet comes first."


class Tolerance(Protocol):
    """What a session log tells the plan: the lightest pressure guarded against, by (structure, side)."""

    @property
    def guarded(self) -> Mapping[tuple[str, str | None], str]: ...


def problem_for(
    needs: Sequence[Need],
    verdict: GateVerdict,
    minutes: int,
    *,
    head_shy: bool = False,
    log: Tolerance | None = None,
    refusal: str = "",
) -> PlanProblem:
    """The problem for :func:`haywisp.plan.solve`; a vet-first verdict makes it one whose answer is a ``refusal``."""
    limits = verdict.limits
    caps = dict(limits.caps)
    why = {HEAD_SHY: "the horse being shy of its head", **limits.why} if head_shy else dict(limits.why)
    for site, pressure in sorted((log.guarded if log else {}).items(), key=str):
        cap = PRESSURES[max(0, PRESSURES.index(pressure) - 1)]
        caps[site] = min(caps.get(site, "firm"), cap, key=PRESSURES.index)
        _add(why, site, f"guarding against {pressure} pressure here before")
    return PlanProblem(
        needs=tuple(needs),
        minutes=minutes,
        excluded=limits.excluded,
        techniques_excluded=limits.techniques,
        caps=caps,
        pressure_cap=limits.pressure_cap,
        why=why,
        head_shy=head_shy,
        refusal=(refusal or VET_FIRST) if verdict.verdict == "vet-first" else "",
    )


def _add(why: dict[str, str], site: tuple[str, str | None], text: str) -> None:
    """One more reason for a site: to what is told of the structure, and of this side of it where that is told apart."""
    for key in (site[0], f"{site[0]}:{site[1]}"):
        known = why.get(key, "")
        if key == site[0] or known:
            why[key] = known if text in known else " and ".join(filter(None, [known, text]))
