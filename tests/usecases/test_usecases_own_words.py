"""Own words kept, offered after a correction, and an old visit read again with them, with the real ear."""

import json
from collections.abc import Iterator
from dataclasses import replace
from itertools import count

import pytest
from fakes import NOW, with_visit

from haywisp.bootstrap import build
from haywisp.narration.types import OwnWord
from haywisp.usecases import App, NotFound, Refused
from haywisp.usecases.exchanging import export_visit, import_visit
from haywisp.usecases.own_words import OwnWordWarned, forget, heard_at, own_word_named, own_words, teach
from haywisp.usecases.rereading import read_again, reread_page, words_changed
from haywisp.usecases.said import accept, add, answer, correct, reject, said
from haywisp.usecases.teaching import offers
from haywisp.usecases.views import EntryView
from haywisp.usecases.visits import hear

HUG = OwnWord("technique", "the bear hug", "compression")
FELLA = OwnWord("structure", "the big fella at the bottom", "brachiocephalicus")
SAID = (
    b"[0:00] Left side, hands on his neck. [0:10] Effleurage on the big fella at the bottom, five times. "
    b"[0:40] Then the bear hug on his splenius. [1:10] And kneading the neck. [1:40] Done."
)
HANDS = b"[0:00] Left side, hands on his neck. "


@pytest.fixture
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[App]:
    numbers = count(1)
    made = build("sqlite://", clock=lambda: NOW, new_id=lambda: f"id{next(numbers):05d}")
    yield made
    made.close()


@pytest.fixture
def visit(app: App) -> str:
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", SAID)
    return visit_id


def entry(app: App, visit_id: str, start: str, time_s: float = -1.0) -> EntryView:
    entries = (*said(app, visit_id).entries, *said(app, visit_id).rejected)
    return next(one for one in entries if one.sentence.startswith(start) and one.time_s >= time_s)


def told(app: App, visit_id: str) -> list[str]:
    return [one.sentence for one in said(app, visit_id).entries]


def test_words_are_kept_listed_and_taken_off(app: App) -> None:
    kept = teach(app, replace(HUG, phrase="  The  Bear-Hug "))
    assert (kept.phrase, kept.meaning_name, kept.known) == ("The Bear-Hug", "Compression", True)
    assert own_words(app) == (kept,)
    assert own_word_named(app, "bear hug") == kept
    assert forget(app, kept.id) == kept
    assert own_words(app) == ()
    with pytest.raises(NotFound, match="taken off already"):
        forget(app, kept.id)


def test_words_on_the_list_are_not_given_another_meaning_silently(app: App) -> None:
    teach(app, HUG)
    with pytest.raises(Refused, match="on your list already: it means compression"):
        teach(app, OwnWord("structure", "a bear hug", "splenius"))
    assert [row.meaning for row in own_words(app)] == ["compression"]


def test_words_with_a_meaning_are_kept_only_when_said_twice(app: App) -> None:
    word = OwnWord("structure", "the poll", "splenius")
    with pytest.raises(OwnWordWarned, match="heard as poll now"):
        teach(app, word)
    assert own_words(app) == ()
    assert teach(app, word, anyway=True).meaning == "splenius"


def test_refused_words_are_not_kept(app: App) -> None:
    with pytest.raises(Refused, match=r"everyday words .* Nothing was kept"):
        teach(app, OwnWord("structure", "on the left", "splenius"))
    assert own_words(app) == ()


def test_a_new_narration_is_understood_with_them_and_an_old_one_is_not(app: App, visit: str) -> None:
    before = said(app, visit)
    teach(app, FELLA)
    teach(app, HUG)
    after = said(app, visit)
    assert (after.entries, after.repairs) == (before.entries, before.repairs)
    newer = with_visit(app)
    hear(app, newer, "told.txt", SAID)
    assert "Effleurage along the left brachiocephalicus, 5 passes" in told(app, newer)
    assert [repair.meant for repair in said(app, newer).repairs] == ["brachiocephalicus", "compression"]


