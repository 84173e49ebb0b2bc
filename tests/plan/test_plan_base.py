"""One muscle, worked out by hand, and named variations of it."""

from dataclasses import replace

import pytest
from plan_tables import BODY, bouts, minutes_on, need, small_tables, structure, technique

from haywisp.plan import Need, Plan, PlannedBout, PlanProblem, check, solve

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
        ("stroking", "chest", "left", 1.0),
        ("effleurage", "chest", "right", 1.0),
        ("kneading", "chest", "right", 1.0),
        ("stroking", "chest", "right", 1.0),
    ]
    assert plan.benefit == pytest.approx(0.5 * 0.895)
    assert (plan.status, plan.gap, plan.minutes_used, plan.omissions) == ("optimal", 0.0, 11.5, ())
    assert [bout.pressure for bout in plan.bouts] == ["light", "light", "moderate", *["light"] * 4]


def left(plan: Plan) -> list[PlannedBout]:
    """The work on the left, without the strokes that open and close it."""
    return [bout for bout in plan.bouts if bout.side == "left"][1:-1]


def test_the_other_side_of_a_pair_gets_light_attention() -> None:
    plan = solved(BASE)
    why = [bout.why for bout in plan.bouts if bout.side == "right"]
    assert why[1] == "Light attention, to match the work on the left chest."


def test_a_short_visit_tells_that_the_other_side_is_left() -> None:
    plan = solved(replace(BASE, minutes=19))
    assert {bout.side for bout in plan.bouts} == {None, "left"}
    (omission,) = plan.omissions
    assert (omission.structure, omission.side) == ("chest", "right")
    assert "19 min do not hold both sides" in omission.why


def test_the_other_side_that_may_not_be_touched_is_told() -> None:
    problem = replace(BASE, excluded=frozenset({("chest", "right")}), why={"chest": "a lump (right chest)"})
    plan = solved(problem)
    (omission,) = plan.omissions
    assert (omission.structure, omission.side) == ("chest", "right")
    assert omission.why == "not matched to the left chest: not to be worked, because of a lump (right chest)."


def test_the_other_side_is_stroked_only_where_something_in_it_is_barred() -> None:
    problem = replace(
        BASE, excluded=frozenset({("pectoralis-transversus", "right")}), why={"pectoralis-transversus": "a rub"}
    )
    right = [bout for bout in solved(problem).bouts if bout.side == "right"]
    assert [(bout.technique, bout.minutes) for bout in right] == [("effleurage", 2.0)]
    assert right[0].why.endswith("Keep clear of the pectoralis transversus.")


def test_a_side_that_is_worked_itself_needs_no_match() -> None:
    plan = solved(replace(BASE, needs=(need("pectoralis-descendens"), need("pectoralis-transversus", "right"))))
    assert [bout.structure for bout in plan.bouts if bout.technique == "kneading"] == [
        "pectoralis-descendens",
        "pectoralis-transversus",
    ]


def test_every_bout_says_why() -> None:
    why = [bout.why for bout in solved(BASE).bouts]
    assert why[1] == "Opens the left chest before its work."
    assert why[2] == "For tightness."


def test_both_sides_cost_one_walk_round() -> None:
    plan = solved(replace(BASE, needs=(need("masseter"), need("masseter", "right"))))
    assert plan.minutes_used == 2 + 2 * (1 + 4 + 1) + 0.5


def test_little_time_goes_to_the_heavier_needs() -> None:
    """Ten minutes less 2 for contact hold one block (2 min) and 4 min of work; two want 4 min and 6 of work."""
    needs = (need("masseter", weight=0.1), need("pectoralis-descendens", weight=0.9), need("gastrocnemius", weight=0.5))
    plan = solved(replace(BASE, minutes=10, needs=needs))
    assert minutes_on(plan, "pectoralis-descendens", "left") == 4.0
    assert [omission.structure for omission in plan.omissions] == ["masseter", "gastrocnemius", "chest"]
    assert all("10 min" in omission.why for omission in plan.omissions)


