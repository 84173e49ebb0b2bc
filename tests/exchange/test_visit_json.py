import dataclasses
import json
from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.exchange.errors import BadFile
from haywisp.exchange.visit_json import VisitDocument, read, write
from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Entry, Horse, StoredNarration, StoredQuestion, Visit

NOW = datetime(2031, 3, 14, 9, 30, 5, 123456, tzinfo=UTC)


def version_of_b1(number: int, status: str) -> Entry:
    body = {"technique": "kneading", "structures": ["neck"], "side": None, "passes": 4, "pressure": "light"}
    return Entry(f"e{number}", "b1", number, "v1", "bout", body, 1.5, 9.0, 3, 8, 0.7, status, "narration", "", NOW)


DOCUMENT = VisitDocument(
    horse=Horse("h1", "Clover", "o1", "y1", height_cm=152.5, flags=("head-shy",), invented=True),
    owner=Owner("o1", "Ines Marlow"),
    yard=Yard("y1", "Sedge Farm", isolation=True),
    visit=Visit("v1", "h1", date(2031, 3, 14), 45, "heard", 2),
    narration=StoredNarration("n1", "v1", "clover.vtt", "vtt", "WEBVTT\n\n00:01.000 --> …", NOW),
    entries=(version_of_b1(1, "proposed"), version_of_b1(2, "accepted")),
    questions=(StoredQuestion("q1", "v1", "b1", "side", "Which side?", (("Left", "left"),), 2.0, 3, 4, "left", NOW),),
)


def test_a_visit_is_read_back_with_all_versions() -> None:
    assert read(write(DOCUMENT)) == DOCUMENT


def test_a_visit_without_a_narration_is_read_back() -> None:
    bare = dataclasses.replace(DOCUMENT, narration=None, entries=(), questions=())
    assert read(write(bare)) == bare


plain = st.none() | st.booleans() | st.integers(-(2**53), 2**53) | st.text(st.characters(exclude_categories=["Cs"]))


@given(st.dictionaries(st.text(st.characters(exclude_categories=["Cs"])), plain | st.lists(plain, max_size=3)))
def test_any_body_is_read_back(body: dict[str, object]) -> None:
    entry = dataclasses.replace(DOCUMENT.entries[0], body=body)
    document = dataclasses.replace(DOCUMENT, entries=(entry,))
    assert read(write(document)).entries[0].body == body


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"haywisp_visit": 2}, "version 2, and this Haywisp reads version 1"),
        ({"haywisp_visit": None}, 'no "haywisp_visit"'),
        ({"visit": {}}, "visit, id is missing"),
        ({"owner": {"id": "o9", "name": "Someone"}}, "the owner is not the horse's (o9 where o1 is due)"),
    ],
)
def test_a_bad_visit_is_refused_with_its_place(changes: dict[str, object], says: str) -> None:
    text = json.dumps(json.loads(write(DOCUMENT)) | changes)
    with pytest.raises(BadFile) as refusal:
        read(text)
    assert says in str(refusal.value)


def test_a_version_that_is_there_twice_is_refused() -> None:
    doubled = dataclasses.replace(DOCUMENT, entries=DOCUMENT.entries + DOCUMENT.entries[:1])
    with pytest.raises(BadFile, match="entry b1 has version 1 twice"):
        read(write(doubled))


def test_a_day_that_is_none_is_refused() -> None:
    text = write(DOCUMENT).replace('"2031-03-14"', '"14th of March"')
    with pytest.raises(BadFile, match="visit, day"):
        read(text)


def test_what_a_question_offers_goes_along_and_older_files_offer_nothing() -> None:
    offer = {"part": "response", "body": {"sign": "yawn"}, "end_s": 2.0, "confidence": 0.3}
    question = dataclasses.replace(DOCUMENT.questions[0], thread="", field=None, offer=offer)
    asking = dataclasses.replace(DOCUMENT, questions=(question,))

    assert read(write(asking)).questions == (question,)

    older = json.loads(write(DOCUMENT))
    del older["questions"][0]["offer"]
    assert read(json.dumps(older)) == DOCUMENT
