"""What could be done: blocks (a region on a side, opened and closed) and the options inside them."""

from collections.abc import Sequence

from haywisp.knowledge import fits
from haywisp.knowledge.types import Tables
from haywisp.plan.blocks import make_block, no_opening, not_worked, of_stage, stand
from haywisp.plan.choices import Block, Choices, Option
from haywisp.plan.matching import matches_for
from haywisp.plan.sites import (
    HEAD_SHY,
    Site,
    barred_by,
    barred_inside,
    because_of,
    cap_at,
    pressure_for,
    usual_pressure,
)
from haywisp.plan.types import Need, PlanProblem
from haywisp.plan.units import CONTACT_UNITS, FEW_NEEDS, HEAD, PRESSURE_LOSS, PRESSURES, STAGES, bout_units

WORKING = ("opening", "preparing", "deep", "stretch")
# A light round over the whole body, in the order in which it is offered; common practice, no source.
MAINTENANCE = ("neck", "shoulder", "back", "loin", "croup", "hamstrings")
# Where hands rest first: the neck base and withers settle most (Feh and de Mazières 1993, secondary).
GREETING = ("withers", "neck", "shoulder", "back")


def choices_for(problem: PlanProblem, tables: Tables) -> Choices:
    """Every block and option that tables and limits allow, in a fixed order."""
    blocks: dict[Site, Block] = {}
    options: list[Option] = []
    barred: dict[int, str] = {}
    order: list[Site] = []
    for number, need in enumerate(problem.needs):
        key = tables.structures[need.structure].region, _block_side(need, problem, tables)
        reason = _barred(need, problem, tables)
        block = None if reason else blocks.get(key) or make_block(key, stand(key[1], problem), problem, tables)
        if reason is None and block is None:
            reason = no_opening(key, problem, tables)
        if reason is None and block is not None:
            place_in = order.index(key) if key in blocks else len(order)
            found, reason = _options(number, need, place_in, problem, tables)
            options += found
            if reason is None and key not in blocks:
                blocks[key] = block
                order.append(key)
        if reason is not None:
            barred[number] = reason
    found_blocks = [blocks[key] for key in order]
    matches, alone = matches_for(found_blocks, problem, tables)
    return Choices(
        _greeting(problem, tables),
        tuple(found_blocks),
        tuple(options),
        _maintenance(problem, tables),
        barred,
        matches,
        alone,
    )


def _greeting(problem: PlanProblem, tables: Tables) -> tuple[str, str, int] | None:
    """Technique, structure and units of the first contact; None where no place may be touched."""
    for technique in of_stage("contact", problem, tables):
        for structure in (*GREETING, *tables.structures):
            row = tables.structures.get(structure)
            if row is None or not fits(technique, row) or (problem.head_shy and row.region in HEAD):
                continue
            if barred_by((structure, None), problem, tables) is None:
                return technique.id, structure, CONTACT_UNITS
    return None


def _barred(need: Need, problem: PlanProblem, tables: Tables) -> str | None:
    site = need.structure, need.side
    bar = barred_by(site, problem, tables)
    if bar is None:
        bar = next(iter(barred_inside(site, problem, tables)), None)
    return None if bar is None else not_worked(bar, need.side, problem)


def _block_side(need: Need, problem: PlanProblem, tables: Tables) -> str | None:
    """A midline structure of a paired region is worked from one side: where there is more to do and one may."""
    region = tables.structures[need.structure].region
    if need.side is not None or not tables.structures[region].paired:
        return need.side

    def wanted(side: str) -> tuple[bool, float, bool]:
        here = [
            other.weight
            for other in problem.needs
            if other.side == side and tables.structures[other.structure].region == region
        ]
        return barred_by((region, side), problem, tables) is None, sum(here), side == stand(None, problem)

    return max(("left", "right"), key=wanted)


def _options(
    number: int, need: Need, block: int, problem: PlanProblem, tables: Tables
) -> tuple[list[Option], str | None]:
    site = need.structure, need.side
    row = tables.structures[need.structure]
    cap, key = cap_at(site, problem, tables)
    options: list[Option] = []
    lost: list[str] = []
    for technique in tables.techniques.values():
        helps = need.helps.get(technique.id, 0.0)
        if technique.stage not in WORKING or not fits(technique, row):
            continue
        if helps <= 0 and technique.stage != "preparing":
            continue
        if problem.head_shy and row.region in HEAD and technique.stage == "stretch":
            lost.append(because_of(HEAD_SHY, need.side, problem, "the head of a head-shy horse not being moved"))
            continue
        pressure = pressure_for(technique, row, cap)
        if technique.id in problem.techniques_excluded or pressure is None:
            lost.append(
                because_of(
                    technique.id if pressure else key, need.side, problem, f"at most {cap} pressure being allowed"
                )
            )
            continue
        steps = PRESSURES.index(usual_pressure(technique, row)) - PRESSURES.index(pressure)
        shortest, longest = bout_units(technique.id, technique.stage, helps, technique.minutes_per_pass)
        options.append(
            Option(
                number,
                block,
                technique.id,
                technique.stage,
                pressure,
                helps * (1 - PRESSURE_LOSS * steps),
                technique.loads.get("thumb", 0.0),
                shortest,
                longest,
            )
        )
    if any(option.help > 0 for option in options):
        return _worth_offering(options, opened=row.id == row.region), None
    why = " and ".join(dict.fromkeys(lost)) or "since none of the table suits it"
    return [], f"no technique that helps is allowed, {why}"


def _worth_offering(options: Sequence[Option], *, opened: bool) -> list[Option]:
    """Options that help, and of those that only prepare the one that spares the thumb most.

    Where the block is ``opened`` by strokes over this very place, more of them are work only where nothing else helps.
    """
    helping = [option for option in options if option.help > 0]
    if opened:
        helping = [option for option in helping if option.stage != "opening"] or helping
    only_preparing = [option for option in options if option.help <= 0]
    spare = min(only_preparing, key=lambda option: (option.thumb, option.shortest), default=None)
    kept = helping + ([spare] if spare else [])
    return sorted(kept, key=lambda option: (STAGES.index(option.stage), option.technique))


def _maintenance(problem: PlanProblem, tables: Tables) -> tuple[Block, ...]:
    """Regions for a light round, each side once: where no more than the midline is excluded, unless needs are many."""
    if len(problem.needs) > FEW_NEEDS:
        return ()
    found = []
    for region in MAINTENANCE:
        row = tables.structures.get(region)
        for side in ("left", "right") if row is not None and row.paired else (None,):
            block = None if row is None else make_block((region, side), stand(side, problem), problem, tables)
            if block is not None and not any(tables.structures[held].paired for held in block.clear_of):
                found.append(block)
    return tuple(found)
