"""Two passes over a chunk: which words stand, and what is listened to again."""

import random
from collections.abc import Sequence

import pytest
from rapidfuzz.distance import Levenshtein

from haywisp.narration import Word
from haywisp.narration.sound import Again
from haywisp.narration.sound.comparing import compare, parts
from haywisp.narration.sound.looping import loops

PROMPT = "effleurage, brachiocephalicus, splenius, cross-fibre friction."


def said(text: str, start: float = 0.0, each: float = 0.4) -> list[Word]:
    """Words one after the other; a ``-`` is a silence as long as a word."""
    return [
        Word(word, round(start + each * place, 2), round(start + each * (place + 1), 2))
        for place, word in enumerate(text.split())
        if word != "-"
    ]


def text(words: Sequence[Word]) -> str:
    return " ".join(word.text for word in words)


def reasons(again: Sequence[Again]) -> list[str]:
    return [one.reason for one in again]


def test_passes_that_agree_say_it_once() -> None:
    words, again = compare(said("Light on the neck."), said("light on the neck"), PROMPT)
    assert (text(words), again) == ("Light on the neck.", [])


def test_a_trade_word_written_as_it_sounds_is_believed_with_the_prompt() -> None:
    words, again = compare(said("now effleurage - light"), said("now effel urge light"), PROMPT)
    assert (text(words), again) == ("now effleurage light", [])


def test_a_trade_word_that_only_the_prompt_brought_is_listened_to() -> None:
    words, again = compare(said("he likes splenius a lot"), said("he likes that a lot"), PROMPT)
    assert text(words) == "he likes splenius a lot"
    assert [(one.start, one.end, one.reason) for one in again] == [(0.8, 1.2, "prompted")]


def test_words_that_the_prompt_swallowed_come_back_and_are_listened_to() -> None:
    prompted = said("the neck is soft - - - - - - lick and chew")
    unprompted = said("the neck is soft but the saddle pinched him lick and chew")
    words, again = compare(prompted, unprompted, PROMPT)
    assert text(words) == "the neck is soft but the saddle pinched him lick and chew"
    assert [(one.start, one.end, one.reason) for one in again] == [(1.6, 3.6, "dropped")]


def test_a_word_said_twice_is_taken_for_the_one_of_its_own_time() -> None:
    prompted = said("kneading - - - the splenius is sore")
    unprompted = said("kneading the splenius light the splenius is sore")
    words, _ = compare(prompted, unprompted, PROMPT)
    assert words == unprompted


def test_the_same_words_are_as_many_as_an_edit_distance_finds() -> None:
    """Against rapidfuzz: what differs is never more than its Levenshtein distance."""
    rng = random.Random(3)
    for _ in range(200):
        ours, theirs = (said(" ".join(rng.choices("abcd", k=rng.randint(0, 12)))) for _ in range(2))
        found = list(parts(theirs, ours))
        assert [word for part in found for word in part.unprompted] == ours
        assert [word for part in found for word in part.prompted] == theirs
        differ = sum(max(len(part.unprompted), len(part.prompted)) for part in found if not part.same)
        assert differ == Levenshtein.distance([word.text for word in ours], [word.text for word in theirs])


def test_half_of_a_passage_that_was_swallowed_comes_back_beside_the_other_half() -> None:
    prompted = said("splenius - - - - today")
    unprompted = said("plain us is sore and warm today")
    words, again = compare(prompted, unprompted[:-1] + said("today", 2.0), PROMPT)
    assert text(words).split()[0] == "splenius"
    assert {"sore", "warm"} <= set(text(words).split())
    assert "dropped" in reasons(again)


def test_where_the_prompted_pass_goes_round_the_other_stands() -> None:
    prompted = said("the neck splenius splenius splenius splenius splenius splenius splenius")
    words, again = compare(prompted, said("the neck is tight"), PROMPT)
    assert text(words) == "the neck is tight"
    assert reasons(again) == ["loop"]


def test_where_both_go_round_one_round_is_left_and_all_of_it_told() -> None:
    round_and_round = said("so " + "and then the leg " * 4 + "is fine")
    words, again = compare(round_and_round, round_and_round, PROMPT)
    assert text(words) == "so and then the leg is fine"
    assert [(one.start, one.end, one.reason) for one in again] == [(0.4, 6.8, "loop")]


def test_where_only_the_other_goes_round_its_rounds_are_no_loss() -> None:
    words, again = compare(said("the neck is fine"), said("the neck is " + "in a speed " * 9), PROMPT)
    assert text(words) == "the neck is fine"
    assert again == []


@pytest.mark.parametrize(
    ("spoken", "found"),
    [
        ("and squeeze and squeeze and squeeze", False),
        ("one two three four five", False),
        ("yes yes yes yes", False),
        ("no no no no no no", True),
        ("the leg the leg the leg the leg the leg", True),
        ("I am going to the left I am going to the left I am going to the left", True),
        ("so neck and back and neck and back", False),
    ],
)
def test_what_goes_round(spoken: str, found: bool) -> None:
    assert bool(loops(said(spoken))) is found


def test_nothing_against_nothing_is_nothing() -> None:
    assert compare([], [], PROMPT) == ([], [])
    assert text(compare([], said("all of this was lost"), PROMPT)[0]) == "all of this was lost"
