"""A plan from what was reviewed, and reports of it."""

from datetime import date

import pytest
from fakes import fake_app, heard_visit, with_visit

from haywisp.usecases import App, NothingReviewed, Refused
from haywisp.usecases.plans import plan_next
from haywisp.usecases.reports import owner_report, owner_report_pdf, owner_report_printed
from haywisp.usecases.said import accept_all, add, answer, reject, said
from haywisp.usecases.visits import open_visit, visit_page


def test_needs_come_from_reviewed_findings_alone() -> None:
    app = fake_app()
    visit_id = heard_visit(app)

    before = plan_next(app, visit_id, minutes=30)
    accept_all(app, visit_id)
    after = plan_next(app, visit_id, minutes=30)

    assert (before.needs, before.unreviewed) == ((), 5)
    assert [(need.structure, need.side) for need in after.needs] == [("splenius", "left")]
    assert after.needs[0].because == ("tightness",)
    assert after.unreviewed == 2
    assert after.problems == ()
    assert 0 < sum(bout.minutes for bout in after.bouts) <= 30
    assert after.bouts[0].begins == "0:00"


def test_a_caution_that_was_only_heard_stops_the_plan_until_it_is_reviewed() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    body = {"structure": "back", "side": None, "aspect": "skin", "value": "wound"}
    wound = add(app, visit_id, "finding", body, 5.0)

    page = plan_next(app, visit_id)

    assert page.verdict.verdict != "work"
    assert any(reason.because and reason.because[0].thread == wound.thread for reason in page.verdict.reasons)


def test_a_region_stands_for_what_lies_in_it() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    add(app, visit_id, "finding", {"structure": "neck", "side": "right", "aspect": "warmth", "value": "warm"})
    add(app, visit_id, "finding", {"structure": "masseter", "side": "left", "aspect": "warmth", "value": "warm"})

    caps = plan_next(app, visit_id).verdict.caps

    assert "Right neck and what lies there: light pressure at most, because of warmth (right neck)" in caps
    assert "Left masseter: light pressure at most, because of warmth (left masseter)" in caps
    assert not any("splenius" in cap for cap in caps)


def test_a_plan_gives_its_reasons_as_sentences() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    for structure, side, aspect, value in (
        ("splenius", "left", "tone", "tight"),
        ("neck", "left", "skin", "lump"),
        ("latissimus-dorsi", "right", "mobility", "restricted"),
        ("latissimus-dorsi", "right", "tenderness", "present"),
    ):
        add(app, visit_id, "finding", {"structure": structure, "side": side, "aspect": aspect, "value": value})

    page = plan_next(app, visit_id)

    (omission,) = page.omissions
    assert (omission.name, omission.why) == (
        "Left splenius",
        "tightness; not to be worked, because of a lump (left neck).",
    )
    reasons = [bout.why for bout in page.bouts if bout.structure.id == "latissimus-dorsi"]
    capped = "No more than light pressure, because of soreness (right latissimus dorsi)."
    assert any(reason.endswith(capped) for reason in reasons), reasons


def test_where_a_vet_comes_first_the_refusal_names_what_was_found() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    for aspect, value in (("warmth", "warm"), ("swelling", "present")):
        body = {"structure": "triceps-brachii", "side": "right", "aspect": aspect, "value": value}
        add(app, visit_id, "finding", body)

    assert plan_next(app, visit_id).plan.refusal == (
        "No plan: a vet comes first, because of warmth and a swelling (right triceps brachii)."
    )


def test_the_walk_round_the_horse_takes_its_time_in_the_plan() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    for side in ("left", "right"):
        add(app, visit_id, "finding", {"structure": "masseter", "side": side, "aspect": "tone", "value": "tight"})

    page = plan_next(app, visit_id, minutes=20)

    last = page.bouts[-1]
    minutes, seconds = last.begins.split(":")
    assert {bout.side for bout in page.bouts} == {None, "left", "right"}
    assert int(minutes) + int(seconds) / 60 + last.minutes == page.plan.minutes_used
    assert page.plan.minutes_used == sum(bout.minutes for bout in page.bouts) + 0.5


