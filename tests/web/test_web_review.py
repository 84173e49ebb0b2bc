"""The review by plain forms and by htmx: each decision, its undo, questions, the end, and two windows at once."""

from dataclasses import replace
from pathlib import Path

import httpx
import pytest
from web_practice import SMALL, a_heard_visit, a_visit, client_of, practice

from haywisp.narration.types import Choice, Question, Response, Span
from haywisp.usecases import App
from haywisp.usecases.said import accept, add, answer, correct, entry_of, history, said
from haywisp.usecases.views import EntryView

HTMX = {"HX-Request": "true"}
BOUT = {"technique": "kneading", "structures": ["neck", "splenius"], "side": "right", "passes": "3", "pressure": "firm"}


@pytest.fixture
def visit_id(app: App) -> str:
    return a_heard_visit(app)


def first(app: App, visit_id: str) -> EntryView:
    return said(app, visit_id).entries[0]


def test_accepting_by_a_plain_form_comes_back_to_the_entry(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    sent = client.post(f"/visits/{visit_id}/said/{thread}/accept", data={"version": "1"})
    assert (sent.status_code, sent.headers["location"]) == (303, f"/visits/{visit_id}/said#entry-{thread}")
    assert entry_of(app, thread).status == "accepted"


def test_accepting_by_htmx_brings_the_card_and_the_count(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    piece = client.post(f"/visits/{visit_id}/said/{thread}/accept", data={"version": "1"}, headers=HTMX).text
    assert piece.lstrip().startswith(f'<li class="entry entry-accepted part-bout" id="entry-{thread}"')
    assert "<strong>1 of 5</strong> looked at" in piece
    assert "Effleurage along the left neck, 5 passes, light: accepted." in piece
    assert "<html" not in piece


def test_rejecting_and_accepting_after_all(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    client.post(f"/visits/{visit_id}/said/{thread}/reject", data={"version": "1"})
    assert entry_of(app, thread).status == "rejected"
    assert "Accept after all" in client.get(f"/visits/{visit_id}/said").text

    client.post(f"/visits/{visit_id}/said/{thread}/accept", data={"version": "2"})
    assert entry_of(app, thread).status == "accepted"


def test_correcting_a_bout(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    client.post(
        f"/visits/{visit_id}/said/{thread}/correct", data=BOUT | {"version": "1", "reason": "slip of the tongue"}
    )
    entry = entry_of(app, thread)
    assert entry.body == {
        "technique": "kneading",
        "structures": ["neck", "splenius"],
        "side": "right",
        "passes": 3,
        "pressure": "firm",
    }
    assert (entry.status, entry.reason) == ("corrected", "slip of the tongue")


def test_what_was_not_said_can_be_left_open_again(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    form = BOUT | {"side": "", "passes": "", "pressure": "", "version": "1"}
    client.post(f"/visits/{visit_id}/said/{thread}/correct", data=form)
    body = entry_of(app, thread).body
    assert (body["side"], body["passes"], body["pressure"]) == (None, None, None)


def test_correcting_a_finding(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = next(entry.thread for entry in said(app, visit_id).entries if entry.part == "finding")
    form = {"structure": "poll", "side": "left", "found": "swelling:present", "version": "1"}
    client.post(f"/visits/{visit_id}/said/{thread}/correct", data=form)
    assert entry_of(app, thread).sentence == "Left poll: swollen"


@pytest.mark.parametrize(
    ("changed", "words"),
    [({"passes": "lots"}, "passes"), ({"technique": "wishing"}, "“wishing”"), ({"structures": []}, "at least one")],
)
def test_a_refused_correction_keeps_what_was_chosen(
    app: App, client: httpx.Client, visit_id: str, changed: dict[str, object], words: str
) -> None:
    thread = first(app, visit_id).thread
    form = BOUT | changed | {"version": "1", "reason": "because I say so"}

    sent = client.post(f"/visits/{visit_id}/said/{thread}/correct", data=form)

    assert sent.status_code == 422
    assert words in sent.text
    assert 'value="because I say so"' in sent.text
    assert entry_of(app, thread).version == 1


def test_a_letter_that_cannot_be_kept_loses_nothing_of_a_form(app: App, client: httpx.Client, visit_id: str) -> None:
    note = add(app, visit_id, "note", {"text": "bites"})
    form = {"version": "1", "text": "bites\0 hard", "reason": "heard"}
    for path in (f"/visits/{visit_id}/said/{note.thread}/correct", f"/visits/{visit_id}/said/add?part=note"):
        answer = client.post(path.partition("?")[0], data=form | {"part": "note", "at": "1:30"})
        assert answer.status_code == 422
        assert " hard</textarea>" in answer.text and "can&#39;t be kept" in answer.text
    assert entry_of(app, note.thread).version == 1


def test_a_refused_correction_by_htmx_stays_in_the_card(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    form = BOUT | {"passes": "lots", "version": "1"}
    sent = client.post(f"/visits/{visit_id}/said/{thread}/correct", data=form, headers=HTMX)
    assert sent.headers["hx-retarget"] == f"#entry-{thread} .entry-more"
    assert 'value="lots"' in sent.text


def test_the_form_shows_what_is_there_now(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    page = client.get(f"/visits/{visit_id}/said/{thread}").text
    assert '<option value="effleurage" selected>' in page
    assert 'value="left" checked' in page
    assert '<option value="neck" selected>' in page


def test_undo_brings_an_earlier_version_back(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    correct(app, thread, 1, {"side": "right"})
    shown = client.get(f"/visits/{visit_id}/said/{thread}?show=history").text
    assert "Go back to version 1" in shown and "Save the correction" not in shown

    client.post(f"/visits/{visit_id}/said/{thread}/back", data={"version": "2", "to": "1"})

    now = entry_of(app, thread)
    assert (now.body["side"], now.status, now.version) == ("left", "proposed", 3)
    assert [old.status for old in history(app, thread)] == ["proposed", "corrected", "proposed"]


def test_going_back_to_a_version_that_never_was(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    sent = client.post(f"/visits/{visit_id}/said/{thread}/back", data={"version": "1", "to": "7"})
    assert sent.status_code == 404
    assert entry_of(app, thread).version == 1


def test_two_windows_by_plain_forms(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    correct(app, thread, 1, {"side": "right"})

    sent = client.post(f"/visits/{visit_id}/said/{thread}/reject", data={"version": "1"})

    assert sent.status_code == 409
    assert "changed since version 1" in sent.text
    assert "Effleurage along the right neck" in sent.text
    assert entry_of(app, thread).status == "corrected"


def test_two_windows_by_htmx_show_the_newer_version(app: App, client: httpx.Client, visit_id: str) -> None:
    thread = first(app, visit_id).thread
    correct(app, thread, 1, {"side": "right"})

    piece = client.post(f"/visits/{visit_id}/said/{thread}/accept", data={"version": "1"}, headers=HTMX).text

    assert "changed in another window" in piece
    assert "Effleurage along the right neck" in piece
    assert 'name="version" value="2"' in piece


@pytest.mark.parametrize("headers", [{}, HTMX])
def test_a_correction_in_two_windows_keeps_what_was_typed(
    app: App, client: httpx.Client, visit_id: str, headers: dict[str, str]
) -> None:
    thread = first(app, visit_id).thread
    accept(app, thread, 1)

    sent = client.post(f"/visits/{visit_id}/said/{thread}/correct", data=BOUT | {"version": "1"}, headers=headers)

    assert '<option value="kneading" selected>' in sent.text
    assert 'name="version" value="2"' in sent.text
    assert entry_of(app, thread).version == 2


@pytest.mark.parametrize("verb", ["accept", "reject", "correct", "back"])
@pytest.mark.parametrize("version", ["", "one", "1.5"])
def test_a_version_that_is_none(app: App, client: httpx.Client, visit_id: str, verb: str, version: str) -> None:
    thread = first(app, visit_id).thread
    sent = client.post(f"/visits/{visit_id}/said/{thread}/{verb}", data={"version": version, "to": "1"})
    assert sent.status_code == 422
    assert "whole number" in sent.text
    assert entry_of(app, thread).version == 1


def test_answering_a_question(app: App, client: httpx.Client, visit_id: str) -> None:
    question = said(app, visit_id).questions[0]
    sent = client.post(f"/visits/{visit_id}/questions/{question.id}", data={"value": "left"})
    assert sent.headers["location"] == f"/visits/{visit_id}/said#questions"
    assert entry_of(app, question.thread).sentence == "Left poll: tender"


def test_answering_by_htmx_brings_the_card_along(app: App, client: httpx.Client, visit_id: str) -> None:
    question = said(app, visit_id).questions[0]
    piece = client.post(f"/visits/{visit_id}/questions/{question.id}", data={"value": "right"}, headers=HTMX).text
    assert "No questions open" in piece
    assert f'id="entry-{question.thread}"' in piece and 'hx-swap-oob="outerHTML"' in piece
    assert "Right poll: tender" in piece


def test_a_yes_to_what_was_left_out_puts_its_card_between_the_others(tmp_path: Path) -> None:
    yawn = Question(
        "response",
        -1,
        None,
        "Not written down: yawn. Did the horse show this here?",
        (Choice("Yes, add it", "keep"), Choice("No, leave it out", "drop")),
        10.0,
        Span(19, 21),
        Response("yawn", 10.0, Span(19, 21), 0.3),
    )
    with practice(tmp_path, replace(SMALL, questions=(yawn,))) as app, client_of(app) as client:
        visit_id = a_heard_visit(app)
        (question,) = said(app, visit_id).questions
        assert "A yes adds: Yawned" in client.get(f"/visits/{visit_id}/said").text
        splenius = next(one for one in said(app, visit_id).entries if one.body.get("structure") == "splenius")
        sent = client.post(f"/visits/{visit_id}/questions/{question.id}", data={"value": "keep"}, headers=HTMX).text
        added = next(one for one in said(app, visit_id).entries if one.body.get("sign") == "yawn")
        assert f'hx-swap-oob="afterend:#entry-{splenius.thread}"' in sent
        assert sent.count(f'id="entry-{added.thread}"') == 1
        assert f'id="entry-{added.thread}"' in client.get(f"/visits/{visit_id}/said").text


def test_a_question_answered_in_another_window(app: App, client: httpx.Client, visit_id: str) -> None:
    question = said(app, visit_id).questions[0]
    answer(app, question.id, "left")
    sent = client.post(f"/visits/{visit_id}/questions/{question.id}", data={"value": "right"})
    assert sent.status_code == 422
    assert "answered already" in sent.text


def test_accepting_all_the_rest_leaves_what_is_asked_about(app: App, client: httpx.Client, visit_id: str) -> None:
    piece = client.post(f"/visits/{visit_id}/said/accept-all", headers=HTMX).text
    assert "4 accepted. 1 wait for the answer to a question." in piece
    assert "<strong>4 of 5</strong> looked at" in piece
    assert [entry.status for entry in said(app, visit_id).entries].count("proposed") == 1


def test_only_doubtful_ones_left_are_not_offered_for_accepting(app: App, client: httpx.Client, visit_id: str) -> None:
    assert "Accept all the rest (4)" in client.get(f"/visits/{visit_id}/said").text
    client.post(f"/visits/{visit_id}/said/accept-all")
    page = client.get(f"/visits/{visit_id}/said").text
    assert "Accept all the rest" not in page
    assert "1 entry waits for the answer to a question" in page


def test_accepting_all_by_a_plain_form(app: App, client: httpx.Client, visit_id: str) -> None:
    sent = client.post(f"/visits/{visit_id}/said/accept-all")
    assert sent.headers["location"] == f"/visits/{visit_id}/said#finish"


def test_finishing_waits_for_the_questions_unless_told(app: App, client: httpx.Client, visit_id: str) -> None:
    refused = client.post(f"/visits/{visit_id}/finish")
    assert refused.status_code == 422
    assert "1 question is still open" in refused.text

    done = client.post(f"/visits/{visit_id}/finish", data={"force": "yes"})
    assert done.headers["location"] == f"/visits/{visit_id}"
    assert said(app, visit_id).visit.status == "reviewed"


@pytest.mark.parametrize(
    ("part", "form", "sentence"),
    [
        ("bout", BOUT, "Kneading the right neck and splenius, 3 passes, firm"),
        ("finding", {"structure": "poll", "side": "left", "found": "tenderness:present"}, "Left poll: tender"),
        ("response", {"sign": "sigh"}, "Sighed"),
        ("action", {"kind": "refer-vet"}, "Refer to the vet"),
        ("note", {"text": "Windy, gate banging."}, "Windy, gate banging."),
    ],
)
def test_adding_by_hand(app: App, client: httpx.Client, part: str, form: dict[str, object], sentence: str) -> None:
    visit_id = a_visit(app)
    sent = client.post(f"/visits/{visit_id}/said/add", data={"part": part, "at": "2:30"} | form)
    (entry,) = said(app, visit_id).entries
    assert sent.headers["location"] == f"/visits/{visit_id}/said#entry-{entry.thread}"
    assert (entry.sentence, entry.time, entry.status) == (sentence, "2:30", "accepted")
    assert "written by hand" in client.get(f"/visits/{visit_id}/said").text


@pytest.mark.parametrize(
    ("form", "words"),
    [
        ({"part": "finding", "structure": "poll", "found": ""}, "aspect"),
        ({"part": "note", "text": " "}, "empty"),
        ({"part": "note", "text": "late", "at": "half past"}, "is no time in the session"),
        ({"part": "wish", "text": "x"}, "wish"),
    ],
)
def test_what_can_not_be_added_says_why(app: App, client: httpx.Client, form: dict[str, str], words: str) -> None:
    visit_id = a_visit(app)
    sent = client.post(f"/visits/{visit_id}/said/add", data=form)
    assert sent.status_code == 422
    assert words in sent.text
    assert said(app, visit_id).entries == ()


def test_a_red_flag_is_added_and_corrected_by_its_form(app: App, client: httpx.Client) -> None:
    visit = a_visit(app)
    form = client.get(f"/visits/{visit}/said/add?part=flag").text
    assert '<option value="colic">Colic</option>' in form

    client.post(f"/visits/{visit}/said/add", data={"part": "flag", "flag": "colic", "at": ""})
    (entry,) = said(app, visit).entries
    assert (entry.part, entry.sentence) == ("flag", "Colic")
    assert "part-flag" in client.get(f"/visits/{visit}/said").text

    client.post(f"/visits/{visit}/said/{entry.thread}/correct", data={"version": "1", "flag": "fever", "reason": ""})
    assert entry_of(app, entry.thread).sentence == "Fever"
    assert "Before touching: vet first" in client.get(f"/visits/{visit}").text


def test_a_card_shows_the_sentence_with_its_words_marked(app: App, client: httpx.Client, visit_id: str) -> None:
    page = client.get(f"/visits/{visit_id}/said").text
    assert "she licks and chews now <mark>the pole is tender</mark> and I want the vet" in page
    alone = client.get(f"/visits/{visit_id}/said/{said(app, visit_id).entries[0].thread}").text
    assert "<mark>Long strokes down the left neck" in alone
