"""Why each bout is in the plan, and why a need was left out or got less than it asked for."""

from collections.abc import Mapping, Sequence

from haywisp.knowledge.types import Tables
from haywisp.plan.options import Block, Choices, Option
from haywisp.plan.sites import because_of, cap_at, name_of, place, usual_pressure
from haywisp.plan.types import Need, Omission, PlanProblem
from haywisp.plan.units import (
    CLOSING_UNITS,
    ENOUGH,
    LONGEST_SITE_UNITS,
    OPENING_UNITS,
    SHORTEST_BLOCK_UNITS,
    UNIT_MINUTES,
    most_places,
    share_of_benefit,
)


def why_contact() -> str:
    """Why the hands rest first."""
    return "Hands rest first: the horse knows who is there, and answers before anything is asked of it."


def why_opening(block: Block, tables: Tables) -> str:
    """Why a block is opened, and what the strokes keep clear of."""
    return f"Opens the {place((block.region, block.side), tables)} before its work.{_clear_of(block, tables)}"


def why_closing(block: Block, tables: Tables) -> str:
    """Why a block is closed."""
    where = place((block.region, block.side), tables)
    return f"Closes the {where} with long strokes after its work.{_clear_of(block, tables)}"


def why_maintenance(block: Block, tables: Tables) -> str:
    """Why a region that nothing else is planned for is stroked."""
    return f"Light strokes to keep the {place((block.region, block.side), tables)} supple, in the time that remains."


def why_work(option: Option, need: Need, problem: PlanProblem, tables: Tables) -> str:
    """Which findings a bout is for, and what holds its pressure down."""
    technique = tables.techniques[option.technique]
    found = " and ".join(need.because)
    text = f"For {found}." if option.help > 0 else "Loosens the tissue for what follows here."
    if option.pressure == usual_pressure(technique):
        return text
    key = cap_at((need.structure, need.side), problem, tables)[1]
    reason = because_of(key, need.side, problem, "by a limit that was set")
    return f"{text} No more than {option.pressure} pressure, {reason}."


def omissions(
    problem: PlanProblem, choices: Choices, units: Mapping[int, int], minutes_used: float, tables: Tables
) -> tuple[Omission, ...]:
    """A line for each need that got nothing, or less than it asked for, with the rule and the fact."""
    lines = []
    for number, need in enumerate(problem.needs):
        mine = [(option, units.get(at, 0)) for at, option in enumerate(choices.options) if option.need == number]
        minutes = sum(count for _, count in mine) * UNIT_MINUTES
        dose = sum(option.help * count for option, count in mine) * UNIT_MINUTES
        asked = " and ".join(need.because) or "a need"
        if number in choices.barred:
            lines.append(Omission(need.structure, need.side, f"{asked}; {choices.barred[number]}."))
        elif share_of_benefit(dose) < ENOUGH:
            got = "left for another time" if minutes == 0 else f"only {minutes:g} min"
            rule = _rule(need, [option for option, _ in mine], problem, choices, units, minutes_used, tables)
            lines.append(Omission(need.structure, need.side, f"{asked}; {got}, since {rule}."))
    return tuple(lines)


def refusal(problem: PlanProblem, choices: Choices, tables: Tables) -> str:
    """Why there is nothing to plan: the time booked, or what the limits bar."""
    if choices.barred:
        number, reason = min(choices.barred.items())
        need = problem.needs[number]
        return f"No plan for the {place((need.structure, need.side), tables)}: {reason}."
    barred = " and ".join(dict.fromkeys(problem.why.values()))
    if barred:
        return f"No plan: nothing may be worked, because of {barred}."
    if problem.needs:
        return f"No plan: nothing that helps fits into the {problem.minutes} minutes booked."
    return "No plan: there are no findings to work on, and no region to maintain."


def _clear_of(block: Block, tables: Tables) -> str:
    names = [name_of(structure, tables) for structure in block.clear_of]
    return f" Keep clear of the {', the '.join(names)}." if names else ""


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
    places = len({choices.options[at].need for at in units})
    if mine >= LONGEST_SITE_UNITS - 1:
        return f"one place is worked for {LONGEST_SITE_UNITS * UNIT_MINUTES:g} min at most"
    if mine == 0 and places >= most_places(problem.minutes):
        return f"{places} places are enough for {problem.minutes} min"
    room = (OPENING_UNITS + CLOSING_UNITS + SHORTEST_BLOCK_UNITS) * UNIT_MINUTES + problem.walk_round_minutes
    if problem.minutes - minutes_used < room:
        return f"the {problem.minutes} min booked do more good elsewhere in this plan"
    if all(option.thumb > 0 for option in options) and problem.thumb_minutes - spent < 1:
        return f"the thumbs have had the {problem.thumb_minutes:g} min that spare them"
    if cap != "firm":
        reason = because_of(key, need.side, problem, "by a limit that was set")
        return f"no more than {cap} pressure is allowed there, {reason}"
    return "left and right are kept in balance"
