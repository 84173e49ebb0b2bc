"""Any bytes, any text at any times: understood without a fault, and every entry lies inside the transcript.

``HAYWISP_SLOW=1`` runs 100,000 examples of each in place of 200.
"""

import json
import os

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from narration_samples import faults_of, tables

from haywisp.narration import Transcript, Unreadable, Word, read_bytes, understand

SLOW = os.environ.get("HAYWISP_SLOW") == "1"
settings.register_profile("narration-fast", max_examples=200, deadline=None, derandomize=True)
settings.register_profile(
    "narration-slow", max_examples=100_000, deadline=None, suppress_health_check=list(HealthCheck), database=None
)
PROFILE = settings.get_profile("narration-slow" if SLOW else "narration-fast")

# Words that the grammar listens to, so that chance meets its rules and not only its deafness.
SAID = """
long strokes over the left right both side of his neck poll withers splenius longissimus gluteals hamstring girth
effleurage petrissage compression trigger point skin rolling tapotement three times one two three four five twice
tight tender soft warm knots nothing not no is isn't was yawns licks chews ears pinned flinches sorry no, other
same again now next time could will usually we'd another horse vet saddler see you in four weeks stop light firm
deeper okay. right. good? and, then so he's she's it's don't it there here group pole hedger said f e e e
"""
TRADE = SAID.split()
TEXT = st.one_of(st.sampled_from(TRADE), st.sampled_from(TRADE), st.text(max_size=12))
GAPS = st.one_of(st.just(0.0), st.floats(0, 1), st.floats(0, 40), st.floats(0, 1e4))
ANY_TIME = st.one_of(st.floats(0, 60), st.floats(), st.integers(), st.none(), st.text(max_size=5), st.just(10**400))


@st.composite
def spoken(draw: st.DrawFn) -> Transcript:
    """Words in order of time, with any text and any silence between and within."""
    words: list[Word] = []
    at = 0.0
    for text in draw(st.lists(TEXT, max_size=40)):
        start = at + draw(GAPS)
        at = start + draw(st.one_of(st.just(0.3), GAPS))
        words.append(Word(text, round(start, 3), round(at, 3)))
    return Transcript(tuple(words), "vtt")


@PROFILE
@given(spoken())
def test_any_words_are_understood_inside_their_transcript(transcript: Transcript) -> None:
    assert faults_of(understand(transcript, tables())) == []


@PROFILE
@given(spoken())
def test_the_same_words_are_always_understood_alike(transcript: Transcript) -> None:
    assert understand(transcript, tables()) == understand(transcript, tables())


@PROFILE
@given(st.lists(st.fixed_dictionaries({"text": TEXT, "start": ANY_TIME, "end": ANY_TIME}), max_size=25))
def test_any_times_of_a_recogniser_are_put_in_order(rows: list[dict[str, object]]) -> None:
    try:
        transcript = read_bytes(json.dumps(rows).encode(), "told.json")
    except Unreadable as refused:
        assert str(refused).startswith("told.json: ")
        return
    times = [time for word in transcript.words for time in (word.start, word.end)]
    assert times == sorted(times)
    assert faults_of(understand(transcript, tables())) == []


@PROFILE
@given(st.text(max_size=300))
def test_any_text_is_read_or_refused(text: str) -> None:
    _read_or_refuse(text.encode("utf-8", "replace"))


@PROFILE
@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    _read_or_refuse(data)


LINES = st.lists(
    st.one_of(
        st.sampled_from(
            [
                "WEBVTT", "", "NOTE", "STYLE", "1", "2", "-->", "00:01.000 --> 00:02.000", "[0:05]", "[1:00:00] soft",
                "00:00:05,000 --> 00:00:01,000", "00:00:01 --> 00:00:03", "9999:59:59,999 --> 0:1.2", "the neck", "{",
            ]
        ),
        st.text(max_size=20),
    ),
    max_size=20,
)  # fmt: skip


@PROFILE
@given(LINES, st.sampled_from(["\n", "\r\n", "\r"]))
def test_any_arrangement_of_lines_is_read_or_refused(lines: list[str], ending: str) -> None:
    _read_or_refuse(ending.join(lines).encode("utf-8", "replace"))


def _read_or_refuse(data: bytes) -> None:
    try:
        transcript = read_bytes(data, "told.txt")
    except Unreadable as refused:
        assert str(refused).startswith("told.txt: ")
        assert str(refused).endswith(".")
        return
    times = [time for word in transcript.words for time in (word.start, word.end)]
    assert times == sorted(times)
    assert all((word.text.strip() and word.text.isprintable()) or not word.text.isascii() for word in transcript.words)
    assert faults_of(understand(transcript, tables())) == []
