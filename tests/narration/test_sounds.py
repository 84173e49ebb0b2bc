"""Words read aloud, and how alike two sounds are.

The sounds of the plain words are those of any English dictionary, in the letters of the table.
"""

import pytest
from narration_samples import tables

from haywisp.narration.sounds import Speech, likeness_of, ways

TABLE = tables().language.tables["sounds"]
SPEECH = Speech(TABLE["spelling"]["rules"], TABLE["spelling"]["words"])
LIKENESS = likeness_of(TABLE["likeness"])


@pytest.mark.parametrize(
    ("word", "sounds"),
    [
        ("ship", "Sip"),
        ("knee", "nI"),
        ("phrase", "frEs"),
        ("wrong", "roN"),
        ("night", "nYt"),
        ("match", "maC"),
        ("rage", "rEJ"),
        ("sausage", "sosiJ"),
        ("glue", "glU"),
        ("tea", "tI"),
        ("urge", "@rJ"),
        ("quick", "kwik"),
        ("", ""),
        ("é", ""),
    ],
)
def test_words_are_read_by_their_spelling(word: str, sounds: str) -> None:
    assert SPEECH.said(word) == sounds


@pytest.mark.parametrize(("one", "other"), [("need", "knead"), ("right", "rite"), ("sell", "cel"), ("fill", "phil")])
def test_words_that_are_said_alike_have_the_same_sounds(one: str, other: str) -> None:
    assert SPEECH.said(one) == SPEECH.said(other)


def test_a_word_of_the_list_is_said_as_the_list_says() -> None:
    assert Speech([["o", "o"], ["n", "n"], ["e", "e"]], {"one": "wun"}).said("one") == "wun"


def test_a_table_of_another_tongue_gives_other_sounds() -> None:
    assert Speech([["j", "y"], ["a", "A"]], {}).said("ja") == "yA"


def test_choices_stand_for_every_way() -> None:
    assert ways("br{a|E}kI{Y|I|}") == ["brakIY", "brakII", "brakI", "brEkIY", "brEkII", "brEkI"]
    assert ways("two words") == ["twowords"]


def test_a_sound_is_itself_and_likeness_goes_both_ways() -> None:
    for one, costs in LIKENESS.swaps.items():
        assert costs[one] == 0
        for other, cost in costs.items():
            assert 0 <= cost <= 1 and cost == pytest.approx(LIKENESS.swaps[other][one])
            assert (cost == 0) == (one == other) or {one, other} == {"a", "Y"}


@pytest.mark.parametrize(
    ("sound", "nearer", "farther"),
    [
        ("p", "b", "g"),
        ("p", "b", "s"),
        ("m", "n", "k"),
        ("i", "I", "o"),
        ("@", "u", "I"),
        ("s", "z", "m"),
        ("t", "d", "@"),
    ],
)
def test_sounds_made_alike_are_nearer(sound: str, nearer: str, farther: str) -> None:
    assert LIKENESS.swaps[sound][nearer] < LIKENESS.swaps[sound][farther]


def test_weak_sounds_cost_less_to_lose_than_strong_ones() -> None:
    assert LIKENESS.lost["@"] < LIKENESS.lost["O"] < LIKENESS.lost["k"]


def test_every_way_of_saying_uses_sounds_of_the_table() -> None:
    said = [text for key in ("said", "clipped") for texts in TABLE[key].values() for text in texts]
    strange = {sound for text in said for way in ways(text) for sound in way} - LIKENESS.lost.keys()
    assert strange == set()
    rules = {sound for _, sounds in TABLE["spelling"]["rules"] for sound in sounds}
    words = {sound for sounds in TABLE["spelling"]["words"].values() for sound in sounds}
    assert (rules | words) - LIKENESS.lost.keys() == set()
