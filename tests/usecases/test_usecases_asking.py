"""Today's questions: what is asked of which horse, and answers that change within one visit."""

from datetime import timedelta
from itertools import groupby

import pytest
from fakes import FakeStore, fake_app, heard_visit, with_visit

from haywisp.usecases import App, Refused
from haywisp.usecases.asking import ask_page, keep_answers
from haywisp.usecases.people import add_horse, add_owner, add_yard, edit_horse
from haywisp.usecases.plans import plan_next
from haywisp.usecases.said import accept_all, add, history, said
from haywisp.usecases.visits import open_visit, visit_page


def yes(app: App, visit_id: str) -> list[str]:
    ask = ask_page(app, visit_id)
    return [view.flag for view in (*ask.vet_first, *ask.limits) if view.yes]


def test_a_yes_that_becomes_a_no_stays_in_the_record() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    keep_answers(app, visit_id, ["fever", "just-worked"])
    first = said(app, visit_id)
    fever = next(entry for entry in first.entries if entry.body.get("flag") == "fever")

    keep_answers(app, visit_id, ["just-worked"], "the owner, by word of mouth")

    assert yes(app, visit_id) == ["just-worked"]
    assert [version.status for version in history(app, fever.thread)] == ["accepted", "rejected"]
    notes = [entry for entry in said(app, visit_id).entries if entry.part == "note"]
    assert [note.version for note in notes] == [2]
    assert visit_page(app, visit_id).verdict.verdict == "within-limits"


def test_the_same_answers_again_change_nothing() -> None:
    store = FakeStore()
    app = fake_app(store)
    visit_id = with_visit(app)
    keep_answers(app, visit_id, ["fever"])
    before = list(store.rows.entries)
    keep_answers(app, visit_id, ["fever"])
    assert store.rows.entries == before


def test_questions_where_a_yes_asks_for_the_vet_come_first() -> None:
    app = fake_app()
    ask = ask_page(app, with_visit(app))
    assert {"fever", "colic"} <= {view.flag for view in ask.vet_first}
    assert "just-worked" in {view.flag for view in ask.limits}
    assert ask.told == ask.agreement == ""


def test_like_questions_stand_together_and_illness_is_asked_first() -> None:
    app = fake_app()
    ask = ask_page(app, with_visit(app))
    for block in (ask.vet_first, ask.limits):
        groups = [view.group for view in block]
        assert all(groups)
        runs = [group for group, _ in groupby(groups)]
        assert len(runs) == len(set(runs))
    assert [group for group, _ in groupby(view.group for view in ask.vet_first)][:3] == [
        "Well or ill",
        "Lame, hurt or in pain",
        "Skin and wounds",
    ]


def test_what_nobody_measured_is_not_kept_as_a_no() -> None:
    """A reading is told as a red flag; the questions leave it alone."""
    app = fake_app()
    visit_id = with_visit(app)
    add(app, visit_id, "flag", {"flag": "heart-rate-out-of-range"})
    asked = {view.flag for view in (*ask_page(app, visit_id).vet_first, *ask_page(app, visit_id).limits)}
    assert not asked & {flag.id for flag in app.tables().flags.values() if flag.group == "readings"}
    keep_answers(app, visit_id, [])
    assert visit_page(app, visit_id).at_start.verdict == "vet-first"
    with pytest.raises(Refused, match="is no question of today"):
        keep_answers(app, visit_id, ["gut-sounds-absent"])


def test_only_a_mare_is_asked_about_foals() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    edit_horse(app, visit_page(app, visit_id).horse.id, sex="stallion")
    asked = {view.group for view in ask_page(app, visit_id).limits}
    assert "In foal" not in asked and "Today" in asked


def test_what_was_sedated_on_the_day_is_awake_by_the_next_visit() -> None:
    app = fake_app()
    first = heard_visit(app, app.clock().date() - timedelta(days=30))
    accept_all(app, first)
    keep_answers(app, first, ["sedated"])
    add(app, first, "flag", {"flag": "temperature-out-of-range"})
    assert visit_page(app, first).at_start.reasons[0].absolute
    to_come = open_visit(app, said(app, first).horse.id, app.clock().date()).id
    known = {reason.caution for reason in visit_page(app, to_come).at_start.reasons}
    # A reading that asks for the vet waits for the vet's answer.
    assert "sedated" not in known and "temperature-out-of-range" in known


def test_a_yard_in_isolation_is_known_before_it_is_asked() -> None:
    app = fake_app()
    horse = add_horse(app, "Bramble", add_owner(app, "Ann").id, add_yard(app, "Far Farm", isolation=True).id)
    visit = open_visit(app, horse.id, app.clock().date())
    assert yes(app, visit.id) == ["isolation"]
    keep_answers(app, visit.id, [])
    assert yes(app, visit.id) == []


def test_a_flag_of_a_moment_in_the_session_is_no_answer_before_it() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    add(app, visit_id, "flag", {"flag": "colic"}, 90.0)
    assert yes(app, visit_id) == []
    keep_answers(app, visit_id, [])
    assert [entry.status for entry in said(app, visit_id).entries if entry.part == "flag"] == ["accepted"]


def test_what_was_known_before_stands_apart_from_what_is_for_next_time() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    keep_answers(app, visit_id, ["just-worked"])

    page = visit_page(app, visit_id)

    known = {reason.caution for reason in page.at_start.reasons}
    assert page.recorded and page.at_start_from is None
    assert "just-worked" in known
    found = [fact.sentence for reason in page.verdict.reasons for fact in reason.because]
    assert "Poll: tender" in found
    # What was so on the day alone is over by the next time.
    assert "just-worked" not in {reason.caution for reason in page.verdict.reasons}
    assert "Poll: tender" not in [fact.sentence for reason in page.at_start.reasons for fact in reason.because]


def test_a_fever_before_touching_holds_the_next_time_too() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    keep_answers(app, visit_id, ["fever"])
    page = visit_page(app, visit_id)
    assert page.at_start.verdict == page.verdict.verdict == "vet-first"


def test_answers_alone_leave_a_visit_to_come_planned_from_the_one_before() -> None:
    app = fake_app()
    first = heard_visit(app, app.clock().date() - timedelta(days=30))
    accept_all(app, first)
    to_come = open_visit(app, said(app, first).horse.id, app.clock().date()).id
    keep_answers(app, to_come, ["just-worked"], "Dr Example agrees")

    page, plan = visit_page(app, to_come), plan_next(app, to_come)

    assert not page.recorded
    assert page.at_start_from is not None and page.at_start_from.id == first
    assert plan.made_from is not None and plan.made_from.id == first
    assert plan.verdict == page.at_start
    facts = [fact.sentence for reason in plan.verdict.reasons for fact in reason.because]
    assert "Still hot from work" in facts and "Poll: tender" in facts


def test_a_line_that_is_too_long_is_refused() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    with pytest.raises(Refused, match="401 characters"):
        keep_answers(app, visit_id, ["fever"], "x" * 401)
    assert said(app, visit_id).entries == ()
