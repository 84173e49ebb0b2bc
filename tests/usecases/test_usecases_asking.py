"""Today's questions: what is asked of which horse, and answers that change within one visit."""

import pytest
from fakes import FakeStore, fake_app, heard_visit, with_visit

from haywisp.usecases import App, Refused
from haywisp.usecases.asking import ask_page, keep_answers
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.said import add, history, said
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


def test_a_line_that_is_too_long_is_refused() -> None:
    app = fake_app()
    visit_id = with_visit(app)
    with pytest.raises(Refused, match="401 characters"):
        keep_answers(app, visit_id, ["fever"], "x" * 401)
    assert said(app, visit_id).entries == ()
