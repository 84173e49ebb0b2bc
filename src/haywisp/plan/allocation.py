"""How many units each option gets: a mixed-integer model with concave benefit, solved by HiGHS."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from random import Random

from haywisp.knowledge.types import Tables
from haywisp.plan.choices import Block, Choices, Option
from haywisp.plan.sites import across
from haywisp.plan.types import PlanProblem
from haywisp.plan.units import (
    CLOSING_UNITS,
    HEAD,
    HEAD_SHY_UNITS,
    HEAD_SHY_WORK_UNITS,
    HEAD_WORK_UNITS,
    HOLDS,
    KNOTTED,
    LONGEST_SITE_UNITS,
    MAINTENANCE_UNITS,
    MATCHING_UNITS,
    OPENING_UNITS,
    PAIR_RATIO,
    SEGMENTS,
    SHORTEST_BLOCK_UNITS,
    UNIT_MINUTES,
    most_places,
)

UNIT_COST = 1e-5  # keeps minutes that do no good out of the plan
MAINTENANCE_BENEFIT = (1.0e-4, 0.5e-4)  # per unit, up to and beyond the fewest: far below any need
PERTURBATION = 1e-5  # relative; breaks ties the same way every time
RELATIVE_GAP = 1e-6
PROVED, STOPPED = 0, 1  # status of scipy.optimize.milp


@dataclass(frozen=True, slots=True)
class Allocation:
    """Units by index of option and of maintenance block; ``gap`` is 0 when proved optimal, None when none was found."""

    units: Mapping[int, int]
    maintenance: Mapping[int, int]
    gap: float | None


class _Model:
    """Columns and rows as they are named, handed to the solver in one go."""

    def __init__(self) -> None:
        self.worth: list[float] = []
        self.upper: list[float] = []
        self.whole: list[int] = []
        self.rows: list[tuple[dict[int, float], float]] = []

    def column(self, upper: float, *, worth: float = 0.0, whole: bool = True) -> int:
        self.worth.append(worth)
        self.upper.append(upper)
        self.whole.append(int(whole))
        return len(self.worth) - 1

    def at_most(self, row: Mapping[int, float], bound: float) -> None:
        self.rows.append((dict(row), bound))

    def solve(self, node_limit: int) -> tuple[list[float] | None, float | None]:
        """Values of the columns, and the relative gap (0 when proved)."""
        import numpy as np
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import csr_array

        at = [(number, column, value) for number, (row, _) in enumerate(self.rows) for column, value in row.items()]
        numbers, columns, values = zip(*at, strict=True)
        matrix = csr_array((values, (numbers, columns)), shape=(len(self.rows), len(self.worth)))
        result = milp(
            -np.array(self.worth),
            integrality=np.array(self.whole),
            bounds=Bounds(0, np.array(self.upper)),
            constraints=LinearConstraint(matrix, -np.inf, np.array([bound for _, bound in self.rows])),
            options={"node_limit": node_limit, "mip_rel_gap": RELATIVE_GAP},
        )
        if result.x is None:
            return None, None
        gap = 0.0 if result.status == PROVED else max(float(result.mip_gap), RELATIVE_GAP)
        return [float(value) for value in result.x], gap


def allocate(
    problem: PlanProblem, choices: Choices, tables: Tables, *, further_walks: int, seed: int, node_limit: int
) -> Allocation:
    """The best units within the time booked, with ``further_walks`` round the horse beyond those it needs at least."""
    model = _Model()
    shake = Random(seed)
    fixed = choices.greeting[2] if choices.greeting else 0
    time: dict[int, float] = {}
    blocks = [model.column(1) for _ in choices.blocks]
    for block in blocks:
        time[block] = OPENING_UNITS + CLOSING_UNITS
    used = [model.column(1) for _ in choices.options]
    units = [model.column(option.longest, worth=-UNIT_COST) for option in choices.options]
    time.update(dict.fromkeys(units, 1.0))
    for option, use, unit in zip(choices.options, used, units, strict=True):
        model.at_most({unit: 1, use: -option.longest}, 0)
        model.at_most({unit: -1, use: option.shortest}, 0)
        model.at_most({use: 1, blocks[option.block]: -1}, 0)
    _benefit(model, problem, choices.options, units, shake)
    _preparation(model, choices, used, tables)
    _knots(model, problem, choices.options, used)
    _sites_and_pairs(model, problem, choices.options, used, units)
    matches = _matches(model, problem, choices, blocks, used)
    time.update({column: match.units for column, match in zip(matches, choices.matches, strict=True)})
    thumbs = {unit: option.thumb * UNIT_MINUTES for option, unit in zip(choices.options, units, strict=True)}
    for column, match in zip(matches, choices.matches, strict=True):
        thumbs[column] = match.thumb * MATCHING_UNITS * UNIT_MINUTES
    model.at_most(thumbs, problem.thumb_minutes)
    for number, block in enumerate(blocks):
        inside = [use for option, use in zip(choices.options, used, strict=True) if option.block == number]
        model.at_most({block: 1, **dict.fromkeys(inside, -1)}, 0)
        work = [unit for unit, option in zip(units, choices.options, strict=True) if option.block == number]
        shy = problem.head_shy and choices.blocks[number].region in HEAD
        least = HEAD_SHY_WORK_UNITS if shy else SHORTEST_BLOCK_UNITS
        model.at_most({block: least, **dict.fromkeys(work, -1)}, 0)
        if choices.blocks[number].region in HEAD:
            model.at_most(dict.fromkeys(work, 1), HEAD_WORK_UNITS)
    rounds, round_units = _maintenance(model, choices, blocks, matches, shake)
    time.update(dict.fromkeys(round_units, 1.0))
    placed = [
        *zip(choices.blocks, blocks, strict=True),
        *zip([match.block for match in choices.matches], matches, strict=True),
        *zip(choices.maintenance, rounds, strict=True),
    ]
    if problem.head_shy:
        _head_last(model, choices, placed, blocks, units)
    walks = _walks(model, placed)
    walk_units = problem.walk_round_minutes / UNIT_MINUTES
    time[walks] = walk_units
    model.at_most(time, problem.minutes / UNIT_MINUTES - fixed - further_walks * walk_units)

    values, gap = model.solve(node_limit)
    if values is None:
        return Allocation({}, {}, None)
    chosen = {number: round(values[unit]) for number, unit in enumerate(units)}
    rounds_chosen = {number: round(values[unit]) for number, unit in enumerate(round_units)}
    return Allocation(
        {number: count for number, count in chosen.items() if count},
        {number: count for number, count in rounds_chosen.items() if count},
        gap,
    )


def _benefit(
    model: _Model, problem: PlanProblem, options: Sequence[Option], units: Sequence[int], shake: Random
) -> None:
    """Benefit is weight times a concave share of the dose; its segments need no whole numbers."""
    for number, need in enumerate(problem.needs):
        tilt = 1 + PERTURBATION * shake.random()
        parts = [model.column(width, worth=need.weight * slope * tilt, whole=False) for width, slope in SEGMENTS]
        doses = {
            unit: -option.help * UNIT_MINUTES
            for option, unit in zip(options, units, strict=True)
            if option.need == number
        }
        model.at_most({**dict.fromkeys(parts, 1.0), **doses}, 0)


def _preparation(model: _Model, choices: Choices, used: Sequence[int], tables: Tables) -> None:
    """A technique that needs a stage before it is used only with an option of that stage in its block."""
    for option, use in zip(choices.options, used, strict=True):
        needs = tables.techniques[option.technique].needs
        if not needs or "opening" in needs:
            continue
        before = [
            other_use
            for other, other_use in zip(choices.options, used, strict=True)
            if other.block == option.block and other.stage in needs
        ]
        model.at_most({use: 1, **dict.fromkeys(before, -1)}, 0)


def _knots(model: _Model, problem: PlanProblem, options: Sequence[Option], used: Sequence[int]) -> None:
    """A knotted place is worked deep only where it is loosened itself and, where that is allowed, held."""
    for number, need in enumerate(problem.needs):
        if KNOTTED not in need.found:
            continue
        mine = [(option, use) for option, use in zip(options, used, strict=True) if option.need == number]
        loosens = [use for option, use in mine if option.stage == "preparing"]
        holds = [use for option, use in mine if option.technique in HOLDS]
        for option, use in mine:
            if option.stage == "deep":
                model.at_most({use: 1, **dict.fromkeys(loosens, -1)}, 0)
                if holds and use not in holds:
                    model.at_most({use: 1, **dict.fromkeys(holds, -1)}, 0)


def _matches(
    model: _Model, problem: PlanProblem, choices: Choices, blocks: Sequence[int], used: Sequence[int]
) -> list[int]:
    """A side of a pair is worked only where the side across is worked or matched too."""
    column_of = {(block.region, block.side): column for block, column in zip(choices.blocks, blocks, strict=True)}
    columns = []
    for match in choices.matches:
        column = model.column(1)
        other = column_of.get((match.block.region, match.block.side))
        instead = {column: -1.0} if other is None else {column: -1.0, other: -1.0}
        here = [
            (across(problem.needs[option.need].side) is not None, use)
            for option, use in zip(choices.options, used, strict=True)
            if option.block == match.across
        ]
        # Where no midline structure could be the reason for the block, one tighter row does for all of its options.
        asking = [blocks[match.across]] if all(sided for sided, _ in here) else [use for sided, use in here if sided]
        for use in asking:
            model.at_most({use: 1, **instead}, 0)
        columns.append(column)
    return columns


def _head_last(
    model: _Model,
    choices: Choices,
    placed: Sequence[tuple[Block, int]],
    blocks: Sequence[int],
    units: Sequence[int],
) -> None:
    """The head of a head-shy horse gets little, and only once another place has been worked or stroked."""
    elsewhere = [column for block, column in placed if block.region not in HEAD]
    spent: dict[int, float] = {}
    for number, block in enumerate(blocks):
        if choices.blocks[number].region in HEAD:
            model.at_most({block: 1, **dict.fromkeys(elsewhere, -1)}, 0)
            spent[block] = OPENING_UNITS + CLOSING_UNITS
            work = [unit for unit, option in zip(units, choices.options, strict=True) if option.block == number]
            spent.update(dict.fromkeys(work, 1.0))
    if spent:
        model.at_most(spent, HEAD_SHY_UNITS)


def _sites_and_pairs(
    model: _Model, problem: PlanProblem, options: Sequence[Option], used: Sequence[int], units: Sequence[int]
) -> None:
    """No site is worked too long and not too many are; of a pair that is worked neither side gets over a fifth more."""
    by_site: dict[tuple[str, str | None], list[int]] = {}
    for number, option in enumerate(options):
        need = problem.needs[option.need]
        by_site.setdefault((need.structure, need.side), []).append(number)
    worked: dict[tuple[str, str | None], int] = {}
    for site, numbers in by_site.items():
        model.at_most({units[number]: 1 for number in numbers}, LONGEST_SITE_UNITS)
        worked[site] = model.column(1, whole=False)
        for number in numbers:
            model.at_most({used[number]: 1, worked[site]: -1}, 0)
    if len(worked) > most_places(problem.minutes):
        model.at_most(dict.fromkeys(worked.values(), 1.0), most_places(problem.minutes))
    for structure, side in by_site:
        other = structure, across(side)
        if other in by_site and other[1] is not None:
            mine = {units[number]: 1.0 for number in by_site[structure, side]}
            theirs = {units[number]: -PAIR_RATIO for number in by_site[other]}
            model.at_most({**mine, **theirs, worked[other]: LONGEST_SITE_UNITS}, LONGEST_SITE_UNITS)


def _maintenance(
    model: _Model, choices: Choices, blocks: Sequence[int], matches: Sequence[int], shake: Random
) -> tuple[list[int], list[int]]:
    """Light rounds: never where it is worked or matched, and equal on both sides where neither is."""
    fewest, most = MAINTENANCE_UNITS
    worked = {(block.region, block.side): column for block, column in zip(choices.blocks, blocks, strict=True)}
    matched = {
        (match.block.region, match.block.side): column for match, column in zip(choices.matches, matches, strict=True)
    }
    given = [model.column(1) for _ in choices.maintenance]
    units: list[int] = []
    for block, give in zip(choices.maintenance, given, strict=True):
        tilt = 1 + PERTURBATION * shake.random()
        model.worth[give] = fewest * MAINTENANCE_BENEFIT[0] * tilt
        further = model.column(most - fewest, worth=MAINTENANCE_BENEFIT[1] * tilt)
        unit = model.column(most)
        model.at_most({further: 1, give: fewest, unit: -1}, 0)
        model.at_most({further: -1, give: -fewest, unit: 1}, 0)
        model.at_most({further: 1, give: -(most - fewest)}, 0)
        here = [taken[block.region, block.side] for taken in (worked, matched) if (block.region, block.side) in taken]
        if here:
            model.at_most({give: 1, **dict.fromkeys(here, 1)}, 1)
        units.append(unit)
    pairs = [(number, block.region) for number, block in enumerate(choices.maintenance)]
    for (one, region), (other, other_region) in pairwise(pairs):
        if region == other_region:
            taken = {worked[region, side]: -float(most) for side in ("left", "right") if (region, side) in worked}
            model.at_most({units[one]: 1, units[other]: -1, **taken}, 0)
            model.at_most({units[one]: -1, units[other]: 1, **taken}, 0)
    return given, units


def _walks(model: _Model, placed: Sequence[tuple[Block, int]]) -> int:
    """One walk round the horse when blocks on both sides are used."""
    sides = {side: model.column(1, whole=False) for side in ("left", "right")}
    walks = model.column(1, whole=False)
    for block, column in placed:
        model.at_most({column: 1, sides[block.stand]: -1}, 0)
    model.at_most({sides["left"]: 1, sides["right"]: 1, walks: -1}, 1)
    return walks
