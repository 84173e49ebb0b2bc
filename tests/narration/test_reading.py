"""Files of every form: the form is told from the content, and what was mended is told."""

import json

import pytest

from haywisp.narration import Transcript, Unreadable, read_bytes
from haywisp.narration.reading import TOLD_AT_MOST, form_of

VTT = "WEBVTT\n\n00:01.000 --> 00:02.000\nthe neck\n"
SRT = "1\n00:00:01,000 --> 00:00:02,000\nthe neck\n"
MARKED = "[0:01] the neck"
JSON = '[{"text": "the", "start": 1, "end": 1.4}, {"text": "neck", "start": 1.4, "end": 2}]'


def read(text: str) -> Transcript:
    return read_bytes(text.encode(), "told")


def said(transcript: Transcript) -> str:
    return " ".join(word.text for word in transcript.words)


@pytest.mark.parametrize(
    ("text", "form"),
    [
        (VTT, "vtt"),
        ("\n\n" + VTT, "vtt"),
        ("\ufeff" + VTT, "vtt"),
        (SRT, "srt"),
        (SRT.replace(",", "."), "srt"),
        (SRT.replace(",000", ""), "srt"),
        (MARKED, "marked"),
        ("[1:00:01] the neck", "marked"),
        ("  " + JSON, "word-json"),
        (json.dumps({"words": json.loads(JSON)}, indent=2), "word-json"),
        ("the neck", "untimed"),
        ("[laughs] the neck", "untimed"),
        ("{laughs} the neck", "untimed"),
        ("[5 minutes of silence] the neck", "untimed"),
        ("head --> tail", "untimed"),
        ("3, 4 the neck", "untimed"),
    ],
)
def test_the_form_is_told_from_the_content(text: str, form: str) -> None:
    assert form_of(text) == form
    transcript = read(text)
    assert transcript.format == form


@pytest.mark.parametrize("text", [VTT, SRT, MARKED, JSON])
def test_the_same_words_come_from_every_form(text: str) -> None:
    transcript = read(text)
    assert (said(transcript), transcript.words[0].start, transcript.problems) == ("the neck", 1.0, ())


def test_text_without_times_says_so() -> None:
    assert [problem.where for problem in read("the neck").problems] == ["whole file"]


def test_a_long_recording_is_questioned() -> None:
    transcript = read("WEBVTT\n\n05:00:00.000 --> 05:00:02.000\nthe neck\n")
    assert [problem.text for problem in transcript.problems] == ["This runs for 5.0 hours. Check that it is one visit."]


def test_what_was_mended_many_times_is_told_shortly() -> None:
    rows = [{"text": "a"} for _ in range(TOLD_AT_MOST + 7)]
    problems = read(json.dumps(rows)).problems
    assert len(problems) == TOLD_AT_MOST + 1
    assert problems[-1].text == "7 more places were mended in the same way."


@pytest.mark.parametrize(
    "text",
    [
        "WEBVTT\n",
        "WEBVTT\n\nNOTE the neck\n",
        "1\n00:00:01,000 --> 00:00:02,000\n\n",
        "[0:01]\n[0:02]",
        "[]",
        '{"words": []}',
    ],
)
def test_a_file_without_words_is_refused(text: str) -> None:
    with pytest.raises(Unreadable, match=r"^told: there are no spoken words in it\. Choose a transcript"):
        read(text)


def test_words_are_in_order_and_never_overlap() -> None:
    text = (
        "1\n00:00:05,000 --> 00:00:09,000\nlate words here\n\n2\n00:00:01,000 --> 00:00:06,000\nearly words\n\n"
        "3\n00:00:02,000 --> 00:00:01,000\nbackwards\n"
    )
    transcript = read(text)
    times = [time for word in transcript.words for time in (word.start, word.end)]
    assert times == sorted(times)
    assert said(transcript) == "early words backwards late words here"
    assert len(transcript.problems) >= 3
