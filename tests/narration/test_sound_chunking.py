"""Cutting at silence: 15 s at most, in order, and everything that may be speech is in some chunk."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from haywisp.narration.sound import chunking
from haywisp.narration.sound.chunking import LONGEST_S, PAUSE_S, cut
from haywisp.narration.sound.voicing import FRAME_S, MAYBE, SURE, closed, spans


@st.composite
def voices(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    at, found = 0.0, []
    for pause, length in draw(st.lists(st.tuples(st.floats(0.1, 20), st.floats(0.05, 60)), max_size=12)):
        found.append((at + pause, at + pause + length))
        at += pause + length
    return tuple(found)


@settings(deadline=None)
@given(voices())
def test_chunks_are_short_in_order_and_hold_all_that_was_said(voiced: tuple[tuple[float, float], ...]) -> None:
    frames = np.zeros(int(2 + (voiced[-1][1] if voiced else 0) / FRAME_S))
    made = cut(voiced, frames)
    assert all(0 < end - start <= LONGEST_S + 1e-6 for start, end in made)
    assert all(before[1] <= after[0] + 1e-9 for before, after in zip(made, made[1:], strict=False))
    for start, end in voiced:
        inside = sum(max(0.0, min(end, last) - max(start, first)) for first, last in made)
        assert abs(inside - (end - start)) < 1e-6


def test_a_cut_is_made_in_the_longest_late_silence() -> None:
    made = cut(((0.0, 4.0), (5.5, 9.0), (9.5, 11.0), (12.0, 20.0)), np.zeros(1000))
    assert made == ((0.0, 11.0), (12.0, 20.0))


def test_counting_stays_together_and_a_long_silence_is_not_listened_to() -> None:
    counted = ((0.0, 0.5), (3.0, 3.5), (6.0, 6.5))
    assert cut(counted, np.zeros(1000)) == ((0.0, 6.5),)
    assert cut((*counted, (6.6 + PAUSE_S, 14.0)), np.zeros(1000)) == ((0.0, 6.5), (6.6 + PAUSE_S, 14.0))


def test_who_draws_no_breath_is_cut_where_a_voice_is_least_likely() -> None:
    frames = np.ones(2000)
    frames[300] = 0.2
    assert cut(((0.0, 20.0),), frames) == ((0.0, 300 * FRAME_S), (300 * FRAME_S, 20.0))


def test_a_run_of_voice_begins_low_needs_a_peak_and_closes_short_gaps() -> None:
    frames = [0, 0.3, 0.6, 0.3, 0, 0.3, 0.3, 0, *([0] * 20), 0.9]
    assert spans(frames, SURE, MAYBE) == ((FRAME_S, 4 * FRAME_S), (28 * FRAME_S, 29 * FRAME_S))
    assert closed([(2.0, 3.0), (0.0, 1.0), (1.2, 2.1)], 0.3) == ((0.0, 3.0),)


def test_the_bars_for_a_chunk_are_lower_than_those_for_a_voice() -> None:
    assert (chunking.SURE, chunking.MAYBE) < (SURE, MAYBE)
