import json
from dataclasses import replace

import pytest
from exchange_samples import NARRATION
from hypothesis import given, settings

from haywisp.exchange.contract_json import contract, read, write
from haywisp.exchange.errors import BadFile
from haywisp.narration.types import (
    Action,
    Alert,
    Bout,
    Choice,
    Finding,
    Narration,
    Question,
    Response,
    Span,
    Transcript,
    Word,
)

HEARD = ["three", "strokes", "down", "the", "near", "side"]
NARRATED = Narration(
    Transcript(tuple(Word(text, n, n + 1) for n, text in enumerate(HEARD)), "vtt"),
    (Bout("effleurage", ("neck",), "left", 41.0, 78.00000001, 3, "light", Span(0, 6), 0.91),),
    (Finding("splenius", "right", "tone", "tight", 152.0, Span(2, 3), 0.8),),
    (Response("lick-and-chew", 96.0, Span(3, 4), 0.8),),
    (Action("refer-saddler", 610.0, Span(4, 5), 0.8),),
    (Question("bout", 0, "side", "Which side?", (Choice("Left", "left"),), 43.0, Span(4, 6)),),
)


def test_record_has_the_four_lists_with_their_keys() -> None:
    record = json.loads(write(NARRATED))
    treatment = record["treatments"][0]
    asked = ["technique", "structures", "side", "start", "end", "passes", "pressure"]
    assert [treatment[key] for key in asked] == ["effleurage", ["neck"], "left", 41.0, 78.0, 3, "light"]
    wanted = {"structure": "splenius", "side": "right", "aspect": "tone", "value": "tight", "time": 152.0}
    assert wanted.items() <= record["findings"][0].items()
    assert {"sign": "lick-and-chew", "time": 96.0}.items() <= record["responses"][0].items()
    assert {"kind": "refer-saddler", "time": 610.0}.items() <= record["actions"][0].items()


def test_alerts_are_a_list_of_their_own_beside_the_four() -> None:
    alarming = replace(NARRATED, alerts=(Alert("colic", "colicky", 3.0, Span(3, 4), 0.85),))
    record, plain = json.loads(write(alarming)), json.loads(write(NARRATED))
    assert record["alerts"] == [{"flag": "colic", "text": "colicky", "time": 3.0, "confidence": 0.85, "words": [3, 4]}]
    assert plain["alerts"] == []
    for key in ("treatments", "findings", "responses", "actions"):
        assert record[key] == plain[key]


def test_record_tells_words_confidence_and_what_was_heard() -> None:
    record = json.loads(write(NARRATED))
    assert record["treatments"][0]["words"] == [0, 6]
    assert record["treatments"][0]["confidence"] == 0.91
    assert record["questions"][0]["heard"] == "near side"


@settings(max_examples=60)
@given(NARRATION)
def test_what_is_written_is_read_back(narration: Narration) -> None:
    assert read(write(narration)) == contract(narration)


def test_a_record_by_hand_needs_only_the_four_lists() -> None:
    by_hand = read('{"treatments": [], "findings": [], "responses": [{"sign": "yawn", "time": 3}], "actions": []}')
    assert by_hand.responses[0].time == 3.0
    assert by_hand.responses[0].words is None


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "line 1, column 1"),
        ("[]", "one object in braces"),
        ('{"treatments": []}', "findings is missing"),
        ('{"treatments": 3, "findings": [], "responses": [], "actions": []}', "treatments should be a list, found 3"),
        ('{"treatments": [], "findings": [], "responses": [], "actions": [{"kind": "rest", "time": NaN}]}', "NaN"),
        (
            '{"treatments": [], "findings": [], "responses": [{"sign": "sigh", "time": 1},'
            ' {"sign": "sigh", "time": "soon"}], "actions": []}',
            'responses 2, time should be a number, found "soon"',
        ),
        (
            '{"treatments": [], "findings": [], "responses": [], "actions": [{"kind": "rest", "time": 1e400}]}',
            "too large",
        ),
        ("[" * 100_000, "nested"),
    ],
)
def test_a_bad_file_is_refused_with_its_place(text: str, says: str) -> None:
    with pytest.raises(BadFile, match="narration record") as refusal:
        read(text)
    assert says in str(refusal.value)


def test_a_side_that_no_horse_has_is_refused() -> None:
    text = write(NARRATED).replace('"side": "right"', '"side": "off"')
    with pytest.raises(BadFile, match="findings 1, side"):
        read(text)
