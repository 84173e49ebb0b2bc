"""Word-time JSON: keys as speech recognisers commonly write them (no standard). JSON itself: RFC 8259."""

import json

import pytest

from haywisp.narration import Unreadable, Word
from haywisp.narration.word_json import read_words

ROWS = [{"text": "the", "start": 0.5, "end": 0.7}, {"text": "neck", "start": 0.8, "end": 1.1}]
WORDS = [Word("the", 0.5, 0.7, None, 0), Word("neck", 0.8, 1.1, None, 0)]


def read(data: object) -> tuple[list[Word], list[tuple[str, str]]]:
    made, problems = read_words(json.dumps(data), "told.json")
    return made, [(problem.where, problem.text) for problem in problems]


@pytest.mark.parametrize(
    "data",
    [
        ROWS,
        {"words": ROWS},
        {"text": "the neck", "words": ROWS, "segments": []},
        {"segments": [{"words": ROWS[:1]}, {"words": ROWS[1:]}]},
        [{"word": row["text"], "start": row["start"], "end": row["end"]} for row in ROWS],
        [{"w": f" {row['text']} ", "start": str(row["start"]), "end": str(row["end"])} for row in ROWS],
    ],
)
def test_every_usual_shape_gives_the_same_words(data: object) -> None:
    assert read(data) == (WORDS, [])


def test_segments_without_words_share_out_their_time() -> None:
    made, problems = read(
        {"segments": [{"text": " the neck", "start": 1, "end": 2}, {"text": "soft", "start": 4, "end": 5}]}
    )
    assert [(word.text, word.start, word.end) for word in made] == [
        ("the", 1.0, 1.444),
        ("neck", 1.444, 2.0),
        ("soft", 4.0, 5.0),
    ]
    assert problems == []


@pytest.mark.parametrize("key", ["prob", "probability", "confidence"])
def test_the_recognisers_probability(key: str) -> None:
    assert read([{"text": "neck", "start": 0, "end": 1, key: 0.25}])[0][0].probability == 0.25


@pytest.mark.parametrize("chance", [97, -1, None, "high", True, [0.5]])
def test_what_is_no_probability_is_none(chance: object) -> None:
    assert read([{"text": "neck", "start": 0, "end": 1, "prob": chance}])[0][0].probability is None


@pytest.mark.parametrize("start", [-3, float("nan"), float("inf"), 1e300, 10**400, None, "soon", True, {}])
def test_a_start_that_is_no_time_puts_the_word_after_the_one_before(start: object) -> None:
    made, problems = read([*ROWS, {"text": "soft", "start": start, "end": 1.4}])
    assert made[2] == Word("soft", 1.1, 1.4, None, 0)
    assert problems == [("word 3", "This word has no usable times; it was placed after the one before.")]


def test_an_end_before_the_start_is_estimated_and_told() -> None:
    made, problems = read([{"text": "soft", "start": 5, "end": 1}])
    assert (made[0].start, made[0].end) == (5.0, 5.2)
    assert problems == [("word 1", "This word ends before it starts; its end was estimated.")]


def test_an_end_that_is_no_time_is_estimated_and_told() -> None:
    made, problems = read([{"text": "soft", "start": 5, "end": float("nan")}])
    assert made[0].end == 5.2
    assert problems[0][1].startswith("The end of this word is no usable time")


def test_a_missing_end_is_estimated() -> None:
    assert read([{"text": "soft", "start": 5}])[0] == [Word("soft", 5.0, 5.2, None, 0)]


def test_times_that_go_backwards_are_put_in_order_and_told() -> None:
    made, problems = read(list(reversed(ROWS)))
    assert made == WORDS
    assert problems == [("word 2", "The times go backwards here; the words were put in order of time.")]


def test_words_that_overlap_are_cut_where_the_next_begins() -> None:
    made, _ = read([{"text": "a", "start": 0, "end": 3}, {"text": "b", "start": 1, "end": 2}])
    assert [(word.start, word.end) for word in made] == [(0.0, 1.0), (1.0, 2.0)]


def test_a_silence_begins_a_new_piece() -> None:
    made, _ = read([*ROWS, {"text": "soft", "start": 2.4, "end": 2.8}])
    assert [word.cue for word in made] == [0, 0, 1]


def test_entries_without_text_are_left_out_and_told() -> None:
    made, problems = read([None, 3, "neck", {"text": " "}, {"text": 5}, {"start": 1}, *ROWS])
    assert made == WORDS
    assert [where for where, _ in problems] == [f"word {number}" for number in range(1, 7)]


def test_blanks_and_control_characters_inside_a_word_are_one_blank() -> None:
    made, _ = read_words('[{"text": "the\\u0000\\n neck\\ud800", "start": 0, "end": 1}]', "told.json")
    assert made[0].text == "the neck"


@pytest.mark.parametrize("text", ['[{"text": "a", "start": 0', "[{'text': 'a'}]", "[1,]", '{"words": [}', "["])
def test_malformed_json_is_refused_with_the_place(text: str) -> None:
    with pytest.raises(Unreadable, match=r"^told\.json: the JSON breaks off or is malformed at line 1, column \d+\."):
        read_words(text, "told.json")


@pytest.mark.parametrize("text", ["[" * 200_000, '{"words":' * 200_000, "[" * 200_000 + "]" * 200_000])
def test_deep_nesting_is_refused(text: str) -> None:
    with pytest.raises(Unreadable, match=r"^told\.json: the JSON is nested too deeply\."):
        read_words(text, "told.json")


def test_a_number_of_thousands_of_digits_is_refused() -> None:
    with pytest.raises(Unreadable, match="thousands of digits"):
        read_words(f'[{{"text": "a", "start": {"9" * 5000}}}]', "told.json")


@pytest.mark.parametrize(
    "data", [{}, {"a": 1}, {"words": {}}, {"words": "the neck"}, {"segments": {"words": []}}, "x", 5, None]
)
def test_json_of_another_kind_is_refused(data: object) -> None:
    with pytest.raises(Unreadable, match=r'holds no list of words\. Each word needs "text", "start" and "end"'):
        read_words(json.dumps(data), "told.json")
