"""The solved plan against a greedy one on seeded visits: ``python benchmarks/plan/run.py [--seeds N]``.

The peer takes, again and again, the minute that does most good for the time it costs (opening, closing, preparing and
walking included) until none fits. Both plans must pass the same checker. Prints benefit and seconds for each size.
"""

import argparse
from collections import Counter
from random import Random
from statistics import mean, median
from time import process_time

from haywisp.findings import Fact, gate
from haywisp.knowledge import Tables, load_tables
from haywisp.plan import Plan, PlanProblem, check, needs_from_facts, problem_for, solve
from haywisp.plan.allocation import Allocation
from haywisp.plan.choices import Choices, Option
from haywisp.plan.matching import matched
from haywisp.plan.options import choices_for
from haywisp.plan.solving import assemble
from haywisp.plan.units import (
    CLOSING_UNITS,
    HEAD,
    HEAD_WORK_UNITS,
    HOLDS,
    KNOTTED,
    LONGEST_SITE_UNITS,
    MATCHING_UNITS,
    OPENING_UNITS,
    SHORTEST_BLOCK_UNITS,
    UNIT_MINUTES,
    most_places,
    share_of_benefit,
)

NEEDS = (10, 25, 40)
MINUTES = (30, 45, 60, 90)
FINDINGS = (
    ("tone", "tight"),
    ("texture", "knotted"),
    ("texture", "fibrous"),
    ("mobility", "restricted"),
    ("development", "under"),
)
STEP = 2  # units of one greedy helping


def visit(seed: int, needs: int, minutes: int, tables: Tables) -> PlanProblem:
    """A horse with findings at so many places, one or two at each."""
    random = Random(f"{seed}-{needs}-{minutes}")
    sites = [
        (row.id, side) for row in tables.structures.values() for side in (("left", "right") if row.paired else (None,))
    ]
    facts = [
        Fact("finding", structure=structure, side=side, aspect=aspect, value=value)
        for structure, side in random.sample(sites, needs)
        for aspect, value in random.sample(FINDINGS, random.choice([1, 1, 2]))
    ]
    return problem_for(needs_from_facts(facts, tables), gate(facts, tables), minutes)


def greedy(problem: PlanProblem, tables: Tables) -> Plan:
    """The minutes that do most good for their cost, while some fit.

    Both sides of a pair at once, or one where that keeps the balance.
    """
    choices = choices_for(problem, tables)
    units: dict[int, int] = {}
    pairs: dict[str, list[int]] = {}
    for number, need in enumerate(problem.needs):
        pairs.setdefault(need.structure, []).append(number)
    groups = [(group, pair) for pair in pairs.values() for group in (pair, *([one] for one in pair if len(pair) == 2))]
    while True:
        here = _state(problem, choices, units)
        best, best_rate = None, 0.0
        for group, pair in groups:
            helped = _helping(group, problem, choices, units, tables)
            if helped is None or not (_balanced(pair, choices, helped) and _workable(problem, choices, helped)):
                continue
            gain, cost, thumbs = (
                after - now for after, now in zip(_state(problem, choices, helped), here, strict=True)
            )
            fits = here[1] + cost <= problem.minutes and here[2] + thumbs <= problem.thumb_minutes
            if fits and gain / cost > best_rate:
                best, best_rate = helped, gain / cost
        if best is None:
            return assemble(problem, choices, Allocation(units, {}, 1.0), tables)
        units = best


def _helping(
    group: list[int], problem: PlanProblem, choices: Choices, units: dict[int, int], tables: Tables
) -> dict[int, int] | None:
    """One more helping for each need of a group by its most helpful technique, prepared first where that is wanted.

    A knot is held before anything else deep.
    """
    more = dict(units)
    for need in group:
        mine = [at for at, option in enumerate(choices.options) if option.need == need]
        if not mine:
            continue
        free = [at for at in mine if more.get(at, 0) < choices.options[at].longest]
        if not free:
            return None
        best = max(free, key=lambda at: _rank(choices.options[at], problem))
        option = choices.options[best]
        wanted = tables.techniques[option.technique].needs
        if wanted and "opening" not in wanted:
            prepares = [at for at in mine if choices.options[at].stage in wanted]
            if not prepares:
                return None
            if not any(more.get(at, 0) for at in prepares):
                first = max(prepares, key=lambda at: choices.options[at].help)
                more[first] = choices.options[first].shortest
        more[best] = min(option.longest, max(option.shortest, more.get(best, 0) + STEP))
        short = SHORTEST_BLOCK_UNITS - sum(n for at, n in more.items() if choices.options[at].block == option.block)
        more[best] = min(option.longest, more[best] + max(0, short))
        if sum(more.get(at, 0) for at in mine) > LONGEST_SITE_UNITS:
            return None
    return more


