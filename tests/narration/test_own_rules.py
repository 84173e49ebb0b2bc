"""What own words may be: nothing that is heard everywhere, that tells of a red flag, or that is known already."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.knowledge import load_tables
from haywisp.narration.own_rules import MOST_WORDS, OwnWordCheck
from haywisp.narration.own_rules import check as own_check
from haywisp.narration.own_words import heard_in
from haywisp.narration.types import OwnWord, Word
from haywisp.narration.understanding import prepared

LEXICON, EAR = prepared(load_tables())
assert EAR.watch is not None
FLAGS = EAR.watch.flags


def check(phrase: str, meaning: str = "brachiocephalicus", kind: str = "structure") -> OwnWordCheck:
    return own_check(OwnWord(kind, phrase, meaning), LEXICON, FLAGS)


@pytest.mark.parametrize(
    "phrase", ["the big fella at the bottom", "brackish", "Old Faithful", "his fluffy collar", "M25"]
)
def test_a_name_of_ones_own_may_be_kept(phrase: str) -> None:
    found = check(phrase)
    assert (found.problem, found.warnings) == ("", ())


@pytest.mark.parametrize(
    ("phrase", "why"),
    [
        ("", "Write the words"),
        (" \t ", "Write the words"),
        ("…!?", "no word in"),
        ("ключ", "no word in"),
        ("the", "only everyday words"),
        ("on the left", "only everyday words"),
        ("the other side, two", "only everyday words"),
        ("7 8", "only everyday words"),
        ("zq", "too short"),
        ("one two three four five six seven fella nine", "too long"),
        ("f" * 81, "too long"),
        ("tying up", "red flag"),
        ("a bit lame", "red flag"),
        ("brachiocephalicus", "already"),
        ("The Brachiocephalicus!", "already"),
    ],
)
def test_what_would_do_harm_is_refused(phrase: str, why: str) -> None:
    assert why in check(phrase).problem


def test_a_meaning_that_the_tables_do_not_know_is_refused() -> None:
    assert "no structure in the tables" in check("brackish", "no-such-muscle").problem
    assert "no technique in the tables" in check("brackish", "brachiocephalicus", "technique").problem
    assert "no structure, technique or sign" in check("brackish", "mars", "planet").problem


@pytest.mark.parametrize(
    ("phrase", "named"),
    [
        ("the poll", "heard as poll now"),
        ("triceps", "triceps brachii"),
        ("squeezing", "muscle squeezing"),
        ("lick", "part of how licking and chewing"),
        ("tight", "muscle tone"),
        ("ring the vet", "heard as"),
    ],
)
def test_words_that_mean_something_else_are_warned_of_by_its_name(phrase: str, named: str) -> None:
    found = check(phrase)
    assert found.problem == ""
    assert named in " ".join(found.warnings)


@given(st.text(max_size=60))
def test_whatever_may_be_kept_is_heard_when_it_is_said(phrase: str) -> None:
    found = check(phrase)
    if found.problem:
        return
    said = phrase.split()
    words = [Word(text, place * 0.4, place * 0.4 + 0.3) for place, text in enumerate(said)]
    stopped = any(text.rstrip("\"'”’)").endswith((".", "?", "!", "…", ";", ":")) for text in said[:-1])
    own = OwnWord("structure", phrase, "brachiocephalicus")
    assert stopped or heard_in(words, [own], LEXICON) == {own: 1}


@given(
    st.lists(
        st.sampled_from(["the", "big", "fella", "at", "bottom", "brackish", "hug", "on", "left", "two"]), max_size=12
    )
)
def test_the_limits_hold_whatever_is_typed(parts: list[str]) -> None:
    found = check(" ".join(parts))
    telling = [part for part in parts if part in {"fella", "brackish", "hug"}]
    assert bool(found.problem) == (not telling or len(parts) > MOST_WORDS)


@given(st.sampled_from(["brackish", "the big fella at the bottom", "crème brûlée collar"]), st.data())
def test_case_accents_and_punctuation_make_no_other_key(phrase: str, data: st.DataObject) -> None:
    flat = "".join(letter for letter in unicodedata.normalize("NFKD", phrase) if not unicodedata.combining(letter))
    other = data.draw(
        st.sampled_from([phrase.upper(), phrase.title(), flat, f"“{phrase},”", phrase.replace(" ", "  ")])
    )
    assert check(other).key == check(phrase).key
