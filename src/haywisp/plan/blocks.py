"""A region on a side as a block: what opens and closes it, where one stands for it, or why it can't be opened."""

from haywisp.knowledge import fits
from haywisp.knowledge.types import Tables, Technique
from haywisp.plan.choices import Block
from haywisp.plan.sites import Site, barred_by, barred_inside, because_of, place
from haywisp.plan.types import PlanProblem


def of_stage(stage: str, problem: PlanProblem, tables: Tables) -> list[Technique]:
    return [
        technique
        for technique in tables.techniques.values()
        if technique.stage == stage and technique.id not in problem.techniques_excluded
    ]


def make_block(key: Site, stand: str, problem: PlanProblem, tables: Tables) -> Block | None:
    row = tables.structures[key[0]]
    if barred_by(key, problem, tables) is not None:
        return None
    openings = [each.id for each in of_stage("opening", problem, tables) if fits(each, row)]
    closings = [each.id for each in of_stage("closing", problem, tables) if fits(each, row)] + openings
    if not openings:
        return None
    return Block(key[0], key[1], stand, openings[0], closings[0], barred_inside(key, problem, tables))


def stand(side: str | None, problem: PlanProblem) -> str:
    if side in ("left", "right"):
        return side
    right = sum(need.weight for need in problem.needs if need.side == "right")
    left = sum(need.weight for need in problem.needs if need.side == "left")
    return "right" if right > left else "left"


def no_opening(key: Site, problem: PlanProblem, tables: Tables) -> str:
    bar = barred_by(key, problem, tables)
    if bar is not None:
        return not_worked(bar, key[1], problem)
    lost = [
        because_of(each.id, None, problem, f"{each.name.lower()} being excluded")
        for each in tables.techniques.values()
        if each.stage == "opening" and each.id in problem.techniques_excluded
    ]
    why = " and ".join(dict.fromkeys(lost)) or "since no technique suits it"
    return f"no opening strokes are allowed on the {place(key, tables)}, {why}"


def not_worked(bar: str, side: str | None, problem: PlanProblem) -> str:
    return f"not to be worked, {because_of(bar, side, problem, 'by a limit that was set')}"
