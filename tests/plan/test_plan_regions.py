"""A region that is named as a whole, on the tables that come with Haywisp: what lies in its parts limits it too."""

from dataclasses import replace

import pytest

from haywisp.findings import Fact, gate
from haywisp.knowledge import load_tables
from haywisp.plan import Plan, PlannedBout, PlanProblem, check, needs_from_facts, problem_for, solve
from haywisp.session.types import SessionLog

TABLES = load_tables()
STROKES = {"contact", "opening", "closing"}


def found(structure: str, side: str | None, aspect: str, value: str) -> Fact:
    return Fact("finding", structure=structure, side=side, aspect=aspect, value=value)


def planned(*facts: Fact, head_shy: bool = False, log: SessionLog | None = None) -> tuple[PlanProblem, Plan]:
    needs, verdict = needs_from_facts(facts, TABLES), gate(facts, TABLES)
    problem = problem_for(needs, verdict, 45, head_shy=head_shy, log=log)
    plan = solve(problem, TABLES)
    assert check(plan, problem, TABLES) == ()
    return problem, plan


def work_on(plan: Plan, structure: str, side: str | None) -> list[PlannedBout]:
    here = [bout for bout in plan.bouts if (bout.structure, bout.side) == (structure, side)]
    return [bout for bout in here if TABLES.techniques[bout.technique].stage not in STROKES]


@pytest.mark.parametrize(
    ("sore", "region", "side"),
    [
        ("gluteus-medius", "hindquarters", "left"),
        ("biceps-femoris", "hindquarters", "left"),
        ("longissimus-dorsi", "topline", None),
    ],
)
def test_a_wound_in_a_muscle_of_a_part_keeps_the_whole_from_being_worked(
    sore: str, region: str, side: str | None
) -> None:
    problem, plan = planned(found(sore, "left", "skin", "wound"), found(region, side, "tone", "tight"))
    assert work_on(plan, region, side) == []
    told = {(omission.structure, omission.side): omission.why for omission in plan.omissions}
    assert "not to be worked, because of Open wound" in told[region, side]
    # The other side has no wound, and the checker sees what was planned on this one.
    other, without = planned(found(region, side, "tone", "tight"))
    assert work_on(without, region, side) != []
    assert any(
        "which is excluded" in sentence
        for sentence in check(without, replace(other, excluded=problem.excluded), TABLES)
    )


def test_soreness_in_a_muscle_of_a_part_makes_the_whole_light() -> None:
    tight = found("hindquarters", "left", "tone", "tight")
    problem, plan = planned(found("gluteus-medius", "left", "tenderness", "present"), tight)
    work = work_on(plan, "hindquarters", "left")
    assert work and {bout.pressure for bout in work} == {"light"}
    other, without = planned(tight)
    assert {bout.pressure for bout in work_on(without, "hindquarters", "left")} == {"moderate"}
    assert any(
        "more than is allowed" in sentence for sentence in check(without, replace(other, caps=problem.caps), TABLES)
    )


def test_strokes_keep_clear_of_what_lies_in_a_part() -> None:
    wound, weak = found("gluteus-medius", "left", "skin", "wound"), found("hindquarters", "right", "tone", "tight")
    plan = planned(wound, weak)[1]
    across = [bout for bout in plan.bouts if (bout.structure, bout.side) == ("hindquarters", "left")]
    assert across and all("Keep clear of the gluteus medius." in bout.why for bout in across)


def test_depth_guarded_against_on_the_whole_holds_in_its_muscles() -> None:
    log = SessionLog((), {("hindquarters", "left"): "moderate"})
    problem, plan = planned(found("gluteus-medius", "left", "tone", "tight"), log=log)
    work = work_on(plan, "gluteus-medius", "left")
    assert work and {bout.pressure for bout in work} == {"light"}
    bolder = replace(
        plan, bouts=tuple(replace(bout, pressure="moderate") if bout in work else bout for bout in plan.bouts)
    )
    assert any("more than is allowed there" in sentence for sentence in check(bolder, problem, TABLES))


def test_a_head_shy_horse_is_not_greeted_on_its_head() -> None:
    rubs = [found(place, None, "skin", "rub") for place in ("withers", "neck", "shoulder", "back")]
    problem, plan = planned(*rubs, found("gluteus-medius", "left", "tone", "tight"), head_shy=True)
    first = plan.bouts[0]
    assert TABLES.structures[first.structure].region not in {"poll", "jaw"}
    on_jaw = replace(plan, bouts=(replace(first, structure="masseter"), *plan.bouts[1:]))
    assert "the horse is head-shy and the hands first rest on its head" in check(on_jaw, problem, TABLES)
