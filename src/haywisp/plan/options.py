"""What could be done: blocks (a region on a side, opened and closed) and the options inside them."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.knowledge import fits
from haywisp.knowledge.types import Tables, Technique
from haywisp.plan.sites import Site, barred_by, barred_inside, because_of, cap_at, place, pressure_for, usual_pressure
from haywisp.plan.types import Need, PlanProblem
from haywisp.plan.units import (
    CONTACT_UNITS,
    FEW_NEEDS,
    LONGEST_BOUT_UNITS,
    PRESSURE_LOSS,
    PRESSURES,
    STAGES,
    shortest_bout,
    units_in,
)

WORKING = ("opening", "preparing", "deep", "stretch")
# A light round over the whole body, in the order in which it is offered; common practice, no source.
MAINTENANCE = ("neck", "shoulder", "back", "loin", "croup", "hamstrings")
# Where hands rest first: the neck base and withers settle most (Feh and de Mazières 1993, secondary).
GREETING = ("withers", "neck", "shoulder", "back")


@dataclass(frozen=True, slots=True)
class Block:
    """A region on a side, the techniques that open and close it, and the side that one stands on for it."""

    region: str
    side: str | None
    stand: str
    opening: str
    closing: str
    clear_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Option:
    """One technique for one need: ``help`` is after loss by a cap; units are halves of a minute."""

    need: int
    block: int
    technique: str
    stage: str
    pressure: str
    help: float
    thumb: float
    shortest: int
    longest: int


@dataclass(frozen=True, slots=True)
class Choices:
    """All that may be chosen from; ``barred`` says for the index of a need why nothing may be done for it."""

    greeting: tuple[str, str, int] | None
    blocks: tuple[Block, ...]
    options: tuple[Option, ...]
    maintenance: tuple[Block, ...]
    barred: dict[int, str]


def choices_for(problem: PlanProblem, tables: Tables) -> Choices:
    """Every block and option that tables and limits allow, in a fixed order."""
    blocks: dict[Site, Block] = {}
    options: list[Option] = []
    barred: dict[int, str] = {}
    order: list[Site] = []
    for number, need in enumerate(problem.needs):
        key = tables.structures[need.structure].region, _block_side(need, problem, tables)
        reason = _barred(need, problem, tables)
        block = None if reason else blocks.get(key) or _block(key, _stand(key[1], problem), problem, tables)
        if reason is None and block is None:
            reason = _no_opening(key, problem, tables)
        if reason is None and block is not None:
            place_in = order.index(key) if key in blocks else len(order)
            found, reason = _options(number, need, place_in, problem, tables)
            options += found
            if reason is None and key not in blocks:
                blocks[key] = block
                order.append(key)
        if reason is not None:
            barred[number] = reason
    return Choices(
        _greeting(problem, tables),
        tuple(blocks[key] for key in order),
        tuple(options),
        _maintenance(problem, tables),
        barred,
    )


def _greeting(problem: PlanProblem, tables: Tables) -> tuple[str, str, int] | None:
    """Technique, structure and units of the first contact; None where no place may be touched."""
    for technique in _of_stage("contact", problem, tables):
        for structure in (*GREETING, *tables.structures):
            row = tables.structures.get(structure)
            if row is not None and fits(technique, row) and barred_by((structure, None), problem, tables) is None:
                return technique.id, structure, CONTACT_UNITS
    return None


def _of_stage(stage: str, problem: PlanProblem, tables: Tables) -> list[Technique]:
    return [
        technique
        for technique in tables.techniques.values()
        if technique.stage == stage and technique.id not in problem.techniques_excluded
    ]


def _barred(need: Need, problem: PlanProblem, tables: Tables) -> str | None:
    site = need.structure, need.side
    bar = barred_by(site, problem, tables)
    if bar is None:
        bar = next(iter(barred_inside(site, problem, tables)), None)
    return None if bar is None else _not_worked(bar, need.side, problem)


def _not_worked(bar: str, side: str | None, problem: PlanProblem) -> str:
    return f"not to be worked, {because_of(bar, side, problem, 'by a limit that was set')}"


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
        return barred_by((region, side), problem, tables) is None, sum(here), side == _stand(None, problem)

    return max(("left", "right"), key=wanted)


def _stand(side: str | None, problem: PlanProblem) -> str:
    if side is not None:
        return side
    right = sum(need.weight for need in problem.needs if need.side == "right")
    left = sum(need.weight for need in problem.needs if need.side == "left")
    return "right" if right > left else "left"


def _block(key: Site, stand: str, problem: PlanProblem, tables: Tables) -> Block | None:
    row = tables.structures[key[0]]
    if barred_by(key, problem, tables) is not None:
        return None
    openings = [each.id for each in _of_stage("opening", problem, tables) if fits(each, row)]
    closings = [each.id for each in _of_stage("closing", problem, tables) if fits(each, row)] + openings
    if not openings:
        return None
    return Block(key[0], key[1], stand, openings[0], closings[0], barred_inside(key, problem, tables))


def _no_opening(key: Site, problem: PlanProblem, tables: Tables) -> str:
    bar = barred_by(key, problem, tables)
    if bar is not None:
        return _not_worked(bar, key[1], problem)
    lost = [
        because_of(each.id, None, problem, f"{each.name.lower()} being excluded")
        for each in tables.techniques.values()
        if each.stage == "opening" and each.id in problem.techniques_excluded
    ]
    why = " and ".join(dict.fromkeys(lost)) or "since no technique suits it"
    return f"no opening strokes are allowed on the {place(key, tables)}, {why}"


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
        pressure = pressure_for(technique, cap)
        if technique.id in problem.techniques_excluded or pressure is None:
            lost.append(
                because_of(
                    technique.id if pressure else key, need.side, problem, f"at most {cap} pressure being allowed"
                )
            )
            continue
        steps = PRESSURES.index(usual_pressure(technique)) - PRESSURES.index(pressure)
        options.append(
            Option(
                number,
                block,
                technique.id,
                technique.stage,
                pressure,
                helps * (1 - PRESSURE_LOSS * steps),
                technique.loads.get("thumb", 0.0),
                max(shortest_bout(technique.stage, helps), units_in(technique.minutes_per_pass)),
                max(LONGEST_BOUT_UNITS[technique.stage], units_in(technique.minutes_per_pass)),
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
    """Regions for a light round, each side once; none where something inside is excluded, or needs are many."""
    if len(problem.needs) > FEW_NEEDS:
        return ()
    found = []
    for region in MAINTENANCE:
        row = tables.structures.get(region)
        for side in ("left", "right") if row is not None and row.paired else (None,):
            block = None if row is None else _block((region, side), _stand(side, problem), problem, tables)
            if block is not None and not block.clear_of:
                found.append(block)
    return tuple(found)