def test_a_narration_keeps_the_words_it_was_understood_with(app: App) -> None:
    kept = teach(app, HUG)
    teach(app, OwnWord("sign", "the teapot", "head-raise"))
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", SAID)
    with app.units() as unit:
        stored = unit.narration_of(visit_id)
    assert stored is not None
    assert stored.own_words == (HUG,)
    before = said(app, visit_id).repairs
    forget(app, kept.id)
    assert said(app, visit_id).repairs == before


def test_it_is_told_where_words_were_said_before(app: App, visit: str) -> None:
    assert [(one.visit.id, one.times) for one in heard_at(app, "the BIG fella")] == [(visit, 1)]
    assert heard_at(app, "big bottom fella") == ()
    assert heard_at(app, "…") == ()


def test_a_corrected_structure_offers_the_words_it_was_likely_called_by(app: App, visit: str) -> None:
    bout = entry(app, visit, "Effleurage")
    correct(app, bout.thread, bout.version, {"structures": ["brachiocephalicus"]})
    assert [(one.kind, one.phrase, one.meaning, one.misheard) for one in offers(app, bout.thread)] == [
        ("structure", "big fella at the bottom", "brachiocephalicus", False)
    ]


def test_words_with_a_meaning_of_their_own_are_left_for_the_person_to_give(app: App, visit: str) -> None:
    bout = entry(app, visit, "Kneading")
    correct(app, bout.thread, bout.version, {"technique": "compression"})
    (offer,) = offers(app, bout.thread)
    assert (offer.kind, offer.phrase, offer.meaning) == ("technique", "", "compression")


def test_words_that_were_repaired_are_offered_whole(app: App) -> None:
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", b"[0:00] Left side, effel y urge on his neck, five times. [0:40] Done.")
    bout = entry(app, visit_id, "Effleurage")
    correct(app, bout.thread, bout.version, {"technique": "compression"})
    assert [(one.phrase, one.meaning) for one in offers(app, bout.thread)] == [("effel y urge", "compression")]


def test_a_word_that_sounds_like_its_meaning_is_offered_as_misheard(app: App) -> None:
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", HANDS + b"[0:10] Effleurage on the brocade of falcons, five times. [0:40] Done.")
    bout = entry(app, visit_id, "Effleurage")
    correct(app, bout.thread, bout.version, {"structures": ["brachiocephalicus"]})
    assert [(one.phrase, one.misheard) for one in offers(app, bout.thread)] == [("brocade of falcons", True)]


@pytest.mark.parametrize("changes", [{"side": "right"}, {"passes": "3"}, {"pressure": "light"}])
def test_what_no_words_stand_for_teaches_nothing(app: App, visit: str, changes: dict[str, str]) -> None:
    bout = entry(app, visit, "Kneading")
    correct(app, bout.thread, bout.version, changes)
    assert offers(app, bout.thread) == ()


def test_nothing_is_offered_that_is_on_the_list(app: App, visit: str) -> None:
    teach(app, FELLA)
    bout = entry(app, visit, "Effleurage")
    correct(app, bout.thread, bout.version, {"structures": ["brachiocephalicus"]})
    assert offers(app, bout.thread) == ()


def test_what_reading_again_would_change_is_told_before_and_done_only_when_asked(app: App, visit: str) -> None:
    assert words_changed(app, visit) == 0
    teach(app, FELLA)
    teach(app, HUG)
    assert words_changed(app, visit) == 2
    before = said(app, visit)
    page = reread_page(app, visit)
    assert said(app, visit) == before
    assert (page.added, page.dropped) == ((FELLA.phrase, HUG.phrase), ())
    shown = [(one.what, one.before, one.after) for one in page.changes]
    assert ("new", "", "Compression on the left splenius") in shown
    assert any(what == "changed" and "brachiocephalicus" in after for what, _, after in shown)
    assert read_again(app, visit, page.mark) == len(shown)
    assert "Compression on the left splenius" in told(app, visit)
    assert words_changed(app, visit) == 0
    assert reread_page(app, visit).changes == ()


def test_the_same_entry_goes_on_and_keeps_what_it_was(app: App, visit: str) -> None:
    bout = entry(app, visit, "Effleurage")
    teach(app, FELLA)
    read_again(app, visit, reread_page(app, visit).mark)
    after = entry(app, visit, "Effleurage")
    assert (after.thread, after.version, after.status) == (bout.thread, bout.version + 1, "proposed")
    assert after.reason == "read again with words of my own"


