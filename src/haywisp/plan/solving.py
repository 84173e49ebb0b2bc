"""From the problem to the plan: allocate, put in order, count the true walking, and explain."""

from collections.abc import Mapping, Sequence

from haywisp.knowledge.types import Tables
from haywisp.plan.allocation import Allocation, allocate
from haywisp.plan.choices import Block, Choices, Match
from haywisp.plan.explanation import (
    left_over,
    omissions,
    refusal,
    why_closing,
    why_contact,
    why_maintenance,
    why_match,
    why_opening,
    why_work,
)
from haywisp.plan.matching import matched
from haywisp.plan.options import choices_for
from haywisp.plan.sequence import START, sequence, walks
from haywisp.plan.types import Plan, PlannedBout, PlanProblem
from haywisp.plan.units import (
    CLOSING_UNITS,
    CONTACT_UNITS,
    MATCHING_UNITS,
    OPENING_UNITS,
    SHORTEST_SESSION_MINUTES,
    STAGES,
    UNIT_MINUTES,
    share_of_benefit,
)

NODE_LIMIT = 20_000
MOST_WALKS = 4  # left, right, and the poll's two sides at the end

Step = tuple[str, str, str | None, int, str, str]  # technique, structure, side, units, pressure, why


def solve(problem: PlanProblem, tables: Tables, *, seed: int = 0, node_limit: int = NODE_LIMIT) -> Plan:
    """The plan of most benefit, with its proof (``optimal``) or gap, or a plan of status ``none`` that says why not.

    The same problem, tables and seed give the same plan on the same solver: it is stopped by nodes, never by time.
    """
    if problem.refusal:
        return _none(problem.refusal)
    if problem.minutes < SHORTEST_SESSION_MINUTES:
        return _none(
            f"No plan: {problem.minutes} minutes are booked. {CONTACT_UNITS * UNIT_MINUTES:g} min of hands resting, "
            f"and opening, working and closing one region, want {SHORTEST_SESSION_MINUTES} at least: book more time, "
            "or make it a visit to look and feel only."
        )
    choices = choices_for(problem, tables)
    if choices.greeting is None or not (choices.options or choices.maintenance):
        return _none(refusal(problem, choices, tables))
    for further in range(MOST_WALKS):
        found = allocate(problem, choices, tables, further_walks=further, seed=seed, node_limit=node_limit)
        if found.gap is None:
            break
        plan = assemble(problem, choices, found, tables)
        if plan.minutes_used <= problem.minutes:
            return plan if len(plan.bouts) > 1 else _none(refusal(problem, choices, tables))
    return _none(f"No plan: nothing that helps fits into the {problem.minutes} minutes booked.")


def _none(why: str) -> Plan:
    return Plan("none", (), (), 0.0, 0.0, 0.0, why)


def assemble(problem: PlanProblem, choices: Choices, found: Allocation, tables: Tables) -> Plan:
    """The plan of an allocation: its blocks in order, each opened, worked and closed, and what was left out."""
    worked = sorted({choices.options[at].block for at in found.units})
    parts: list[tuple[Block, list[Step]]] = [
        (choices.blocks[number], _work(number, problem, choices, found.units, tables)) for number in worked
    ]
    parts += [
        (choices.maintenance[number], [_maintenance(choices.maintenance[number], units, problem, tables)])
        for number, units in found.maintenance.items()
    ]
    parts += [(match.block, _match(match, choices, tables)) for match in matched(choices, found.units, problem)]
    order = sequence([block for block, _ in parts], head_last=problem.head_shy)
    steps = [_contact(choices), *(step for number in order for step in parts[number][1])]
    bouts = tuple(
        PlannedBout(number, technique, structure, side, units * UNIT_MINUTES, pressure, why)
        for number, (technique, structure, side, units, pressure, why) in enumerate(steps, start=1)
    )
    minutes = sum(bout.minutes for bout in bouts)
    minutes += problem.walk_round_minutes * walks([bout.side for bout in bouts])
    gap = found.gap or 0.0
    return Plan(
        "feasible" if gap else "optimal",
        bouts,
        omissions(problem, choices, found.units, minutes, tables),
        _benefit(problem, choices, found.units),
        gap,
        minutes,
        left_over=left_over(problem, minutes, tables),
    )


