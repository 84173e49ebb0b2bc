"""The side across from what is worked: light attention to it, or the reason why it gets none."""

from collections.abc import Collection, Sequence

from haywisp.knowledge import fits
from haywisp.knowledge.types import Tables, Technique
from haywisp.plan.blocks import make_block, no_opening, of_stage
from haywisp.plan.choices import Block, Choices, Match
from haywisp.plan.sites import Site, across
from haywisp.plan.types import PlanProblem
from haywisp.plan.units import HEAD, HEAD_SHY_UNITS, MATCHED_FROM_MINUTES, MATCHING_UNITS, UNIT_MINUTES


def matched(choices: Choices, used: Collection[int], problem: PlanProblem) -> list[Match]:
    """The matches that options in use ask for: the other side of a pair, unless it is worked itself."""
    worked = {choices.options[at].block for at in used}
    asking = _asking(choices, used, problem)
    sites = {(choices.blocks[number].region, choices.blocks[number].side) for number in worked}
    return [
        match
        for match in choices.matches
        if match.across in asking and (match.block.region, match.block.side) not in sites
    ]


def left_alone(choices: Choices, used: Collection[int], problem: PlanProblem) -> dict[int, str]:
    """Why the other side gets nothing, for each block in use that asks for it in vain."""
    asking = _asking(choices, used, problem)
    worked = {choices.options[at].block for at in used}
    sites = {(choices.blocks[number].region, choices.blocks[number].side) for number in worked}
    return {
        number: why
        for number, why in choices.alone.items()
        if number in asking and (choices.blocks[number].region, across(choices.blocks[number].side)) not in sites
    }


def _asking(choices: Choices, used: Collection[int], problem: PlanProblem) -> set[int]:
    """The blocks in which a side of a pair is worked."""
    return {
        choices.options[at].block for at in used if across(problem.needs[choices.options[at].need].side) is not None
    }


def matches_for(
    blocks: Sequence[Block], problem: PlanProblem, tables: Tables
) -> tuple[tuple[Match, ...], dict[int, str]]:
    """What each side worked asks of the side across from it, or why that can't be."""
    found: list[Match] = []
    alone: dict[int, str] = {}
    for number, one in enumerate(blocks):
        other = across(one.side)
        if other is None:
            continue
        key = one.region, other
        block = make_block(key, other, problem, tables)
        if problem.head_shy and one.region in HEAD:
            alone[number] = f"the head of a head-shy horse gets {HEAD_SHY_UNITS * UNIT_MINUTES:g} min at most"
        elif problem.minutes < MATCHED_FROM_MINUTES:
            alone[number] = f"{problem.minutes} min do not hold both sides; give it a few strokes in passing"
        elif block is None:
            alone[number] = no_opening(key, problem, tables)
        else:
            loosening = None if block.clear_of else _loosening(key, problem, tables)
            thumb = loosening.loads.get("thumb", 0.0) if loosening else 0.0
            found.append(Match(number, block, loosening.id if loosening else "", thumb))
    return tuple(found), alone


def _loosening(key: Site, problem: PlanProblem, tables: Tables) -> Technique | None:
    """A light technique that loosens a region whole: of those made to be light the one that helps tightness most."""
    row = tables.structures[key[0]]
    able = [
        each
        for each in of_stage("preparing", problem, tables)
        if fits(each, row) and each.minutes_per_pass <= MATCHING_UNITS * UNIT_MINUTES
    ]
    return min(
        able,
        key=lambda each: (each.loads.get("thumb", 0.0), each.deepest != "light", -each.helps.get("tone:tight", 0.0)),
        default=None,
    )
