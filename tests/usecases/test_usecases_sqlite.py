"""The same use cases over a real database file."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from fakes import NOW, fake_app, heard_visit

from haywisp.store import open_store
from haywisp.usecases import App, Changed, Refused
from haywisp.usecases.horses import horse_page, list_horses
from haywisp.usecases.said import accept, accept_all, answer, finish, history, said
from haywisp.usecases.today import today
from haywisp.usecases.visits import hear, open_visit


@pytest.fixture
def app(tmp_path: Path) -> Iterator[App]:
    store = open_store(f"sqlite:///{(tmp_path / 'haywisp.db').as_posix()}")
    store.migrate()
    yield replace(fake_app(), units=store.unit)
    store.close()


def test_a_visit_from_the_words_to_the_horses_page(app: App) -> None:
    visit_id = heard_visit(app)
    for question in said(app, visit_id).questions:
        answer(app, question.id, question.choices[0].value)
    counts = accept_all(app, visit_id)
    finish(app, visit_id)

    page = horse_page(app, said(app, visit_id).horse.id)

    assert (counts.proposed, counts.open_questions) == (0, 0)
    assert page.visits[0].headline == ("Left splenius: tight", "Left poll: tender")
    assert [(row.name, row.waiting) for row in list_horses(app)] == [("Bramble", 0)]
    assert [row.id for row in today(app).visits] == [visit_id]


def test_a_version_that_someone_else_was_quicker_with(app: App) -> None:
    visit_id = heard_visit(app)
    bout = said(app, visit_id).entries[0]
    accept(app, bout.thread, 1)

    with pytest.raises(Changed):
        accept(app, bout.thread, 1)
    assert len(history(app, bout.thread)) == 2


def test_a_refused_answer_leaves_no_trace(app: App) -> None:
    visit_id = heard_visit(app)
    side = said(app, visit_id).questions[0]

    with pytest.raises(Refused):
        answer(app, side.id, "upwards")
    assert said(app, visit_id).questions[0].id == side.id


def test_hearing_again_on_a_real_database(app: App) -> None:
    visit_id = heard_visit(app)
    accept(app, said(app, visit_id).entries[0].thread, 1)

    counts = hear(app, visit_id, "again.vtt", b"WEBVTT", again=True).counts

    assert (counts.accepted, counts.proposed, counts.rejected) == (1, 4, 4)


def test_visits_of_other_days_are_not_todays(app: App) -> None:
    horse_id = said(app, heard_visit(app, date(2031, 3, 1))).horse.id
    open_visit(app, horse_id, NOW.date())

    assert [row.number for row in today(app).visits] == [2]
