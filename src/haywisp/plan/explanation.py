"""Why each bout is in the plan, and why a need was left out or got less than it asked for."""

from collections.abc import Iterable, Mapping, Sequence

from haywisp.knowledge.types import Tables
from haywisp.plan.choices import Block, Choices, Match, Option
from haywisp.plan.matching import left_alone, matched
from haywisp.plan.sites import HEAD_SHY, across, barred_by, because_of, cap_at, name_of, place, usual_pressure
from haywisp.plan.types import Need, Omission, PlanProblem
from haywisp.plan.units import (
    CLOSING_UNITS,
    ENOUGH,
    HEAD,
    HEAD_SHY_UNITS,
    HEAD_WORK_UNITS,
    HOLDS,
    LEFT_OVER_MINUTES,
    LONGEST_SITE_UNITS,
    NOT_FELT,
    OPENING_UNITS,
    SHORTEST_BLOCK_UNITS,
    UNIT_MINUTES,
    most_places,
    share_of_benefit,
)


def asked_words(phrases: Iterable[str]) -> str:
    """Findings joined; those that stand from the same earlier visit are told together."""
    notes: dict[str, list[str]] = {}
    for phrase in phrases:
        what, begins, day = phrase.partition(NOT_FELT)
        notes.setdefault(begins + day, []).append(what)
    return " and ".join(_joined(named) + note for note, named in notes.items())


def _joined(names: Sequence[str]) -> str:
    return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]]))


def why_contact() -> str:
    """Why the hands rest first."""
    return "Hands rest first: the horse knows who is there, and answers before anything is asked of it."


def why_opening(block: Block, tables: Tables, *, worked: bool = True) -> str:
    """Why a block is opened, and what the strokes keep clear of."""
    where = place((block.region, block.side), tables)
    return f"Opens the {where}{' before its work' if worked else ''}.{_clear_of(block, tables)}"


def why_closing(block: Block, tables: Tables, *, worked: bool = True) -> str:
    """Why a block is closed."""
    where = place((block.region, block.side), tables)
    return f"Closes the {where} with long strokes{' after its work' if worked else ''}.{_clear_of(block, tables)}"


def why_maintenance(block: Block, problem: PlanProblem, tables: Tables) -> str:
    """Why a region that nothing else is planned for is stroked."""
    inside = {block.region, *(row.id for row in tables.structures.values() if row.region == block.region)}
    found = [need for need in problem.needs if need.structure in inside and need.side in (None, block.side)]
    cap, key = cap_at((block.region, block.side), problem, tables)
    if found:
        asked = asked_words(dict.fromkeys(phrase for need in found for phrase in need.because))
        text = f"Light round: {asked} asks for more than there is room for here."
    elif cap == "light" and key != "pressure":
        text = f"Light round, and no more, {because_of(key, block.side, problem, 'by a limit that was set')}."
    else:
        text = "Light round: nothing was found here that asks for more."
    return f"{text}{_clear_of(block, tables)}"


def why_match(match: Match, across_from: Block, tables: Tables) -> str:
    """Why the side across from what is worked gets light attention."""
    worked = place((across_from.region, across_from.side), tables)
    if match.loosening:
        return f"Light attention, to match the work on the {worked}."
    kept = _clear_of(match.block, tables) or " Nothing that would loosen it is allowed here."
    return f"Strokes alone, to match the work on the {worked}.{kept}"


def left_over(problem: PlanProblem, minutes_used: float, tables: Tables) -> str:
    """What to do in the time that is not planned; "" where little is."""
    minutes = problem.minutes - minutes_used
    if minutes < LEFT_OVER_MINUTES:
        return ""
    sites = [(need.structure, need.side) for need in problem.needs]
    felt = [place(site, tables) for site in sites if barred_by(site, problem, tables) is None][:2]
    again = f"to feel the {' and the '.join(felt)} again" if felt else "to feel again what you were unsure of"
    return (
        f"You have about {round(minutes)} minutes left: use them to watch the horse walk and turn before and after, "
        f"{again}, and to see how far neck and limbs move when the horse offers it."
    )


def why_work(option: Option, need: Need, problem: PlanProblem, tables: Tables) -> str:
    """Which findings a bout is for, and what holds its pressure down."""
    technique = tables.techniques[option.technique]
    found = asked_words(need.because)
    text = f"For {found}." if option.help > 0 else "Loosens the tissue for what follows here."
    if all(NOT_FELT in phrase for phrase in need.because) and need.because:
        text += " Feel it again first."
    if option.technique in HOLDS:
        text += f" Hold a spot for seconds, {HOLDS[option.technique][1] * 30} at most; let go and feel again."
    if option.pressure == usual_pressure(technique, tables.structures[need.structure]):
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
        asked = asked_words(need.because) or "a need"
        if number in choices.barred:
            lines.append(Omission(need.structure, need.side, f"{asked}; {choices.barred[number]}."))
        elif share_of_benefit(dose) < ENOUGH:
            got = f"only {minutes:g} min" if minutes else _instead(need, problem, choices, units, tables)
            rule = _rule(need, [option for option, _ in mine], problem, choices, units, minutes_used, tables)
            lines.append(Omission(need.structure, need.side, f"{asked}; {got}, since {rule}."))
    return (*lines, *_unmatched(problem, choices, units, tables))


def _unmatched(problem: PlanProblem, choices: Choices, units: Mapping[int, int], tables: Tables) -> list[Omission]:
    """A line for each side that gets nothing although the side across from it is worked."""
    lines = []
    for number, why in left_alone(choices, units, problem).items():
        block = choices.blocks[number]
        worked = place((block.region, block.side), tables)
        lines.append(Omission(block.region, across(block.side), f"not matched to the {worked}: {why}."))
    return lines


def refusal(problem: PlanProblem, choices: Choices, tables: Tables) -> str:
    """Why there is nothing to plan: the time booked, or what the limits bar."""
    if choices.barred:
        number, reason = min(choices.barred.items())
        need = problem.needs[number]
        return f"No plan for the {place((need.structure, need.side), tables)}: {reason}."
    barred = " and ".join(dict.fromkeys(why for key, why in problem.why.items() if key != HEAD_SHY))
    if barred:
        return f"No plan: nothing may be worked, because of {barred}."
    if problem.needs:
        return f"No plan: nothing that helps fits into the {problem.minutes} minutes booked."
    return "No plan: there are no findings to work on, and no region to maintain."


def _clear_of(block: Block, tables: Tables) -> str:
    within = {*block.clear_of}
    rows = [tables.structures[structure] for structure in block.clear_of]
    names = [name_of(row.id, tables) for row in rows if row.id == row.region or row.region not in within]
    return f" Keep clear of the {', the '.join(names)}." if names else ""


def _instead(need: Need, problem: PlanProblem, choices: Choices, units: Mapping[int, int], tables: Tables) -> str:
    key = tables.structures[need.structure].region, need.side
    light = any((match.block.region, match.block.side) == key for match in matched(choices, units, problem))
    return "loosened lightly and otherwise left for another time" if light else "left for another time"


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
    if problem.head_shy and tables.structures[need.structure].region in HEAD:
        return f"the head of a head-shy horse comes last and gets {HEAD_SHY_UNITS * UNIT_MINUTES:g} min at most"
    if tables.structures[need.structure].region in HEAD and options:
        block = options[0].block
        if sum(count for at, count in units.items() if choices.options[at].block == block) >= HEAD_WORK_UNITS - 1:
            return f"the head is worked for {HEAD_WORK_UNITS * UNIT_MINUTES:g} min at most in one place"
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