def test_an_absolute_caution_leaves_no_plan_and_says_why() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    tables = app.tables()
    flag = next(
        trigger.id
        for caution in tables.cautions.values()
        if caution.absolute and caution.verdict == "vet-first" and not caution.all_triggers
        for trigger in caution.triggers
        if trigger.kind == "flag"
    )
    add(app, visit_id, "flag", {"flag": flag})

    page = plan_next(app, visit_id)

    assert page.verdict.name == "Vet first"
    assert page.bouts == ()
    assert page.proof == page.plan.refusal != ""


def later_visit(app: App, visit_id: str, day: date, minutes: int = 30) -> str:
    return open_visit(app, visit_page(app, visit_id).horse.id, day, minutes).id


def test_a_visit_with_nothing_recorded_is_planned_from_the_newest_before_that_has_entries() -> None:
    app = fake_app()
    oldest = heard_visit(app, date(2031, 1, 5))
    accept_all(app, oldest)
    empty = later_visit(app, oldest, date(2031, 2, 6))
    to_come = later_visit(app, oldest, date(2031, 3, 20), minutes=35)
    much_later = later_visit(app, oldest, date(2031, 4, 20))
    body = {"structure": "masseter", "side": "left", "aspect": "tone", "value": "tight"}
    add(app, much_later, "finding", body)

    before, page = plan_next(app, oldest, minutes=35), plan_next(app, to_come)

    assert page.made_from is not None
    assert (page.made_from.id, page.made_from.name) == (oldest, "5 January 2031")
    assert (page.visit.id, page.row.id, page.minutes) == (to_come, to_come, 35)
    assert (page.needs, page.bouts, page.unreviewed) == (before.needs, before.bouts, before.unreviewed)
    assert [need.structure for need in page.needs] == ["splenius"]
    assert page.row.bouts == 0
    assert plan_next(app, empty).made_from == page.made_from
    assert plan_next(app, much_later).made_from is None
    assert before.made_from is None


def test_the_verdict_of_the_visit_before_is_kept() -> None:
    app = fake_app()
    before = with_visit(app, date(2031, 1, 5))
    add(app, before, "action", {"kind": "refer-vet"})
    to_come = later_visit(app, before, date(2031, 3, 20))

    page, head = plan_next(app, to_come), visit_page(app, to_come)

    assert (page.verdict.verdict, page.bouts) == ("vet-first", ())
    assert page.verdict == plan_next(app, before).verdict == head.verdict
    assert head.verdict_from == page.made_from is not None


def test_what_was_all_left_out_is_nothing_recorded() -> None:
    app = fake_app()
    before = with_visit(app, date(2031, 1, 5))
    add(app, before, "finding", {"structure": "masseter", "side": "left", "aspect": "tone", "value": "tight"})
    to_come = later_visit(app, before, date(2031, 3, 20))
    wrong = add(app, to_come, "note", {"text": "another horse"})
    reject(app, wrong.thread, wrong.version, "another horse")

    page = plan_next(app, to_come)

    assert page.made_from is not None
    assert page.made_from.id == before


@pytest.mark.parametrize("minutes", [0, -10, 10_000])
def test_minutes_that_cannot_be_planned_are_refused(minutes: int) -> None:
    app = fake_app()

    with pytest.raises(Refused, match="can't be made"):
        plan_next(app, with_visit(app), minutes)


def test_the_owners_report_counts_what_is_still_to_be_reviewed() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    for question in said(app, visit_id).questions:
        answer(app, question.id, question.choices[0].value)

    report = owner_report(app, visit_id)

    assert (report.horse, report.owner, report.unreviewed) == ("Bramble", "Ann Example", 3)
    assert owner_report_pdf(app, visit_id).startswith(b"%PDF")
    assert "Bramble" in owner_report_printed(app, visit_id, "text")
    with pytest.raises(Refused, match="no format “doc”"):
        owner_report_printed(app, visit_id, "doc")


