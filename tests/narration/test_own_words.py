"""A practitioner's own words: heard wherever they are said, as sure as a name, and never in the way of a red flag."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from haywisp.knowledge import load_tables
from haywisp.narration import OwnWord, Span, read_bytes, understand
from haywisp.narration.own_words import heard_in
from haywisp.narration.types import Narration, Transcript, Word
from haywisp.narration.understanding import prepared

TABLES = load_tables()
FELLA = OwnWord("structure", "the big fella at the bottom", "brachiocephalicus")
BRACKISH = OwnWord("structure", "brackish", "brachiocephalicus", misheard=True)
HUG = OwnWord("technique", "The Bear-Hug", "compression")
SLOW = OwnWord("sign", "the slow mo", "lick-and-chew")
OWN = (FELLA, BRACKISH, HUG, SLOW)


def heard(text: str, *own: OwnWord) -> Narration:
    return understand(read_bytes(text.encode(), "told.txt"), TABLES, own)


def test_a_pet_name_of_a_muscle_is_that_muscle() -> None:
    text = "[0:00] Left side, effleurage on the big fella at the bottom, five times. [0:30] And he's done."
    assert [bout.structures for bout in heard(text).bouts] != [("brachiocephalicus",)]
    told = heard(text, *OWN).bouts
    assert [(bout.technique, bout.structures, bout.side, bout.passes) for bout in told] == [
        ("effleurage", ("brachiocephalicus",), "left", 5)
    ]


def test_what_rests_on_own_words_is_as_sure_as_what_was_named() -> None:
    own = heard("[0:00] Left side, the bear hug on his brackish, light. [0:30] Done.", *OWN).bouts
    named = heard("[0:00] Left side, compression on his brachiocephalicus, light. [0:30] Done.").bouts
    assert [bout.confidence for bout in own] == [bout.confidence for bout in named]
    assert [(b.technique, b.structures, b.side, b.pressure) for b in own] == [
        (b.technique, b.structures, b.side, b.pressure) for b in named
    ]


def test_a_sign_of_ones_own_is_an_answer_of_the_horse() -> None:
    text = "[0:00] Left side, effleurage on the neck. [0:20] He's doing the slow mo now."
    assert [response.sign for response in heard(text, *OWN).responses] == ["lick-and-chew"]


def test_what_was_said_is_kept_beside_what_it_means() -> None:
    text = "[0:00] Left side, bear hugging the big fella at the bottom."
    repairs = heard(text, *OWN).repairs
    assert [(repair.heard, repair.meant, repair.confidence) for repair in repairs] == [
        ("bear hugging", "compression", 1.0),
        ("big fella at the bottom", "brachiocephalicus", 1.0),
    ]
    assert [repair.span for repair in repairs] == [Span(2, 4), Span(5, 10)]


@pytest.mark.parametrize(
    "said", ["THE BEAR HUG", "a bear-hug", "his béar, hug", "Bear hugs", "bear hugging", "“bear hug”", "bear\thug"]
)
def test_case_accents_punctuation_and_articles_do_not_matter(said: str) -> None:
    bouts = heard(f"[0:00] Left side, {said} on the neck. [0:20] Done.", HUG).bouts
    assert [bout.technique for bout in bouts] == ["compression"]


@pytest.mark.parametrize("said", ["bear. Hug", "bear and hug", "bare hug", "bearhug"])
def test_other_words_are_no_own_words(said: str) -> None:
    assert (
        heard(f"[0:00] Left side, the {said} on the neck.", HUG).repairs
        == heard(f"[0:00] Left side, the {said} on the neck.").repairs
    )


def test_own_words_win_over_the_tables() -> None:
    text = "[0:00] Left side, squeezing his neck. [0:20] Done."
    own = OwnWord("technique", "squeezing", "effleurage")
    assert [bout.technique for bout in heard(text).bouts] != ["effleurage"]
    assert [bout.technique for bout in heard(text, own).bouts] == ["effleurage"]


def test_the_longest_of_own_words_wins() -> None:
    short, long = (
        OwnWord("structure", "fella", "splenius"),
        OwnWord("structure", "fella at the bottom", "triceps-brachii"),
    )
    text = "[0:00] Left side, effleurage on the fella at the bottom. [0:20] Then effleurage on the fella."
    assert [bout.structures for bout in heard(text, short, long).bouts] == [("triceps-brachii",), ("splenius",)]


@pytest.mark.parametrize("phrase", ["hot", "hot and swollen", "swollen", "off fore"])
def test_no_own_word_hides_a_red_flag(phrase: str) -> None:
    text = "[0:00] His off fore is hot and swollen and he can't put weight on it. [0:20] Effleurage, left neck."
    flags = heard(text).alerts
    assert flags
    assert heard(text, OwnWord("structure", phrase, "splenius")).alerts == flags


def test_words_whose_meaning_is_not_in_the_tables_are_passed_over() -> None:
    text = "[0:00] Left side, effleurage on the neck. [0:20] Done."
    strange = (OwnWord("structure", "neck", "no-such-muscle"), OwnWord("planet", "neck", "mars"))
    assert heard(text, *strange) == heard(text)


def test_it_is_counted_how_often_each_is_said() -> None:
    words = read_bytes(b"[0:00] The bear hug, then a bear hug. Brackish!", "told.txt").words
    assert heard_in(words, OWN, prepared(TABLES)[0]) == {HUG: 2, BRACKISH: 1}


def test_without_own_words_nothing_changes() -> None:
    text = "[0:00] Left side, long strokes on the neck, five times. [0:30] He licks and chews."
    assert heard(text, *OWN) == heard(text)


OWN_ONES = ("the", "bear", "hug", "bear-hug", "Hug.", "brackish", "big", "fella", "at", "bottom", "slow", "mo")
OTHERS = ("left", "neck", "effleurage", ".", ",", "and", "tight", "hot", "leg", "no")
SOME = st.sampled_from(OWN_ONES + OTHERS)


@settings(deadline=None)  # each order of own words compiles the tables anew
@given(st.lists(SOME, max_size=30), st.permutations(OWN))
def test_entries_lie_inside_the_words_whatever_is_said(said: list[str], own: list[OwnWord]) -> None:
    words = tuple(Word(text, place * 0.5, place * 0.5 + 0.4) for place, text in enumerate(said))
    narration = understand(Transcript(words, "text"), TABLES, tuple(own))
    entries = (*narration.bouts, *narration.findings, *narration.responses, *narration.actions, *narration.repairs)
    assert all(0 <= entry.span.first < entry.span.last <= len(words) for entry in entries)
    assert narration.alerts == understand(Transcript(words, "text"), TABLES).alerts
    kept = tuple(word for word in own if word in heard_in(words, own, prepared(TABLES)[0]))
    assert understand(Transcript(words, "text"), TABLES, kept) == narration
