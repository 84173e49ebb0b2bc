"""Passes counted aloud and passes stated."""

import pytest
from narration_samples import lexicon, tokens

from haywisp.narration.counting import counts, stated_passes


def reached(text: str) -> list[int]:
    return [count.reached for count in counts(tokens(text), lexicon())]


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("one two three", [3]),
        ("one (3) two (3) three (3) four", [4]),
        ("that's one, and long and slow, two, good boy, three", [3]),
        ("one two two three", [3]),
        ("one two three three", [3]),
        ("one", []),
        ("two three four", []),
        ("one four five", []),
        ("one two three and again one two", [3, 2]),
        ("one (30) two", []),
        ("once twice", []),
        ("no number at all", []),
        ("", []),
    ],
)
def test_a_count_runs_from_one_upwards(text: str, ends: list[int]) -> None:
    assert reached(text) == ends


def test_a_count_tells_where_it_runs_and_its_step() -> None:
    count = counts(tokens("so one (3.5) two (3.5) three good"), lexicon())[0]
    assert (count.first, count.last, count.start, count.reached) == (1, 4, 0.5, 3)
    assert count.step_s == pytest.approx(4.0)
    assert count.end == 9.0


@pytest.mark.parametrize(
    ("text", "passes"),
    [
        ("three passes down the neck", 3),
        ("five times", 5),
        ("six strokes", 6),
        ("twice", 2),
        ("once", 1),
        ("down the neck", None),
        ("one hand on the neck", None),
    ],
)
def test_stated_passes(text: str, passes: int | None) -> None:
    made = tokens(text)
    assert stated_passes(made, 0, len(made), lexicon()) == passes


@pytest.mark.parametrize("text", ["three minutes", "five seconds", "four weeks", "three o'clock"])
def test_other_numbers_are_no_passes(text: str) -> None:
    made = tokens(text)
    assert stated_passes(made, 0, len(made), lexicon()) is None


def test_only_the_asked_tokens_are_looked_at() -> None:
    made = tokens("three passes then five passes")
    assert stated_passes(made, 3, 5, lexicon()) == 5