def test_no_more_places_are_worked_than_one_for_three_minutes() -> None:
    """Twelve muscles of one block would fit into 30 min at 2 min each; ten are the most."""
    tables = small_tables(*(structure(f"muscle-{number}", "chest") for number in range(12)))
    needs = tuple(need(f"muscle-{number}", weight=0.5 + number / 100) for number in range(12))
    problem = PlanProblem(needs=needs, minutes=30)
    plan = solve(problem, tables)
    assert check(plan, problem, tables) == ()
    assert len({bout.structure for bout in left(plan) if bout.technique == "kneading"}) == 10
    assert [omission.structure for omission in plan.omissions] == ["muscle-0", "muscle-1"]
    assert "10 places are enough for 30 min" in plan.omissions[0].why


def test_a_muscle_is_done_before_the_next_and_stretches_come_last() -> None:
    techniques = {"kneading": 0.5, "pressing": 0.6, "easing": 0.6}
    needs = tuple(need(name, **techniques) for name in ("pectoralis-descendens", "pectoralis-transversus"))
    plan = solved(replace(BASE, minutes=40, needs=needs, thumb_minutes=20.0))
    work = [(bout.structure.removeprefix("pectoralis-"), bout.technique) for bout in left(plan)]
    hands_on = [one for one in work if one[1] != "easing"]
    assert hands_on == [
        ("descendens", "kneading"),
        ("descendens", "pressing"),
        ("transversus", "kneading"),
        ("transversus", "pressing"),
    ]
    assert work[: len(hands_on)] == hands_on
    assert {technique for _, technique in work[len(hands_on) :]} <= {"easing"}


@pytest.mark.parametrize(("name", "strokes"), [("chest", 0.0), ("pectoralis-descendens", 2.0)])
def test_strokes_are_no_work_on_the_place_that_they_opened(name: str, strokes: float) -> None:
    plan = solved(replace(BASE, needs=(need(name, kneading=0.5, effleurage=0.4),)))
    work = [bout for bout in left(plan) if bout.technique == "effleurage"]
    assert sum(bout.minutes for bout in work) == strokes


def test_what_is_only_deep_waits_for_what_is_loosened() -> None:
    """The first muscle by name is only pressed: it comes after the one that is kneaded."""
    needs = (need("pectoralis-descendens", pressing=1.0), need("pectoralis-transversus", weight=0.9))
    plan = solved(replace(BASE, needs=needs))
    assert [bout.technique for bout in left(plan)] == ["kneading", "pressing"]


def test_a_region_is_not_opened_for_two_minutes_of_work() -> None:
    """Kneading alone would be given 2.5 min in the time; the region wants three or is left alone."""
    needs = (need("pectoralis-descendens", weight=0.9), need("gastrocnemius", weight=0.8))
    plan = solved(replace(BASE, minutes=12, needs=needs))
    minutes = [bout.minutes for bout in plan.bouts if bout.technique == "kneading"]
    assert minutes and min(minutes) >= 3


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
        why={"pectoralis-descendens": "a wound in the skin (left pectoralis descendens)"},
    )
    plan = solved(problem)
    assert minutes_on(plan, "pectoralis-transversus", "left") == 4.0
    (omission,) = plan.omissions
    assert omission.structure == "pectoralis-descendens"
    assert omission.why == "tightness; not to be worked, because of a wound in the skin (left pectoralis descendens)."
    assert "Keep clear of the pectoralis descendens." in plan.bouts[1].why


@pytest.mark.parametrize("excluded", [("chest", "left"), ("chest", None)])
def test_an_excluded_region_takes_its_muscles_along(excluded: tuple[str, str | None]) -> None:
    plan = solved(replace(BASE, excluded=frozenset({excluded}), why={"chest": "Swelling: swelling present (chest)"}))
    assert plan.status == "none"
    assert "Swelling" in plan.refusal
    assert "left pectoralis descendens" in plan.refusal


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
    assert [bout.technique for bout in left(plan)] == ["kneading", "pressing"]
    assert plan.bouts[2].minutes == 1.0
    assert plan.bouts[2].why.startswith("Loosens the tissue")
    assert plan.bouts[3].pressure == "firm"


def test_preparing_another_muscle_of_the_block_is_enough() -> None:
    """The rule wants preparation on the same region: kneading one muscle prepares the deep work on the other."""
    needs = (need("pectoralis-descendens", pressing=1.0), need("pectoralis-transversus", weight=0.9))
    plan = solved(replace(BASE, needs=needs))
    assert minutes_on(plan, "pectoralis-descendens", "left") == 0
    assert minutes_on(plan, "pectoralis-descendens", "left", ("pressing",)) == 3.0


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
    """0.9 of the pressing loads the thumb: 2.5 min come to 2.25."""
    problem = replace(BASE, needs=(need("pectoralis-descendens", pressing=1.0),), thumb_minutes=2.5)
    plan = solved(problem)
    assert minutes_on(plan, "pectoralis-descendens", "left", ("pressing",)) == 2.5


