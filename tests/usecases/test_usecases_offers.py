"""What was heard and not written down: asked about, added by a yes with its words and time, closed by a no."""

import json
from dataclasses import replace

import pytest
from fakes import SMALL, FakeStore, fake_app, with_visit

from haywisp.exchange import BadFile
from haywisp.narration.types import Choice, Question, Response, Span
from haywisp.usecases import App, Refused
from haywisp.usecases.exchanging import export_visit, import_visit
from haywisp.usecases.said import accept_all, answer, said
from haywisp.usecases.visits import hear

YAWN = Response("yawn", 9.0, Span(19, 21), 0.31)
OFFER = Question(
    "response",
    -1,
    None,
    "Not written down: yawn. Did the horse show this here?",
    (Choice("Yes, add it", "keep"), Choice("No, leave it out", "drop")),
    9.0,
    Span(19, 21),
    YAWN,
)


def offering(store: FakeStore | None = None) -> tuple[App, str]:
    app = fake_app(store, narration=replace(SMALL, questions=(OFFER,)))
    visit_id = with_visit(app)
    hear(app, visit_id, "small.vtt", b"WEBVTT")
    return app, visit_id


def test_what_a_yes_would_add_is_told() -> None:
    app, visit_id = offering()
    (view,) = said(app, visit_id).questions

    assert (view.offers, view.about, view.thread) == (True, "Yawned", "")
    assert (view.time, view.first_word, view.last_word) == ("0:09", 19, 21)


def test_a_yes_adds_the_entry_with_its_words_and_time() -> None:
    app, visit_id = offering()
    before = len(said(app, visit_id).entries)
    added = answer(app, said(app, visit_id).questions[0].id, "keep")
    page = said(app, visit_id)

    assert added is not None and added in page.entries and len(page.entries) == before + 1
    assert (added.part, added.body, added.status, added.version) == ("response", {"sign": "yawn"}, "accepted", 1)
    assert (added.time_s, added.first_word, added.last_word, added.confidence) == (9.0, 19, 21, 0.31)
    assert added.reason == OFFER.text
    assert page.questions == () and page.answered[0].answer_label == "Yes, add it"


def test_a_no_closes_it_and_adds_nothing() -> None:
    app, visit_id = offering()
    before = said(app, visit_id).entries
    assert answer(app, said(app, visit_id).questions[0].id, "drop") is None
    page = said(app, visit_id)

    assert (page.entries, page.questions) == (before, ())
    assert page.answered[0].answer_label == "No, leave it out"


def test_another_answer_is_refused_and_it_stays_open() -> None:
    app, visit_id = offering()
    with pytest.raises(Refused, match="answers nothing here"):
        answer(app, said(app, visit_id).questions[0].id, "left")
    assert len(said(app, visit_id).questions) == 1


def test_accepting_the_rest_answers_no_offer() -> None:
    app, visit_id = offering()
    accept_all(app, visit_id)
    assert len(said(app, visit_id).questions) == 1


@pytest.mark.parametrize("value", ["keep", "drop"])
def test_an_answered_offer_is_not_made_again_with_the_narration(value: str) -> None:
    app, visit_id = offering()
    answer(app, said(app, visit_id).questions[0].id, value)
    hear(app, visit_id, "small.vtt", b"WEBVTT", again=True)
    assert said(app, visit_id).questions == ()


def test_an_open_offer_is_made_once_when_the_narration_is_given_again() -> None:
    app, visit_id = offering()
    hear(app, visit_id, "small.vtt", b"WEBVTT", again=True)
    assert [view.about for view in said(app, visit_id).questions] == ["Yawned"]


def test_an_offer_goes_along_in_a_visit_file_and_can_be_taken_there() -> None:
    app, visit_id = offering()
    other = fake_app()
    visit = import_visit(other, export_visit(app, visit_id))
    added = answer(other, said(other, visit.id).questions[0].id, "keep")
    assert added is not None and added.sentence == "Yawned"


@pytest.mark.parametrize(
    ("offer", "says"),
    [
        ({"part": "x", "body": {}}, "questions 1: “x” is no part of the record"),
        ({"part": "response"}, "questions 1: what it offers has no part and body"),
        ({"part": "response", "body": {}}, "questions 1: “sign” is missing"),
    ],
)
def test_a_file_whose_question_offers_nothing_that_can_be_kept_is_refused(offer: object, says: str) -> None:
    app, visit_id = offering()
    told = json.loads(export_visit(app, visit_id))
    told["questions"][0]["offer"] = offer
    with pytest.raises(BadFile, match=says):
        import_visit(fake_app(), json.dumps(told))
