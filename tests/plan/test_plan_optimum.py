"""The model's optimum against a plain enumeration that shares none of its code."""

from itertools import product
from random import Random

import pytest
from plan_tables import need, small_tables

from haywisp.plan import Need, PlanProblem, check, solve

TABLES = small_tables()
KNOTS = ((0.0, 0.0), (1.0, 0.40), (2.5, 0.76), (4.5, 0.94), (7.0, 1.0))
OTHER = {"left": "right", "right": "left"}


def share(dose: float) -> float:
    for (low, base), (high, top) in zip(KNOTS, KNOTS[1:], strict=False):
        if dose <= high:
            return base + (dose - low) / (high - low) * (top - base)
    return 1.0


def best_by_enumeration(needs: tuple[Need, ...], minutes: int, thumb_minutes: float) -> float:
    """Every count of half minutes for kneading and pressing on each need, at full pressure.

    Two to four minutes of kneading (from one where it only prepares), two to three of pressing, three in a block. From
    20 minutes on the side across from each block that is not worked itself takes three.
    """
    best = 0.0
    for chosen in product(*(list(product(kneadings(each), (0, 4, 5, 6))) for each in needs)):
        if any(kneading + pressing > 12 for kneading, pressing in chosen):
            continue
        blocks: dict[tuple[str, str], list[tuple[int, int]]] = {}
        for each, units in zip(needs, chosen, strict=True):
            if units != (0, 0):
                blocks.setdefault((TABLES.structures[each.structure].region, str(each.side)), []).append(units)
        if any(sum(p for _, p in units) and not sum(k for k, _ in units) for units in blocks.values()):
            continue
        if any(sum(k + p for k, p in units) < 6 for units in blocks.values()):
            continue
        across = {(region, OTHER[side]) for region, side in blocks} - set(blocks) if minutes >= 20 else set()
        time = 2 + sum(2 + sum(k + p for k, p in units) / 2 for units in blocks.values()) + 3 * len(across)
        time += 0.5 * (len({side for _, side in [*blocks, *across]}) == 2)
        thumbs = sum(0.9 * p / 2 for _, p in chosen)
        if time > minutes or thumbs > thumb_minutes + 1e-9 or not paired(needs, chosen):
            continue
        value = sum(
            each.weight * share(each.helps.get("kneading", 0) * k / 2 + each.helps.get("pressing", 0) * p / 2)
            for each, (k, p) in zip(needs, chosen, strict=True)
        )
        best = max(best, value)
    return best


def kneadings(each: Need) -> tuple[int, ...]:
    return (0, 4, 5, 6, 7, 8) if each.helps.get("kneading") else (0, 2, 3, 4, 5, 6, 7, 8)


def paired(needs: tuple[Need, ...], chosen: tuple[tuple[int, int], ...]) -> bool:
    total = {(each.structure, each.side): sum(units) for each, units in zip(needs, chosen, strict=True)}
    for (structure, side), mine in total.items():
        other = total.get((structure, "right" if side == "left" else "left"), 0)
        if mine and other and mine > 1.2 * other:
            return False
    return True


def tiny(seed: int) -> PlanProblem:
    random = Random(seed)
    sites = random.sample(
        [
            ("pectoralis-descendens", "left"),
            ("pectoralis-descendens", "right"),
            ("pectoralis-transversus", "left"),
            ("masseter", "left"),
            ("gastrocnemius", "right"),
        ],
        2 if seed % 3 else 3,
    )
    needs = tuple(
        need(
            structure,
            side,
            random.choice([0.2, 0.5, 0.8]),
            kneading=random.choice([0.0, 0.4, 0.7]),
            pressing=random.choice([0.5, 0.9]),
        )
        for structure, side in sites
    )
    return PlanProblem(
        needs,
        random.choice([10, 12, 15, 18] if seed < 8 else [20, 22, 24, 27]),
        thumb_minutes=random.choice([1.5, 3.0, 10.0]),
    )


@pytest.mark.parametrize("seed", range(16))
def test_the_optimum_is_that_of_plain_enumeration(seed: int) -> None:
    problem = tiny(seed)
    plan = solve(problem, TABLES)
    assert check(plan, problem, TABLES) == ()
    assert plan.benefit == pytest.approx(
        best_by_enumeration(problem.needs, problem.minutes, problem.thumb_minutes), abs=2e-4
    )