@pytest.mark.parametrize("minutes", [14, 20, 45])
def test_the_head_of_a_head_shy_horse_is_last_light_and_short(minutes: int) -> None:
    """Two of the four minutes are strokes: one place on the head gets one light technique."""
    heads = [need(name, side, 0.9) for name in ("rectus-capitis", "masseter") for side in ("left", "right")]
    problem = replace(BASE, minutes=minutes, needs=(*heads, need("gastrocnemius", weight=0.2)), head_shy=True)
    plan = solved(problem)
    on_head = [TABLES.structures[bout.structure].region in ("poll", "jaw") for bout in plan.bouts]
    assert on_head == sorted(on_head)
    head = [bout for bout, on in zip(plan.bouts, on_head, strict=True) if on]
    assert sum(bout.minutes for bout in head) == 4
    assert {bout.pressure for bout in head} == {"light"}
    left_out = [omission for omission in plan.omissions if omission.structure in ("rectus-capitis", "masseter")]
    assert len(left_out) >= 3
    assert all("head-shy horse comes last and gets 4 min at most" in omission.why for omission in left_out)


def test_the_head_of_a_head_shy_horse_is_not_moved() -> None:
    needs = (need("poll", "both", easing=1.0, kneading=0.1), need("gastrocnemius"))
    shy = solved(replace(BASE, needs=needs, head_shy=True))
    assert "easing" in {bout.technique for bout in solved(replace(BASE, needs=needs)).bouts}
    assert "easing" not in {bout.technique for bout in shy.bouts}


def test_the_head_of_any_horse_is_worked_for_six_minutes_in_one_place() -> None:
    plan = solved(replace(BASE, minutes=45, needs=(need("poll", "both", 0.9), need("rectus-capitis", "both", 0.8))))
    assert sum(bout.minutes for bout in plan.bouts if bout.technique == "kneading") == 6


def test_the_head_of_a_head_shy_horse_is_not_the_first_that_is_worked() -> None:
    plan = solved(replace(BASE, needs=(need("masseter"),), head_shy=True))
    assert plan.bouts == ()
    tables = small_tables(*BODY)
    problem = PlanProblem(needs=(need("masseter"),), minutes=12, head_shy=True)
    plan = solve(problem, tables)
    assert check(plan, problem, tables) == ()
    assert [bout.structure for bout in plan.bouts][1:] == ["neck", "neck", "jaw", "masseter", "jaw"]


def test_the_walks_that_the_head_costs_are_within_the_time() -> None:
    needs = tuple(need(name, side) for name in ("gastrocnemius", "masseter") for side in ("left", "right"))
    problem = replace(BASE, minutes=25, needs=needs, head_shy=True, walk_round_minutes=1.5)
    assert solved(problem).minutes_used <= 25


def test_the_poll_found_on_both_sides_is_worked_as_one() -> None:
    plan = solved(replace(BASE, needs=(need("poll", "both"), need("rectus-capitis", "both"))))
    assert {bout.side for bout in plan.bouts[1:]} == {"both"}
    assert plan.omissions == ()
    assert plan.bouts[1].why == "Opens the poll before its work."


@pytest.mark.parametrize("side", ["left", "right", None])
def test_a_limit_on_one_side_holds_for_what_is_worked_as_one(side: str | None) -> None:
    plan = solved(replace(BASE, needs=(need("poll", "both"),), excluded=frozenset({("poll", side)})))
    assert plan.bouts == ()


def holding(*, cap: str = "firm", knotted: bool = True, **helps: float) -> Plan:
    """A plan on tables with a hold besides kneading and pressing."""
    tables = small_tables(techniques=[technique("sustained-pressure", "deep", "firm", needs=("preparing",), thumb=0.5)])
    one = Need("gastrocnemius", "left", 0.6, ("knots",), helps, ("texture:knotted",) if knotted else ())
    problem = PlanProblem(needs=(one,), minutes=30, pressure_cap=cap)
    plan = solve(problem, tables)
    assert check(plan, problem, tables) == ()
    return plan


