"""Any passage of speech without words is listened to again, whatever a recogniser answers."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from haywisp.narration import Word
from haywisp.narration.sound import Again, Chunk
from haywisp.narration.sound.coverage import UNHEARD_S, unheard, without
from haywisp.narration.sound.guarding import guarded

CHUNK = Chunk(30.0, 45.0)
PROMPT = "effleurage, splenius."
STEP_S = 0.01


@st.composite
def voices(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    edges = sorted(set(draw(st.lists(st.integers(3000, 4500), max_size=12))))
    return tuple((start / 100, end / 100) for start, end in zip(edges[::2], edges[1::2], strict=False))


@st.composite
def hearings(draw: st.DrawFn) -> list[Word]:
    words = draw(
        st.lists(
            st.tuples(
                st.sampled_from(["neck", "splenius", "one", "brachiocephalicus", "and"]),
                st.integers(3000, 4500),
                st.integers(0, 400),
            ),
            max_size=40,
        )
    )
    return [
        Word(text, start / 100, min((start + length) / 100, CHUNK.end))
        for text, start, length in sorted(words, key=lambda row: row[1])
    ]


@settings(deadline=None)
@given(voices(), hearings(), hearings())
def test_speech_without_words_is_always_listened_to(
    voice: tuple[tuple[float, float], ...], prompted: list[Word], unprompted: list[Word]
) -> None:
    heard = guarded(CHUNK, voice, prompted, unprompted, PROMPT)
    # On a grid of its own: which moments have a voice, and neither a word nor a flag.
    moments = np.arange(CHUNK.start + STEP_S / 2, CHUNK.end, STEP_S)
    open_to_doubt = np.zeros(len(moments), bool)
    for start, end in voice:
        open_to_doubt |= (moments > start) & (moments < end)
    for word in heard.words:
        open_to_doubt &= ~((moments > word.start) & (moments < word.end))
    for one in heard.again:
        open_to_doubt &= ~((moments > one.start) & (moments < one.end))
    longest = run = 0
    for moment in open_to_doubt:
        run = run + 1 if moment else 0
        longest = max(longest, run)
    assert longest * STEP_S < UNHEARD_S + STEP_S


@settings(deadline=None)
@given(voices(), hearings(), hearings())
def test_no_word_of_either_pass_is_lost_without_a_flag(
    voice: tuple[tuple[float, float], ...], prompted: list[Word], unprompted: list[Word]
) -> None:
    heard = guarded(CHUNK, voice, prompted, unprompted, PROMPT)
    if not any(one.reason == "loop" for one in heard.again):
        assert set(prompted) <= set(heard.words)
    assert all(CHUNK.start <= one.start <= one.end <= CHUNK.end for one in heard.again)


def test_a_word_stretched_over_a_passage_does_not_hide_it() -> None:
    stretched = [Word("neck", 31.0, 36.0), Word("tight", 36.0, 36.4)]
    assert unheard(((31.0, 36.4),), stretched, CHUNK) == ((31.46, 35.54),)


def test_a_word_of_no_time_hides_nothing() -> None:
    assert unheard(((31.0, 33.0),), [Word("neck", 32.0, 32.0)], CHUNK) == ((31.0, 33.0),)


def test_a_pause_is_no_passage() -> None:
    assert unheard(((31.0, 32.0), (38.0, 39.0)), [Word("so", 31.0, 32.0), Word("there", 38.0, 39.0)], CHUNK) == ()


def test_a_voice_cut_by_the_edge_needs_less() -> None:
    assert unheard(((44.0, 45.0),), [Word("and", 44.0, 44.5)], CHUNK) == ((44.5, 45.0),)
    assert unheard(((43.0, 44.0),), [Word("and", 43.0, 43.5)], CHUNK) == ()


def test_what_is_taken_out_of_spans() -> None:
    assert without(((0.0, 10.0),), ((2.0, 3.0), (5.0, 20.0))) == ((0.0, 2.0), (3.0, 5.0))
    assert without(((0.0, 1.0), (2.0, 3.0)), ((0.5, 2.5),)) == ((0.0, 0.5), (2.5, 3.0))


def test_again_says_why() -> None:
    heard = guarded(CHUNK, ((31.0, 35.0),), [], [], PROMPT)
    assert heard.again == (Again(31.0, 35.0, "unheard"),)
