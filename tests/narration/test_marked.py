"""Text with [m:ss] marks, and text without times. Common practice of people who type up a recording; no standard."""

import pytest

from haywisp.narration.cues import Cue
from haywisp.narration.marked import has_marks, read_marked, read_untimed


def test_a_piece_lasts_until_the_next_mark() -> None:
    cues, problems = read_marked("[0:05] the neck\nand the poll\n[0:20] soft")
    assert cues == [Cue(5.0, 20.0, " the neck\nand the poll\n", 1), Cue(20.0, 20.4, " soft", 3)]
    assert problems == []


@pytest.mark.parametrize(
    ("mark", "seconds"),
    [
        ("[0:00]", 0.0),
        ("[12:34]", 754.0),
        ("[1:02:03]", 3723.0),
        ("[75:00]", 4500.0),
        ("[0:05.5]", 5.5),
        ("[0:05,25]", 5.25),
    ],
)
def test_marks(mark: str, seconds: float) -> None:
    assert read_marked(f"{mark} soft")[0][0].start == seconds


@pytest.mark.parametrize("text", ["[0:5] soft", "[music] soft", "0:05 soft", "[a:bb] soft", "(0:05) soft"])
def test_what_is_no_mark(text: str) -> None:
    assert not has_marks(text)


def test_a_mark_inside_a_line_begins_a_piece() -> None:
    cues, _ = read_marked("[0:00] the neck [0:04] soft [0:06] tight")
    assert [(cue.start, cue.text.strip()) for cue in cues] == [(0.0, "the neck"), (4.0, "soft"), (6.0, "tight")]


def test_text_before_the_first_mark_is_kept_and_told() -> None:
    cues, problems = read_marked("long strokes\n[0:10] soft")
    assert cues[0] == Cue(0.0, 10.0, "long strokes\n", 1)
    assert cues[1].line == 2
    assert "placed at the start" in problems[0].text


def test_a_mark_that_goes_backwards_gets_the_time_that_its_words_take() -> None:
    cues, _ = read_marked("[1:00] one two [0:30] three")
    assert [(cue.start, cue.end) for cue in cues] == [(60.0, 60.8), (30.0, 30.4)]


def test_text_without_times_is_paced_by_its_words() -> None:
    assert read_untimed("the neck\n\nsoft") == [Cue(0.0, 0.8, "the neck", 1), Cue(0.8, pytest.approx(1.2), "soft", 3)]
