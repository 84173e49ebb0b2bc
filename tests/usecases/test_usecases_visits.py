"""Visits: opened, heard once, heard again without losing what someone stood by."""

from dataclasses import replace
from datetime import date

import pytest
from fakes import SMALL, SMALL_TEXT, FakeStore, fake_app, heard_visit, with_visit, words

from haywisp.narration.types import Narration, Transcript
from haywisp.usecases import NotFound, Refused
from haywisp.usecases.said import accept, correct, said
from haywisp.usecases.visits import hear, open_visit, visit_page


def test_visits_are_numbered_by_horse() -> None:
    store = FakeStore()
    app = fake_app(store)
    first = store.rows.visits[with_visit(app)]

    second = open_visit(app, first.horse_id, date(2031, 4, 1), minutes=45)

    assert (first.number, second.number, second.status, second.minutes) == (1, 2, "planned", 45)


@pytest.mark.parametrize("minutes", [0, -5, 241])
def test_minutes_that_cannot_be_booked_are_refused(minutes: int) -> None:
    store = FakeStore()
    app = fake_app(store)
    horse_id = store.rows.visits[with_visit(app)].horse_id

    with pytest.raises(Refused, match="minutes can't be booked"):
        open_visit(app, horse_id, date(2031, 4, 1), minutes=minutes)


@pytest.mark.parametrize("day", [date(1, 1, 1), date(1931, 3, 14), date(2131, 3, 14), date(9999, 12, 31)])
def test_a_day_with_a_mistyped_year_is_refused(day: date) -> None:
    store = FakeStore()
    app = fake_app(store)
    horse_id = store.rows.visits[with_visit(app)].horse_id

    with pytest.raises(Refused, match="Check the year"):
        open_visit(app, horse_id, day)


def test_hearing_keeps_the_file_whole_and_proposes_every_statement() -> None:
    store = FakeStore()
    app = fake_app(store)
    visit_id = with_visit(app)

    heard = hear(app, visit_id, "small.vtt", "WEBVTT – söme".encode())

    assert (heard.counts.bouts, heard.counts.findings, heard.counts.responses, heard.counts.actions) == (1, 2, 1, 1)
    assert (heard.counts.proposed, heard.counts.open_questions) == (5, 2)
    assert heard.problems == ("line 3: the time was mended",)
    assert heard.visit.status == "heard"
    assert store.rows.narrations[0].content == "WEBVTT – söme"


def test_a_second_narration_is_refused_and_changes_nothing() -> None:
    store = FakeStore()
    app = fake_app(store)
    visit_id = heard_visit(app)
    before = list(store.rows.entries)

    with pytest.raises(Refused, match=r"already has a narration \(small.vtt\)"):
        hear(app, visit_id, "other.vtt", b"WEBVTT")

    assert store.rows.entries == before
    assert len(store.rows.narrations) == 1


def told_again() -> Narration:
    """The small narration with two words in front, and without its first finding."""
    later = Transcript(words("Right then " + SMALL_TEXT), "vtt")
    bout = SMALL.bouts[0]
    moved = replace(bout, start=bout.start + 1, span=replace(bout.span, first=2, last=13))
    return replace(SMALL, transcript=later, bouts=(moved,), findings=SMALL.findings[1:], questions=())


def test_hearing_again_replaces_what_was_proposed_and_keeps_what_someone_stood_by() -> None:
    store = FakeStore()
    visit_id = heard_visit(fake_app(store))
    app = replace(fake_app(store, narration=told_again()), new_id=iter(f"new-{n}" for n in range(100)).__next__)
    page = said(app, visit_id)
    bout = next(entry for entry in page.entries if entry.part == "bout")
    splenius = next(entry for entry in page.entries if entry.body.get("structure") == "splenius")
    accept(app, bout.thread, bout.version)
    correct(app, splenius.thread, splenius.version, {"side": "right"})

    heard = hear(app, visit_id, "again.vtt", b"WEBVTT again", again=True)

    page = said(app, visit_id)
    kept = {entry.thread: entry for entry in page.entries}
    assert [entry.part for entry in page.entries].count("bout") == 1
    assert (kept[bout.thread].status, kept[bout.thread].first_word, kept[bout.thread].last_word) == ("accepted", 2, 13)
    assert (kept[splenius.thread].status, kept[splenius.thread].first_word) == ("corrected", -1)
    assert kept[splenius.thread].body["side"] == "right"
    assert heard.counts.open_questions == 0
    assert heard.counts.rejected == 3
    assert {entry.reason for entry in page.rejected} == {"the narration was given again"}
    assert [view.answer_label for view in page.answered] == ["the narration was given again"] * 2


def test_the_page_of_a_visit_names_the_visit_before() -> None:
    store = FakeStore()
    app = fake_app(store)
    visit_id = heard_visit(app)
    later = open_visit(app, store.rows.visits[visit_id].horse_id, date(2031, 4, 1))

    page = visit_page(app, later.id)

    assert page.previous is not None
    assert (page.previous.id, page.previous.name) == (visit_id, "14 March 2031")
    assert page.file_name == ""
    assert visit_page(app, visit_id).previous is None


def test_a_visit_that_is_not_there() -> None:
    with pytest.raises(NotFound, match="no visit “gone”"):
        visit_page(fake_app(), "gone")