@pytest.mark.parametrize("printed", [False, True])
def test_a_visit_with_nothing_reviewed_has_no_report(printed: bool) -> None:
    """Silence would be read as a clean bill of health."""
    app = fake_app()
    empty, heard = with_visit(app), heard_visit(app)

    for visit_id, says in (
        (empty, "nothing is recorded of this visit"),
        (heard, "5 entries that were heard are still"),
    ):
        with pytest.raises(NothingReviewed, match=says):
            owner_report_printed(app, visit_id, "text") if printed else owner_report_pdf(app, visit_id)


def finding(app: App, visit_id: str, structure: str, side: str | None, aspect: str, value: str) -> None:
    add(app, visit_id, "finding", {"structure": structure, "side": side, "aspect": aspect, "value": value})


def sore_back_then_a_neck(app: App, second: date = date(2031, 2, 6)) -> tuple[str, str]:
    """A sore, warm, stuck left back; at the next visit only the neck is felt."""
    first = with_visit(app, date(2031, 1, 5))
    for aspect, value in (("tenderness", "present"), ("warmth", "warm"), ("mobility", "restricted")):
        finding(app, first, "back", "left", aspect, value)
    next_one = later_visit(app, first, second)
    finding(app, next_one, "neck", "right", "tone", "tight")
    return first, next_one


def test_what_was_not_felt_again_still_limits_and_still_asks_for_less() -> None:
    app = fake_app()
    first, second = sore_back_then_a_neck(app)

    then, page = plan_next(app, first), plan_next(app, second)

    limit = "Left back and what lies there: not worked, because of warmth and soreness (left back)"
    assert limit in then.verdict.excluded
    assert f"{limit} (not felt last time: from the visit of 5 January 2031)" in page.verdict.excluded
    (before,) = [need for need in then.needs if need.structure == "back"]
    (need,) = [need for need in page.needs if need.structure == "back"]
    assert 0 < need.weight < before.weight
    assert need.because[0] == "tenderness (not felt last time: from the visit of 5 January 2031)"
    assert not any(bout.structure.id == "back" and bout.side == "left" for bout in page.bouts)


def test_feeling_it_again_answers_it() -> None:
    app = fake_app()
    _, second = sore_back_then_a_neck(app)
    for aspect, value in (("tenderness", "absent"), ("warmth", "normal"), ("mobility", "free")):
        finding(app, second, "back", "left", aspect, value)

    page = plan_next(app, second)

    assert page.verdict.excluded == page.verdict.caps == ()
    assert [need.structure for need in page.needs] == ["neck"]


def test_after_half_a_year_it_asks_for_no_work_but_still_limits() -> None:
    app = fake_app()
    _, second = sore_back_then_a_neck(app, date(2031, 9, 1))

    page = plan_next(app, second)

    assert [need.structure for need in page.needs] == ["neck"]
    assert any("5 January 2031" in limit for limit in page.verdict.excluded)


def test_a_vet_who_was_asked_for_two_visits_ago_still_comes_first() -> None:
    app = fake_app()
    first, second = sore_back_then_a_neck(app)
    add(app, first, "action", {"kind": "refer-vet"})

    page = plan_next(app, second)

    assert page.plan.refusal == (
        "No plan: a vet comes first, because of the vet who was asked for at the visit of 5 January 2031."
    )
    assert page.verdict == visit_page(app, second).verdict


def test_the_times_of_the_bouts_end_where_the_plan_does() -> None:
    """A place that is worked on both sides at once is reached without a walk, and so it is told."""
    app = fake_app()
    visit_id = with_visit(app)
    for structure, side in (("poll", "both"), ("splenius", "left"), ("splenius", "right")):
        add(app, visit_id, "finding", {"structure": structure, "side": side, "aspect": "tone", "value": "tight"})

    page = plan_next(app, visit_id, minutes=60)

    assert "both" in {bout.side for bout in page.bouts} and {"left", "right"} <= {bout.side for bout in page.bouts}
    minutes, seconds = map(int, page.bouts[-1].begins.split(":"))
    assert minutes + seconds / 60 + page.bouts[-1].minutes == page.plan.minutes_used