def _benefit(problem: PlanProblem, choices: Choices, units: Mapping[int, int]) -> float:
    doses = [0.0] * len(problem.needs)
    for at, count in units.items():
        doses[choices.options[at].need] += choices.options[at].help * count * UNIT_MINUTES
    return sum((need.weight * share_of_benefit(dose) for need, dose in zip(problem.needs, doses, strict=True)), 0.0)


def _contact(choices: Choices) -> Step:
    assert choices.greeting is not None
    technique, structure, units = choices.greeting
    return technique, structure, None, units, "light", why_contact()


def _maintenance(block: Block, units: int, problem: PlanProblem, tables: Tables) -> Step:
    return block.opening, block.region, block.side, units, "light", why_maintenance(block, problem, tables)


def _match(match: Match, choices: Choices, tables: Tables) -> list[Step]:
    """The side across from what is worked: strokes, loosening, strokes; or strokes alone."""
    block = match.block
    why = why_match(match, choices.blocks[match.across], tables)
    if not match.loosening:
        return [(block.opening, block.region, block.side, match.units, "light", why)]
    return [
        (block.opening, block.region, block.side, OPENING_UNITS, "light", why_opening(block, tables, worked=False)),
        (match.loosening, block.region, block.side, MATCHING_UNITS, "light", why),
        (block.closing, block.region, block.side, CLOSING_UNITS, "light", why_closing(block, tables, worked=False)),
    ]


def _work(number: int, problem: PlanProblem, choices: Choices, units: Mapping[int, int], tables: Tables) -> list[Step]:
    """The bouts of one block: opening, structure by structure from the withers outwards, stretches, then closing."""
    block = choices.blocks[number]
    chosen = [at for at in units if choices.options[at].block == number]
    steps: list[Step] = [
        (block.opening, block.region, block.side, OPENING_UNITS, "light", why_opening(block, tables)),
    ]
    for at in _in_order(chosen, problem, choices, tables):
        option = choices.options[at]
        need = problem.needs[option.need]
        why = why_work(option, need, problem, tables)
        steps.append((option.technique, need.structure, need.side, units[at], option.pressure, why))
    steps.append((block.closing, block.region, block.side, CLOSING_UNITS, "light", why_closing(block, tables)))
    return steps


def _in_order(chosen: Sequence[int], problem: PlanProblem, choices: Choices, tables: Tables) -> list[int]:
    """The hands stay on a structure until it is done; what is worked deep at once waits for what was loosened first.

    Common practice, no source.
    """
    away = _away_from_withers(tables)
    loosened = {choices.options[at].need for at in chosen if choices.options[at].stage == "preparing"}

    def place_in_order(at: int) -> tuple[bool, bool, int, str, int, str]:
        option = choices.options[at]
        structure = problem.needs[option.need].structure
        return (
            option.stage == "stretch",
            option.need not in loosened,
            away.get(structure, len(away)),
            structure,
            STAGES.index(option.stage),
            option.technique,
        )

    return sorted(chosen, key=place_in_order)


def _away_from_withers(tables: Tables) -> dict[str, int]:
    """How many neighbours lie between each structure and the withers: the hand goes out from there."""
    away = {START: 0} if START in tables.structures else {}
    edge: Sequence[str] = list(away)
    while edge:
        edge = [near for structure in edge for near in _near(structure, tables) if near not in away]
        away.update(dict.fromkeys(edge, max(away.values(), default=0) + 1))
    return away


def _near(structure: str, tables: Tables) -> list[str]:
    row = tables.structures[structure]
    held = [each.id for each in tables.structures.values() if each.region == structure]
    return [near for near in (*row.neighbours, row.region, *held) if near in tables.structures]
