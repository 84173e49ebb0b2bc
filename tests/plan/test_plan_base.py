"""One muscle, worked out by hand, and named variations of it."""

from dataclasses import replace

import pytest
from plan_tables import BODY, bouts, minutes_on, need, small_tables

from haywisp.plan import Plan, PlanProblem, check, solve

TABLES = small_tables()
BASE = PlanProblem(needs=(need("pectoralis-descendens"),), minutes=30)


def solved(problem: PlanProblem) -> Plan:
    plan = solve(problem, TABLES)
    assert check(plan, problem, TABLES) == ()
    return plan


def test_base_case_by_hand() -> None:
    """Kneading helps fully: its longest bout, 4 min, gives 0.40 + 1.5 x 0.24 + 1.5 x 0.09 = 0.895 of a need of 0.5."""
    plan = solved(BASE)
    assert bouts(plan) == [
        ("hands-resting", "withers", None, 2.0),
        ("effleurage", "chest", "left", 1.0),
        ("kneading", "pectoralis-descendens", "left", 4.0),
        ("stroking", "chest", "left", 0.5),
    ]
    assert plan.benefit == pytest.approx(0.5 * 0.895)
    assert (plan.status, plan.gap, plan.minutes_used, plan.omissions) == ("optimal", 0.0, 7.5, ())
    assert [bout.pressure for bout in plan.bouts] == ["light", "light", "moderate", "light"]


def test_every_bout_says_why() -> None:
    why = [bout.why for bout in solved(BASE).bouts]
    assert why[1].startswith("Opens chest, left")
    assert why[2] == "For tightness."


def test_both_sides_cost_one_walk_round() -> None:
    plan = solved(replace(BASE, needs=(need("masseter"), need("masseter", "right"))))
    assert plan.minutes_used == 2 + 2 * (1 + 4 + 0.5) + 0.5


def test_little_time_goes_to_the_heavier_needs() -> None:
    """Ten minutes less 2 for contact hold two blocks (3 min) and 5 min of work, or three and 3.5: not the third."""
    needs = (need("masseter", weight=0.1), need("pectoralis-descendens", weight=0.9), need("gastrocnemius", weight=0.5))
    plan = solved(replace(BASE, minutes=10, needs=needs))
    assert minutes_on(plan, "pectoralis-descendens", "left") == 2.5
    assert minutes_on(plan, "gastrocnemius", "left") == 2.5
    (omission,) = plan.omissions
    assert omission.structure == "masseter"
    assert "10 min booked" in omission.why


@pytest.mark.parametrize("minutes", [1, 5, 9])
def test_too_short_a_visit_is_refused_with_rule_and_fact(minutes: int) -> None:
    plan = solved(replace(BASE, minutes=minutes))
    assert (plan.status, plan.bouts) == ("none", ())
    assert f"{minutes} minutes are booked" in plan.refusal
    assert "10 at least" in plan.refusal


def test_a_refusal_of_the_gate_is_the_answer() -> None:
    plan = solved(replace(BASE, refusal="No plan: a vet comes first, because of Fever (fever)."))
    assert (plan.status, plan.refusal) == ("none", "No plan: a vet comes first, because of Fever (fever).")


def test_an_excluded_muscle_is_left_out_and_says_why() -> None:
    problem = replace(
        BASE,
        needs=(need("pectoralis-descendens"), need("pectoralis-transversus")),
        excluded=frozenset({("pectoralis-descendens", "left")}),
        why={"pectoralis-descendens": "Open wound: skin wound (pectoralis descendens, left)"},
    )
    plan = solved(problem)
    assert minutes_on(plan, "pectoralis-transversus", "left") == 4.0
    (omission,) = plan.omissions
    assert omission.structure == "pectoralis-descendens"
    assert "Open wound" in omission.why
    assert "Keep clear of pectoralis descendens." in plan.bouts[1].why


@pytest.mark.parametrize("excluded", [("chest", "left"), ("chest", None)])
def test_an_excluded_region_takes_its_muscles_along(excluded: tuple[str, str | None]) -> None:
    plan = solved(replace(BASE, excluded=frozenset({excluded}), why={"chest": "Swelling: swelling present (chest)"}))
    assert plan.status == "none"
    assert "Swelling" in plan.refusal
    assert "pectoralis descendens, left" in plan.refusal


def test_a_region_with_an_excluded_muscle_is_not_worked_whole() -> None:
    problem = replace(
        BASE, needs=(need("chest"), need("masseter")), excluded=frozenset({("pectoralis-descendens", "left")})
    )
    plan = solved(problem)
    assert [omission.structure for omission in plan.omissions] == ["chest"]


def test_the_other_side_of_an_excluded_muscle_is_free() -> None:
    plan = solved(replace(BASE, excluded=frozenset({("pectoralis-descendens", "right")})))
    assert minutes_on(plan, "pectoralis-descendens", "left") == 4.0


def test_an_excluded_technique_is_not_used_and_named() -> None:
    problem = replace(BASE, techniques_excluded=frozenset({"kneading"}), why={"kneading": "Recent vaccination"})
    plan = solved(problem)
    assert plan.status == "none"
    assert "Recent vaccination" in plan.refusal


def test_without_opening_strokes_there_is_no_work() -> None:
    problem = replace(BASE, techniques_excluded=frozenset({"effleurage"}), why={"effleurage": "Skin disease"})
    plan = solved(problem)
    assert plan.status == "none"
    assert "no opening strokes" in plan.refusal
    assert "Skin disease" in plan.refusal


