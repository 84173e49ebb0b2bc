"""An independent reading of a finished plan: every rule is checked from the bouts, nothing from the model."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from math import isclose

from haywisp.knowledge import REGION_PARTS, fits
from haywisp.knowledge.types import Tables
from haywisp.plan.types import Plan, PlannedBout, PlanProblem

# Fewest and most minutes of a bout by stage, written down a second time on purpose.
LENGTHS = {"opening": (2.0, 4.0), "preparing": (2.0, 4.0), "deep": (2.0, 3.0), "stretch": (2.0, 2.0)}
HELD = {"sustained-pressure": (1.0, 1.5)}
STRUCK = {"cupping": (1.0, 2.0), "hacking": (1.0, 2.0)}
HEAVINESS = {"light": 1, "moderate": 2, "firm": 3}
NEVER_FIRM = {
    "poll",
    "jaw",
    "loin",
    "ribcage",
    "girth",
    "sacroiliac",
    "belly",
    "brachiocephalicus",
    "sternomandibularis",
    "scalenus",
}
HEADS = ("poll", "jaw")
Visit = tuple[str, str | None, tuple[PlannedBout, ...]]


def check(plan: Plan, problem: PlanProblem, tables: Tables) -> tuple[str, ...]:
    """A sentence for each rule that the plan breaks; none when it keeps them all."""
    if plan.status == "none":
        return tuple(_refused(plan))
    if problem.refusal:
        return ("there is a plan although none may be made",)
    unknown = [bout.order for bout in plan.bouts if not _known(bout, tables)]
    if unknown or not plan.bouts:
        return (f"bouts {unknown} name a structure or technique that the tables do not have, or there are none",)
    every = _visits(plan.bouts[1:], tables)
    visits = [visit for visit in every if not _only_matches(visit, every, tables)]
    found = [
        *_frame(plan, problem, tables),
        *_limits(plan.bouts, problem, tables),
        *_blocks(visits, problem, tables),
        *_lengths(visits, problem, tables),
        *_balance(visits, tables),
        *_head(every, plan, problem, tables),
        *_across(every, visits, plan, problem, tables),
        *_knots_and_holds(visits, problem, tables),
        *_told(plan, problem, visits, tables),
    ]
    return tuple(found)


def _refused(plan: Plan) -> Iterator[str]:
    if plan.bouts:
        yield "a plan of status none has bouts"
    if not plan.refusal.strip():
        yield "a plan of status none says no reason"


def _known(bout: PlannedBout, tables: Tables) -> bool:
    return bout.structure in tables.structures and bout.technique in tables.techniques


def _visits(bouts: Sequence[PlannedBout], tables: Tables) -> list[Visit]:
    """Runs of bouts on one region and side; a midline structure belongs to the run it stands in."""
    visits: list[tuple[str, str | None, list[PlannedBout]]] = []
    for bout in bouts:
        region = tables.structures[bout.structure].region
        closed = visits and tables.techniques[visits[-1][2][-1].technique].stage == "closing"
        if visits and not closed and visits[-1][0] == region and bout.side in (None, visits[-1][1]):
            visits[-1][2].append(bout)
        else:
            visits.append((region, bout.side, [bout]))
    return [(region, side, tuple(run)) for region, side, run in visits]


def _frame(plan: Plan, problem: PlanProblem, tables: Tables) -> Iterator[str]:
    if [bout.order for bout in plan.bouts] != list(range(1, len(plan.bouts) + 1)):
        yield "the bouts are not numbered from 1 in order"
    for bout in plan.bouts:
        if bout.minutes <= 0 or bout.minutes * 2 != int(bout.minutes * 2):
            yield f"bout {bout.order} lasts {bout.minutes} min, no multiple of a half"
    if tables.techniques[plan.bouts[0].technique].stage != "contact" or plan.bouts[0].minutes < 2:
        yield "the session does not begin with two minutes of hands resting"
    sides = [side for side, _ in groupby(bout.side for bout in plan.bouts if bout.side in ("left", "right"))]
    spent = sum(bout.minutes for bout in plan.bouts) + problem.walk_round_minutes * max(0, len(sides) - 1)
    if spent > problem.minutes + 1e-9:
        yield f"{spent} min are planned and {problem.minutes} are booked"
    if not isclose(spent, plan.minutes_used, abs_tol=1e-9):
        yield f"the plan says {plan.minutes_used} min and its bouts and walks come to {spent}"
    thumbs = sum(bout.minutes * tables.techniques[bout.technique].loads.get("thumb", 0.0) for bout in plan.bouts)
    if thumbs > problem.thumb_minutes + 1e-6:
        yield f"the thumbs work {thumbs:.2f} min and {problem.thumb_minutes} are allowed"


def _limits(bouts: Sequence[PlannedBout], problem: PlanProblem, tables: Tables) -> Iterator[str]:
    for bout in bouts:
        row, technique = tables.structures[bout.structure], tables.techniques[bout.technique]
        if bout.technique in problem.techniques_excluded:
            yield f"bout {bout.order} uses {bout.technique}, which is excluded"
        if not fits(technique, row):
            yield f"bout {bout.order} gives {bout.technique} on {bout.structure}, where it does not belong"
        here = {row.id, row.region}
        if row.id == row.region and technique.stage not in ("contact", "opening", "closing"):
            here |= _all_within(row.id, tables)
        for structure, side in problem.excluded:
            if structure in here and _overlap(side, bout.side):
                yield f"bout {bout.order} works {bout.structure}, which is excluded"
        ceiling = min(HEAVINESS[problem.pressure_cap], HEAVINESS[technique.deepest])
        for (structure, side), cap in problem.caps.items():
            held = structure in REGION_PARTS and row.id in _all_within(structure, tables)
            if (structure in here or held) and _overlap(side, bout.side):
                ceiling = min(ceiling, HEAVINESS[cap])
        if problem.head_shy and row.region in HEADS:
            ceiling = HEAVINESS["light"]
        if NEVER_FIRM & {row.id, row.region}:
            ceiling = min(ceiling, HEAVINESS["moderate"])
        if HEAVINESS[bout.pressure] > ceiling:
            yield f"bout {bout.order} on {bout.structure} is {bout.pressure}, more than is allowed there"


def _all_within(region: str, tables: Tables) -> set[str]:
    """A region, its parts, theirs, and every structure that lies in one of them."""
    parts = {region}.union(*(_all_within(part, tables) for part in REGION_PARTS.get(region, ())))
    return parts | {row.id for row in tables.structures.values() if row.region in parts}


def _blocks(visits: Sequence[Visit], problem: PlanProblem, tables: Tables) -> Iterator[str]:
    seen = [(region, side) for region, side, _ in visits]
    for region, side in {key for key in seen if seen.count(key) > 1}:
        yield f"{region} {side} is visited more than once"
    needs = {(need.structure, need.side) for need in problem.needs}
    for region, side, run in visits:
        stages = [tables.techniques[bout.technique].stage for bout in run]
        if stages[0] != "opening" or run[0].structure != region or run[0].pressure != "light":
            yield f"{region} {side} is not opened by light strokes"
        if stages[-1] not in ("closing", "opening") or run[-1].structure != region:
            yield f"{region} {side} is not closed by strokes"
        if len(run) == 2:
            yield f"{region} {side} is opened and closed without work"
        least = 2 if problem.head_shy and region in HEADS else 3
        if len(run) > 2 and sum(bout.minutes for bout in run[1:-1]) < least:
            yield f"{region} {side} is opened and closed for less than 3 min of work"
        if min(run[0].minutes, run[-1].minutes) < 1 or (len(run) == 1 and run[0].minutes < 2):
            yield f"{region} {side} is opened, closed or stroked too briefly"
        yield from _staying(region, side, run[1:-1], tables)
        for number, bout in enumerate(run[1:-1], start=1):
            wanted = tables.techniques[bout.technique].needs
            if wanted and not set(wanted) & set(stages[:number]):
                yield f"bout {bout.order}, {bout.technique}, is not prepared"
            if (bout.structure, bout.side) not in needs:
                yield f"bout {bout.order} works {bout.structure} {bout.side}, which has no need"


def _staying(region: str, side: str | None, work: Sequence[PlannedBout], tables: Tables) -> Iterator[str]:
    """Within a block the hands stay on a structure until it is done, and stretches come last."""
    stretches = [tables.techniques[bout.technique].stage == "stretch" for bout in work]
    if stretches != sorted(stretches):
        yield f"{region} {side} is stretched before its work is done"
    hands_on = [(bout.structure, bout.side) for bout, stretch in zip(work, stretches, strict=True) if not stretch]
    turns = [site for site, _ in groupby(hands_on)]
    if len(turns) > len(set(turns)):
        yield f"the hands come back to a structure of {region} {side}"


def _lengths(visits: Sequence[Visit], problem: PlanProblem, tables: Tables) -> Iterator[str]:
    """Every bout is long enough to work and no longer than its stage bears, and the places are not too many."""
    helps = {(need.structure, need.side): need.helps for need in problem.needs}
    work = [bout for _, _, run in visits for bout in run[1:-1]]
    for bout in work:
        technique = tables.techniques[bout.technique]
        least, most = {**HELD, **STRUCK}.get(bout.technique, LENGTHS.get(technique.stage, (2.0, 4.0)))
        if helps.get((bout.structure, bout.side), {}).get(bout.technique, 0.0) <= 0:
            least = 1.0
        if bout.minutes < least:
            yield f"bout {bout.order}, {bout.technique}, is shorter than {least:g} min"
        if bout.minutes > max(most, technique.minutes_per_pass + 0.5):
            yield f"bout {bout.order}, {bout.technique}, is longer than {most:g} min"
    places = len({(bout.structure, bout.side) for bout in work})
    if places > max(1, problem.minutes // 3):
        yield f"{places} places are worked in {problem.minutes} min"


def _balance(visits: Sequence[Visit], tables: Tables) -> Iterator[str]:
    minutes: dict[tuple[str, str | None], float] = {}
    for _, _, run in visits:
        for bout in run[1:-1]:
            minutes[bout.structure, bout.side] = minutes.get((bout.structure, bout.side), 0.0) + bout.minutes
    for structure in tables.structures:
        left, right = minutes.get((structure, "left"), 0.0), minutes.get((structure, "right"), 0.0)
        if left and right and max(left, right) > 1.2 * min(left, right) + 1e-9:
            yield f"{structure} has {left} min on the left and {right} on the right"


def _only_matches(visit: Visit, every: Sequence[Visit], tables: Tables) -> bool:
    """Whether a visit is but light attention to the side across from one that is worked."""
    region, side, run = visit
    if len(run) != 3 or run[1].minutes >= 2 or run[1].structure != region or run[1].pressure != "light":
        return False
    return tables.techniques[run[1].technique].stage == "preparing" and any(
        other == region and {side, other_side} == {"left", "right"} and len(other_run) > 2
        for other, other_side, other_run in every
    )


def _head(visits: Sequence[Visit], plan: Plan, problem: PlanProblem, tables: Tables) -> Iterator[str]:
    """Six minutes of work in a place; for a head-shy horse last, after something else, four in all, and not moved."""
    for region, side, run in visits:
        if region in HEADS and sum(bout.minutes for bout in run[1:-1]) > 6:
            yield f"{region} {side} is worked for more than 6 min"
    if not problem.head_shy:
        return
    if tables.structures[plan.bouts[0].structure].region in HEADS:
        yield "the horse is head-shy and the hands first rest on its head"
    heads = [region in HEADS for region, _, _ in visits]
    if heads != sorted(heads) or (heads and all(heads)):
        yield "the horse is head-shy and the head is not last"
    minutes = sum(bout.minutes for region, _, run in visits if region in HEADS for bout in run)
    if minutes > 4:
        yield f"the horse is head-shy and its head gets {minutes} min"
    if any(
        tables.techniques[bout.technique].stage == "stretch"
        for region, _, run in visits
        if region in HEADS
        for bout in run
    ):
        yield "the horse is head-shy and its head is moved"


def _across(
    every: Sequence[Visit], worked: Sequence[Visit], plan: Plan, problem: PlanProblem, tables: Tables
) -> Iterator[str]:
    """Where a side of a pair is worked the other is worked, loosened lightly, or told as left out."""
    runs = {(region, side): run for region, side, run in every}
    told = {(omission.structure, omission.side) for omission in plan.omissions}
    for region, side, run in worked:
        if side is None or not any(bout.side in ("left", "right") for bout in run[1:-1]):
            continue
        other = region, "left" if side == "right" else "right"
        if other not in runs and other not in told:
            yield f"{region} {side} is worked and the other side is neither touched nor told as left out"
        if len(runs.get(other, ())) == 1 and _may_be_loosened(*other, problem, tables):
            yield f"{region} {side} is worked and the other side is stroked but not loosened"


def _may_be_loosened(region: str, side: str, problem: PlanProblem, tables: Tables) -> bool:
    within = _all_within(region, tables)
    return not any(structure in within and _overlap(bar, side) for structure, bar in problem.excluded) and any(
        technique.stage == "preparing"
        and technique.id not in problem.techniques_excluded
        and technique.minutes_per_pass <= 1
        and fits(technique, tables.structures[region])
        for technique in tables.techniques.values()
    )


def _knots_and_holds(visits: Sequence[Visit], problem: PlanProblem, tables: Tables) -> Iterator[str]:
    """A spot is not held twice in a row; deep work on a knot is loosened there before and has a hold where one may."""
    for region, side, run in visits:
        for one, next_one in zip(run, run[1:], strict=False):
            same = (one.structure, one.side) == (next_one.structure, next_one.side)
            if same and one.technique in HELD and next_one.technique in HELD:
                yield f"{one.structure} {one.side} is held twice in a row"
        for need in problem.needs:
            here = [bout for bout in run[1:-1] if (bout.structure, bout.side) == (need.structure, need.side)]
            stages = [tables.techniques[bout.technique].stage for bout in here]
            if "texture:knotted" not in need.found or "deep" not in stages:
                continue
            if "preparing" not in stages[: stages.index("deep")]:
                yield f"the knot of {need.structure} {side} in {region} is not loosened first"
            able = [held for held in HELD if held in tables.techniques and held not in problem.techniques_excluded]
            able = [held for held in able if fits(tables.techniques[held], tables.structures[need.structure])]
            helpful = [held for held in able if need.helps.get(held, 0) > 0]
            if helpful and not any(bout.technique in HELD for bout in here):
                yield f"the knot of {need.structure} {side} in {region} is not held"


def _overlap(one: str | None, other: str | None) -> bool:
    """Whether two sides share a place: no side and both mean either."""
    return len({one, other} & {"left", "right"}) < 2


def _told(plan: Plan, problem: PlanProblem, visits: Sequence[Visit], tables: Tables) -> Iterator[str]:
    """Every need is worked or left out with a reason, every bout has its why, and the benefit is what it says."""
    worked: dict[tuple[str, str | None], float] = {}
    for _, _, run in visits:
        for bout in run[1:-1]:
            need = next((n for n in problem.needs if (n.structure, n.side) == (bout.structure, bout.side)), None)
            usual = {"deep": 3, "preparing": 2, "stretch": 2}.get(tables.techniques[bout.technique].stage, 1)
            row = tables.structures[bout.structure]
            usual = min(usual, 2) if NEVER_FIRM & {row.id, row.region} else usual
            lost = min(usual, HEAVINESS[tables.techniques[bout.technique].deepest]) - HEAVINESS[bout.pressure]
            helps = 0.0 if need is None else need.helps.get(bout.technique, 0.0) * (1 - 0.2 * lost)
            site = bout.structure, bout.side
            worked[site] = worked.get(site, 0.0) + helps * bout.minutes
    left_out = {(omission.structure, omission.side) for omission in plan.omissions}
    for need in problem.needs:
        if (need.structure, need.side) not in worked and (need.structure, need.side) not in left_out:
            yield f"{need.structure} {need.side} is neither worked nor told as left out"
    reasons = [bout.why for bout in plan.bouts] + [omission.why for omission in plan.omissions]
    if not all(reason.strip() for reason in reasons):
        yield "a bout or an omission has no why"
    benefit = sum(need.weight * _share(worked.get((need.structure, need.side), 0.0)) for need in problem.needs)
    if not isclose(benefit, plan.benefit, abs_tol=1e-6):
        yield f"the plan says a benefit of {plan.benefit:.6f} and its bouts come to {benefit:.6f}"
    if (plan.status == "optimal") != (plan.gap == 0):
        yield f"status {plan.status} does not go with a gap of {plan.gap}"


def _share(dose: float) -> float:
    """The share of a need's benefit that a dose gives, read off between its knots."""
    knots = [(0.0, 0.0), (1.0, 0.40), (2.5, 0.76), (4.5, 0.94), (7.0, 1.0)]
    if dose >= 7.0:
        return 1.0
    low, high = next((one, other) for one, other in zip(knots, knots[1:], strict=False) if dose <= other[0])
    return low[1] + (dose - low[0]) * (high[1] - low[1]) / (high[0] - low[0])
