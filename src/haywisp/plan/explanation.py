"""Why each bout is in the plan, and why a need was left out or got less than it asked for."""

from collections.abc import Mapping, Sequence

from haywisp.knowledge.types import Tables
from haywisp.plan.options import Block, Choices, Option
from haywisp.plan.sites import cap_at, name_of, place, usual_pressure
from haywisp.plan.types import Need, Omission, PlanProblem
from haywisp.plan.units import (
    CLOSING_UNITS,
    ENOUGH,
    LONGEST_SITE_UNITS,
    OPENING_UNITS,
    SHORTEST_BOUT_UNITS,
    UNIT_MINUTES,
    share_of_benefit,
)


def why_contact() -> str:
    """Why the hands rest first."""
    return "Hands rest first: the horse knows who is there, and answers before anything is asked of it."


def why_opening(block: Block, tables: Tables) -> str:
    """Why a block is opened, and what the strokes keep clear of."""
    return f"Opens {place((block.region, block.side), tables)} before its work.{_clear_of(block, tables)}"


def why_closing(block: Block, tables: Tables) -> str:
    """Why a block is closed."""
    where = place((block.region, block.side), tables)
    return f"Closes {where}: flushing strokes after its work.{_clear_of(block, tables)}"


def why_maintenance(block: Block, tables: Tables) -> str:
    """Why a region without a finding is stroked."""
    return f"No need on {place((block.region, block.side), tables)}: light maintenance in the minutes left."


def why_work(option: Option, need: Need, problem: PlanProblem, tables: Tables) -> str:
    """Which findings a bout is for, and what holds its pressure down."""
    technique = tables.techniques[option.technique]
    found = " and ".join(need.because)
    text = f"For {found}." if option.help > 0 else "Prepares the tissue for the deeper work that follows here."
    if option.pressure == usual_pressure(technique):
        return text
    key = cap_at((need.structure, need.side), problem, tables)[1]
    return f"{text} No more than {option.pressure} pressure: {problem.why.get(key, 'a cap is set')}."


def omissions(
    problem: PlanProblem, choices: Choices, units: Mapping[int, int], minutes_used: float, tables: Tables
) -> tuple[Omission, ...]:
    """A line for each need that got nothing, or less than it asked for, with the rule and the fact."""
    lines = []
    for number, need in enumerate(problem.needs):
        mine = [(option, units.get(at, 0)) for at, option in enumerate(choices.options) if option.need == number]
        minutes = sum(count for _, count in mine) * UNIT_MINUTES
        dose = sum(option.help * count for option, count in mine) * UNIT_MINUTES
        asked = f"{' and '.join(need.because) or 'a need'} (need {need.weight:.2f})"
        if number in choices.barred:
            lines.append(Omission(need.structure, need.side, f"{asked}: {choices.barred[number]}."))
        elif share_of_benefit(dose) < ENOUGH:
            got = "left out" if minutes == 0 else f"given only {minutes:g} min"
            rule = _rule(need, [option for option, _ in mine], problem, choices, units, minutes_used, tables)
            lines.append(Omission(need.structure, need.side, f"{asked}: {got}; {rule}."))
    return tuple(lines)


def refusal(problem: PlanProblem, choices: Choices, tables: Tables) -> str:
    """Why there is nothing to plan: the time booked, or what the limits bar."""
    if choices.barred:
        number, reason = min(choices.barred.items())
        need = problem.needs[number]
        return f"No plan: {place((need.structure, need.side), tables)} is {reason}."
    barred = "; ".join(dict.fromkeys(problem.why.values()))
    if barred:
        return f"No plan: nothing may be worked. {barred}."
    if problem.needs:
        return f"No plan: nothing that helps fits into the {problem.minutes} minutes booked."
    return "No plan: there are no findings to work on, and no region to maintain."


def _clear_of(block: Block, tables: Tables) -> str:
    names = [name_of(structure, tables) for structure in block.clear_of]
    return f" Keep clear of {', '.join(names)}." if names else ""


def _rule(
    need: Need,
    options: Sequence[Option],
    problem: PlanProblem,
    choices: Choices,
    units: Mapping[int, int],
    minutes_used: float,
    tables: Tables,
) -> str:
    """The rule that is nearest to being the reason; where time was left it can't be the time."""
    cap, key = cap_at((need.structure, need.side), problem, tables)
    spent = sum(choices.options[at].thumb * count * UNIT_MINUTES for at, count in units.items())
    mine = sum(count for at, count in units.items() if choices.options[at].need == problem.needs.index(need))
    if mine >= LONGEST_SITE_UNITS - 1:
        return f"one place is worked for {LONGEST_SITE_UNITS * UNIT_MINUTES:g} min at most"
    shortest = min((option.shortest for option in options), default=SHORTEST_BOUT_UNITS)
    room = (OPENING_UNITS + CLOSING_UNITS + shortest) * UNIT_MINUTES + problem.walk_round_minutes
    if problem.minutes - minutes_used < room:
        return f"the {problem.minutes} min booked do more good on the needs that are in the plan"
    if all(option.thumb > 0 for option in options) and problem.thumb_minutes - spent < 1:
        return f"the thumbs' {problem.thumb_minutes:g} min are spent ({spent:.1f} min)"
    if cap != "firm":
        return f"at most {cap} pressure there: {problem.why.get(key, 'a cap is set')}"
    return "what helps it is limited by the balance of left and right"