def test_a_spot_is_held_for_a_minute_and_a_half_at_most() -> None:
    plan = holding(**{"sustained-pressure": 1.0}, kneading=0.2)
    held = [bout for bout in plan.bouts if bout.technique == "sustained-pressure"]
    assert [bout.minutes for bout in held] == [1.5]
    assert held[0].why == "For knots. Hold a spot for seconds, 90 at most; let go and feel again."


@pytest.mark.parametrize(
    ("knotted", "techniques"),
    [(True, ["kneading", "pressing", "sustained-pressure"]), (False, ["kneading", "pressing"])],
)
def test_a_knot_is_loosened_and_held(knotted: bool, techniques: list[str]) -> None:
    """Pressing helps most by far; only the knot wants the hold too."""
    plan = holding(knotted=knotted, kneading=1.0, pressing=1.0, **{"sustained-pressure": 0.01})
    assert sorted(bout.technique for bout in left(plan)) == techniques


def test_a_knot_under_a_light_cap_is_only_loosened() -> None:
    plan = holding(cap="light", kneading=0.5, **{"sustained-pressure": 1.0})
    assert [bout.technique for bout in left(plan)] == ["kneading"]


@pytest.mark.parametrize(("place", "heaviest"), [("masseter", "moderate"), ("pectoralis-descendens", "firm")])
def test_thin_muscle_over_bone_is_never_pressed_firmly(place: str, heaviest: str) -> None:
    bouts = left(solved(replace(BASE, needs=(need(place, pressing=1.0, kneading=0.5),))))
    assert [bout.pressure for bout in bouts if bout.technique == "pressing"] == [heaviest]
    assert not any("No more than" in bout.why for bout in bouts)


def test_time_that_is_left_is_told() -> None:
    assert solved(replace(BASE, minutes=14)).left_over.startswith("You have about 6 minutes left: use them to watch")
    assert solved(replace(BASE, minutes=10)).left_over == ""


def test_a_midline_structure_is_worked_from_the_side_that_is_worked_anyway() -> None:
    needs = (need("sternum-fascia", None), need("pectoralis-descendens", "right"))
    plan = solved(replace(BASE, needs=needs))
    assert [bout.side for bout in plan.bouts if bout.technique == "effleurage"] == ["left", "right"]
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
    assert plan.bouts[1].why == "Light round: nothing was found here that asks for more."
    assert {bout.minutes for bout in plan.bouts[1:]} == {4.0}


def test_a_light_round_says_what_was_found_and_what_limits_it() -> None:
    tables = small_tables(*BODY)
    knot = need("splenius", pressing=1.0)
    problem = PlanProblem(
        needs=(knot,),
        minutes=30,
        caps={("splenius", "left"): "light", ("back", "left"): "light"},
        why={"back": "soreness (left back)"},
        excluded=frozenset({("neck", "right")}),
    )
    plan = solve(problem, tables)
    assert check(plan, problem, tables) == ()
    why = {(bout.structure, bout.side): bout.why for bout in plan.bouts}
    assert why["neck", "left"] == "Light round: tightness asks for more than there is room for here."
    assert why["back", "left"] == "Light round, and no more, because of soreness (left back)."


def test_a_barred_midline_leaves_a_light_round_clear_of_it() -> None:
    tables = small_tables(*BODY, structure("nuchal-ligament", "neck", paired=False))
    problem = PlanProblem(needs=(), minutes=45, excluded=frozenset({("neck", "right"), ("nuchal-ligament", "right")}))
    plan = solve(problem, tables)
    assert check(plan, problem, tables) == ()
    assert ("neck", "left") in {(bout.structure, bout.side) for bout in plan.bouts}
    assert ("neck", "right") not in {(bout.structure, bout.side) for bout in plan.bouts}


def test_maintenance_takes_nothing_from_a_need() -> None:
    tables = small_tables(*BODY)
    for minutes in (10, 15, 30):
        with_round = solve(replace(BASE, minutes=minutes), tables)
        assert with_round.benefit == pytest.approx(solve(replace(BASE, minutes=minutes), TABLES).benefit)


def test_nothing_to_do_is_said() -> None:
    plan = solved(replace(BASE, needs=()))
    assert plan.status == "none"
    assert "no findings" in plan.refusal
