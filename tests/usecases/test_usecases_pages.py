"""Today, the list of horses, and a horse's own page."""

from datetime import date, timedelta

import pytest
from fakes import NOW, FakeStore, fake_app, heard_visit, with_visit

from haywisp.usecases import App, NotFound
from haywisp.usecases.horses import horse_page, list_horses
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.said import accept_all, answer, finish, said
from haywisp.usecases.today import today
from haywisp.usecases.visits import open_visit

TODAY = NOW.date()


def reviewed_visit(app: App, day: date) -> str:
    """A visit with everything accepted, its return decided on."""
    visit_id = heard_visit(app, day)
    for question in said(app, visit_id).questions:
        answer(app, question.id, question.choices[0].value)
    accept_all(app, visit_id)
    finish(app, visit_id)
    return visit_id


def test_the_list_of_horses_counts_what_waits() -> None:
    app = fake_app()
    heard_visit(app)
    owner, yard = add_owner(app, "Bea Example"), add_yard(app, "Other Farm")
    add_horse(app, "Clover", owner.id, yard.id)

    rows = list_horses(app)

    assert [(row.name, row.last_day, row.waiting, row.open_questions) for row in rows] == [
        ("Bramble", TODAY, 1, 2),
        ("Clover", None, 0, 0),
    ]
    assert [row.name for row in list_horses(app, "bea")] == ["Clover"]
    assert [row.name for row in list_horses(app, after=rows[0].id)] == ["Clover"]


def test_today_has_the_days_visits_what_waits_and_what_is_due() -> None:
    app = fake_app()
    waiting = heard_visit(app, TODAY - timedelta(days=3))
    looked_through = reviewed_visit(app, TODAY - timedelta(days=4))
    due = reviewed_visit(app, TODAY - timedelta(days=40))
    booked = with_visit(app, TODAY)

    page = today(app)

    assert [row.id for row in page.visits] == [booked]
    assert [row.id for row in page.waiting] == [waiting]
    # What waits for review is told once.
    assert [row.id for row in page.recent] == [looked_through]
    assert [(row.visit_id, row.days_ago) for row in page.due] == [
        (due, 40),
        (looked_through, 4),
        (waiting, 3),
    ]
    assert page.horses == 4


def test_a_horse_that_is_booked_is_not_due() -> None:
    store = FakeStore()
    app = fake_app(store)
    visit_id = reviewed_visit(app, TODAY - timedelta(days=40))
    open_visit(app, store.rows.visits[visit_id].horse_id, TODAY + timedelta(days=2))

    assert today(app).due == ()


def test_a_horses_page_has_its_visits_newest_first_with_headlines() -> None:
    store = FakeStore()
    app = fake_app(store)
    first = reviewed_visit(app, TODAY - timedelta(days=40))
    horse_id = store.rows.visits[first].horse_id
    second = open_visit(app, horse_id, TODAY)

    page = horse_page(app, horse_id)

    assert [row.id for row in page.visits] == [second.id, first]
    assert page.visits[1].headline == ("Left splenius: tight", "Left poll: tender")
    assert page.visits[1].bouts == 1
    assert page.verdict_visit is not None
    assert page.verdict_visit.id == first
    assert page.verdict.verdict in {"work", "within-limits", "vet-first"}
    assert {strand.structure.id for strand in page.strands} == {"splenius", "poll"}


def test_a_standing_flag_reaches_the_verdict() -> None:
    app = fake_app()
    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Example Farm")
    stopping = {
        trigger.id
        for caution in app.tables().cautions.values()
        if caution.verdict == "vet-first" and not caution.all_triggers
        for trigger in caution.triggers
        if trigger.kind == "flag"
    }
    assert stopping, "the tables have no flag that stops the work"
    for flag in stopping:
        horse = add_horse(app, "Bramble", owner.id, yard.id, flags=[flag])
        page = horse_page(app, horse.id)
        assert page.verdict.verdict == "vet-first", flag
        assert page.verdict.reasons[0].because[0].sentence == page.flags[0].label


def test_a_horse_that_is_not_there() -> None:
    with pytest.raises(NotFound, match="no horse “gone”"):
        horse_page(fake_app(), "gone")