def test_what_was_decided_on_stays(app: App, visit: str) -> None:
    bout, kneading = entry(app, visit, "Effleurage"), entry(app, visit, "Kneading")
    accept(app, bout.thread, bout.version)
    reject(app, kneading.thread, kneading.version)
    teach(app, FELLA)
    teach(app, OwnWord("technique", "kneading the neck", "wringing"))
    page = reread_page(app, visit)
    assert ("stays", bout.sentence) in [(one.what, one.before) for one in page.changes]
    read_again(app, visit, page.mark)
    assert entry(app, visit, "Effleurage").sentence == bout.sentence
    assert [one.sentence for one in said(app, visit).rejected] == [kneading.sentence]


def test_nothing_is_done_that_was_not_shown(app: App, visit: str) -> None:
    teach(app, FELLA)
    mark = reread_page(app, visit).mark
    teach(app, HUG)
    before = said(app, visit)
    with pytest.raises(Refused, match="look again"):
        read_again(app, visit, mark)
    assert said(app, visit) == before


def test_words_taken_off_the_list_can_be_read_out_again(app: App) -> None:
    kept = teach(app, FELLA)
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", SAID)
    forget(app, kept.id)
    page = reread_page(app, visit_id)
    assert (page.added, page.dropped) == ((), (FELLA.phrase,))
    read_again(app, visit_id, page.mark)
    assert "brachiocephalicus" not in " ".join(told(app, visit_id))


def test_a_visit_without_a_narration_can_not_be_read_again(app: App) -> None:
    with pytest.raises(Refused, match="no narration"):
        reread_page(app, with_visit(app))


def test_an_answered_doubt_about_a_misheard_word_offers_it(app: App) -> None:
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", b"[0:00] Left side, effleurage on the brackio sefalicus, five times. [0:40] Done.")
    bout = entry(app, visit_id, "Effleurage")
    accept(app, bout.thread, bout.version)
    assert [(one.phrase, one.meaning, one.misheard) for one in offers(app, bout.thread)] == [
        ("brackio sefalicus", "brachiocephalicus", True)
    ]


def test_questions_of_a_changed_entry_are_closed_and_the_new_ones_asked(app: App) -> None:
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", b"[0:00] Effleurage on the big fella at the bottom, five times. [0:40] Done.")
    old = [question.text for question in said(app, visit_id).questions]
    teach(app, FELLA)
    read_again(app, visit_id, reread_page(app, visit_id).mark)
    page = said(app, visit_id)
    assert [question.text for question in page.answered] == old
    asked = [question for question in page.questions if question.thread == entry(app, visit_id, "Effleurage").thread]
    assert asked
    shown = answer(app, asked[0].id, "left")
    assert shown is not None
    assert shown.sentence.startswith("Effleurage along the left brachiocephalicus")


def test_a_visit_in_a_file_takes_its_own_words_along(app: App) -> None:
    teach(app, FELLA)
    visit_id = with_visit(app)
    hear(app, visit_id, "told.txt", SAID)
    text = export_visit(app, visit_id)
    other = build("sqlite://", clock=lambda: NOW)
    import_visit(other, text)
    assert own_words(other) == ()
    assert said(other, visit_id).repairs == said(app, visit_id).repairs
    other.close()


def test_a_file_from_before_own_words_is_taken_in(app: App, visit: str) -> None:
    document = json.loads(export_visit(app, visit))
    del document["narration"]["own_words"]
    other = build("sqlite://", clock=lambda: NOW)
    import_visit(other, json.dumps(document))
    assert told(other, visit) == told(app, visit)
    other.close()


def test_what_was_written_by_hand_is_not_proposed_again(app: App, visit: str) -> None:
    teach(app, HUG)
    new = next(one for one in reread_page(app, visit).changes if one.what == "new")
    minutes, seconds = new.time.split(":")
    body = {"technique": "compression", "structures": ["splenius"], "side": "left"}
    add(app, visit, "bout", body, int(minutes) * 60 + int(seconds))
    assert [one for one in reread_page(app, visit).changes if one.what == "new"] == []
