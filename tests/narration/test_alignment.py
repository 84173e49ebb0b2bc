"""Windows of words that sound like a way of saying, found by hand-made ways and costs."""

import pytest
from narration_samples import tables, tokens

from haywisp.narration.alignment import Alignment, Heard
from haywisp.narration.sounds import Speech, likeness_of

TABLE = tables().language.tables["sounds"]
SPEECH = Speech(TABLE["spelling"]["rules"], TABLE["spelling"]["words"])
LIKENESS = likeness_of(TABLE["likeness"])


def windows(text: str, said: dict[str, list[str]], reach: float = 0.3) -> list[Heard]:
    made = tokens(text)
    sounds = [SPEECH.said(token.text) for token in made]
    return Alignment(said, {}, LIKENESS, reach).windows(made, sounds)


def nearest(text: str, said: dict[str, list[str]]) -> Heard:
    return min(windows(text, said), key=lambda heard: heard.distance)


def test_the_same_sounds_are_no_way_off_however_they_are_spelled() -> None:
    best = nearest("over the mass eater again", {"masseter": ["masIt@r"]})
    assert (best.first, best.last, best.way.meant) == (2, 4, "masseter")
    assert best.distance == pytest.approx(0, abs=1e-6)


def test_of_several_ways_the_nearest_counts() -> None:
    one = nearest("the mass eater", {"masseter": ["mas@t@r"]}).distance
    assert nearest("the mass eater", {"masseter": ["mas@t@r", "masIt@r"]}).distance < one


def test_a_lost_weak_sound_at_the_edge_costs_little_and_a_strange_word_is_not_taken_in() -> None:
    best = nearest("now the bleak us here", {"obliquus": ["@blIk@s"]})
    assert (best.first, best.last) == (2, 4)
    assert 0 < best.distance < 0.12


def test_what_sounds_otherwise_is_not_found() -> None:
    assert windows("the cat sat by the warm stove", {"masseter": ["masIt@r"]}) == []


@pytest.mark.parametrize("between", ["mass. Eater", "mass, eater", "mass (1) eater"])
def test_no_window_runs_across_a_stop_or_a_silence(between: str) -> None:
    found = windows(f"over the {between} again", {"masseter": ["masIt@r"]})
    assert all(heard.last - heard.first == 1 for heard in found)


def test_no_window_is_longer_than_six_words() -> None:
    said = {"long": ["bidibidibidibidi"]}
    assert all(h.last - h.first <= 6 for h in windows("bi di bi di bi di bi di", said, reach=0.9))


def test_a_clipped_way_is_less_near_than_the_whole() -> None:
    made = tokens("the gas truck")
    sounds = [SPEECH.said(token.text) for token in made]
    whole = Alignment({"gastroc": ["gaztruk"]}, {}, LIKENESS, 0.4).windows(made, sounds)
    clipped = Alignment({"other": ["mumumu"]}, {"gastroc": ["gaztruk"]}, LIKENESS, 0.4).windows(made, sounds)
    assert min(h.distance for h in whole) < min(h.distance for h in clipped)