def test_deep_work_is_prepared_even_where_preparing_does_not_help() -> None:
    plan = solved(replace(BASE, needs=(need("pectoralis-descendens", pressing=1.0),)))
    techniques = [bout.technique for bout in plan.bouts]
    assert techniques == ["hands-resting", "effleurage", "kneading", "pressing", "stroking"]
    assert plan.bouts[2].minutes == 1.0
    assert plan.bouts[2].why.startswith("Prepares")
    assert plan.bouts[3].pressure == "firm"


def test_preparing_another_muscle_of_the_block_is_enough() -> None:
    """The rule wants preparation on the same region: kneading one muscle prepares the deep work on the other."""
    needs = (need("pectoralis-descendens", pressing=1.0), need("pectoralis-transversus", weight=0.9))
    plan = solved(replace(BASE, needs=needs))
    assert minutes_on(plan, "pectoralis-descendens", "left") == 0
    assert minutes_on(plan, "pectoralis-descendens", "left", ("pressing",)) == 4.0


def test_a_light_cap_rules_out_deep_work() -> None:
    problem = replace(
        BASE,
        needs=(need("pectoralis-descendens", pressing=1.0, kneading=0.1), need("masseter")),
        caps={("pectoralis-descendens", "left"): "light"},
        why={"pectoralis-descendens": "Soreness: tenderness present"},
    )
    plan = solved(problem)
    assert minutes_on(plan, "pectoralis-descendens", "left", ("pressing",)) == 0
    assert minutes_on(plan, "pectoralis-descendens", "left") == 4.0
    lines = {omission.structure: omission.why for omission in plan.omissions}
    assert "Soreness" in lines["pectoralis-descendens"]


def test_a_capped_bout_is_lighter_helps_less_and_says_so() -> None:
    plan = solved(replace(BASE, pressure_cap="light", why={"pressure": "First visit: first session"}))
    bout = plan.bouts[2]
    assert bout.pressure == "light"
    assert "First visit" in bout.why
    assert plan.benefit < 0.5 * 0.895


def test_a_pair_with_unequal_needs_stays_within_a_fifth() -> None:
    """Alone the left would get 4 min and the right, helped little by time, less: the rule ties them together."""
    needs = (
        need("pectoralis-descendens", "left", 0.9, kneading=0.5),
        need("pectoralis-descendens", "right", 0.1, kneading=0.5),
        need("gastrocnemius", "left", 0.8),
    )
    plan = solved(replace(BASE, minutes=20, needs=needs))
    left = minutes_on(plan, "pectoralis-descendens", "left")
    right = minutes_on(plan, "pectoralis-descendens", "right")
    assert left > 0
    assert right == 0 or max(left, right) <= 1.2 * min(left, right)


def test_thumbs_are_spared() -> None:
    problem = replace(BASE, needs=(need("pectoralis-descendens", pressing=1.0),), thumb_minutes=1.0)
    plan = solved(problem)
    assert minutes_on(plan, "pectoralis-descendens", "left", ("pressing",)) == 1.0


def test_the_poll_of_a_head_shy_horse_is_last() -> None:
    needs = (need("rectus-capitis"), need("rectus-capitis", "right"), need("masseter"), need("masseter", "right"))
    problem = replace(BASE, minutes=45, needs=needs, head_shy=True)
    regions = [TABLES.structures[bout.structure].region for bout in solved(problem).bouts[1:]]
    first = regions.index("poll")
    assert "jaw" in regions[:first]
    assert set(regions[first:]) == {"poll"}


def test_the_walks_that_the_poll_costs_are_within_the_time() -> None:
    """Left, right and the poll's two sides last make two walks: the time booked holds them or the plan changes."""
    needs = tuple(need(name, side) for name in ("rectus-capitis", "masseter") for side in ("left", "right"))
    problem = replace(BASE, minutes=25, needs=needs, head_shy=True, walk_round_minutes=1.5)
    assert solved(problem).minutes_used <= 25


def test_a_midline_structure_is_worked_from_the_side_that_is_worked_anyway() -> None:
    needs = (need("sternum-fascia", None), need("pectoralis-descendens", "right"))
    plan = solved(replace(BASE, needs=needs))
    assert [bout.side for bout in plan.bouts if bout.technique == "effleurage"] == ["right"]
    assert minutes_on(plan, "sternum-fascia", None) == 4.0


def test_a_healthy_horse_gets_a_light_round_over_the_body() -> None:
    tables = small_tables(*BODY)
    problem = PlanProblem(needs=(), minutes=45)
    plan = solve(problem, tables)
    assert check(plan, problem, tables) == ()
    assert {(bout.structure, bout.side) for bout in plan.bouts[1:]} == {
        (region, side) for region in ("neck", "back") for side in ("left", "right")
    }
    assert {bout.technique for bout in plan.bouts[1:]} == {"effleurage"}
    assert {bout.pressure for bout in plan.bouts} == {"light"}
    assert "maintenance" in plan.bouts[1].why


def test_maintenance_takes_nothing_from_a_need() -> None:
    tables = small_tables(*BODY)
    for minutes in (10, 15, 30):
        with_round = solve(replace(BASE, minutes=minutes), tables)
        assert with_round.benefit == pytest.approx(solve(replace(BASE, minutes=minutes), TABLES).benefit)


def test_nothing_to_do_is_said() -> None:
    plan = solved(replace(BASE, needs=()))
    assert plan.status == "none"
    assert "no findings" in plan.refusal