def _rank(option: Option, problem: PlanProblem) -> tuple[bool, float]:
    return KNOTTED in problem.needs[option.need].found and option.technique in HOLDS, option.help


def _balanced(group: list[int], choices: Choices, units: dict[int, int]) -> bool:
    totals = [sum(n for at, n in units.items() if choices.options[at].need == need) for need in group]
    worked = [total for total in totals if total]
    return len(worked) < 2 or max(worked) <= 1.2 * min(worked)


def _workable(problem: PlanProblem, choices: Choices, units: dict[int, int]) -> bool:
    """Not too many places, no region opened for too little, and no place of the head worked for too long."""
    work = Counter[int]()
    for at, count in units.items():
        work[choices.options[at].block] += count
    places = len({choices.options[at].need for at in units})
    heads = [count for block, count in work.items() if choices.blocks[block].region in HEAD]
    enough = min(work.values()) >= SHORTEST_BLOCK_UNITS and max(heads, default=0) <= HEAD_WORK_UNITS
    return places <= most_places(problem.minutes) and enough


def _state(problem: PlanProblem, choices: Choices, units: dict[int, int]) -> tuple[float, float, float]:
    """Benefit, minutes and thumb minutes."""
    doses = [0.0] * len(problem.needs)
    for at, count in units.items():
        doses[choices.options[at].need] += choices.options[at].help * count * UNIT_MINUTES
    blocks = {choices.options[at].block for at in units}
    stands = {choices.blocks[block].stand for block in blocks}
    stands |= {match.block.stand for match in matched(choices, units, problem)}
    minutes = (sum(units.values()) + len(blocks) * (OPENING_UNITS + CLOSING_UNITS)) * UNIT_MINUTES
    matches = matched(choices, units, problem)
    minutes += sum(match.units for match in matches) * UNIT_MINUTES
    minutes += choices.greeting[2] * UNIT_MINUTES if choices.greeting else 0.0
    minutes += problem.walk_round_minutes * (len(stands) == 2)
    thumbs = sum(choices.options[at].thumb * count * UNIT_MINUTES for at, count in units.items())
    thumbs += sum(match.thumb * MATCHING_UNITS * UNIT_MINUTES for match in matches)
    return (
        sum(need.weight * share_of_benefit(dose) for need, dose in zip(problem.needs, doses, strict=True)),
        minutes,
        thumbs,
    )


def main() -> None:
    """Print one line a size: the mean benefit of both, their ratio, and the seconds of processor time of the solver."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=3, help="visits of each size (3)")
    seeds = parser.parse_args().seeds
    tables = load_tables()
    print("needs minutes  solved  greedy  ratio (least-most)  proved  seconds (most)")
    every: list[float] = []
    for needs in NEEDS:
        for minutes in MINUTES:
            ratios, solved, greedies, seconds, proved = [], [], [], [], 0
            for seed in range(seeds):
                problem = visit(seed, needs, minutes, tables)
                start = process_time()
                plan = solve(problem, tables)
                seconds.append(process_time() - start)
                peer = greedy(problem, tables)
                for each in (plan, peer):
                    broken = check(each, problem, tables)
                    if broken:
                        raise SystemExit(f"{needs} needs, {minutes} min, seed {seed}: {broken[0]}")
                proved += plan.status == "optimal"
                solved.append(plan.benefit)
                greedies.append(peer.benefit)
                ratios.append(plan.benefit / peer.benefit)
            every += seconds
            print(
                f"{needs:5} {minutes:7} {mean(solved):7.3f} {mean(greedies):7.3f}  {mean(ratios):5.3f} "
                f"({min(ratios):.3f}-{max(ratios):.3f})  {proved}/{seeds:<4} {mean(seconds):8.2f} ({max(seconds):.2f})"
            )
    print(f"Median of all: {median(every):.2f} seconds of processor time.")


if __name__ == "__main__":
    main()
