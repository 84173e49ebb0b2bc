"""Words cut into tokens."""

import pytest
from narration_samples import texts, words

from haywisp.narration.tokens import mark_of, pieces, tokenise, unaccented

SPELLINGS = {"semi-tendinosus": ["semitendinosus"], "cranio": ["cranial"], "gonna": ["going", "to"]}


@pytest.mark.parametrize(
    ("written", "made"),
    [
        ("Poll,", ["poll"]),
        ("he’s", ["he", "'s"]),
        ("don't", ["do", "n't"]),
        ("I'll", ["i", "'ll"]),
        ("left-hand", ["left", "hand"]),
        ("and/or", ["and", "or"]),
        ("F.E.", ["f", "e"]),
        ("“Good”", ["good"]),
        ("(soft)", ["soft"]),
        ("gonna", ["going", "to"]),
        ("3rd", ["3rd"]),
        ("masséter", ["masseter"]),
        ("ﬁrm", ["firm"]),
        ("…", []),
        ("—", []),
        ("♪", []),
        ("'em", ["em"]),
        ("", []),
    ],
)
def test_pieces(written: str, made: list[str]) -> None:
    assert pieces(written, SPELLINGS) == made


@pytest.mark.parametrize(
    ("written", "mark"),
    [
        ("soft.", "stop"),
        ("soft?", "stop"),
        ("soft…", "stop"),
        ('soft."', "stop"),
        ("soft,", "comma"),
        ("soft—", "comma"),
        ("F.E.", ""),
        ("soft", ""),
        ("3.5", ""),
    ],
)
def test_marks(written: str, mark: str) -> None:
    assert mark_of(written) == mark


def test_accents_fall_away() -> None:
    assert pieces("Ünïté", {}) == ["unite"]
    assert unaccented("plain") == "plain"


def test_a_token_keeps_its_word_and_times() -> None:
    made = tokenise(words("It's soft."), {})
    assert [(token.text, token.word, token.start, token.end) for token in made] == [
        ("it", 0, 0.0, 0.5),
        ("'s", 0, 0.0, 0.5),
        ("soft", 1, 0.5, 1.0),
    ]


def test_the_pause_and_the_mark_stand_after_the_last_token_of_a_word() -> None:
    made = tokenise(words("it's, (3) soft. (2) yes"), {})
    assert [(token.text, token.pause, token.mark) for token in made] == [
        ("it", 0.0, ""),
        ("'s", 3.0, "comma"),
        ("soft", 2.0, "stop"),
        ("yes", 0.0, ""),
    ]


def test_a_stop_that_stands_alone_ends_the_word_before() -> None:
    made = tokenise(words("soft . yes"), {})
    assert [(token.text, token.mark) for token in made] == [("soft", "stop"), ("yes", "")]


def test_a_question_asks() -> None:
    assert [token.asks for token in tokenise(words("is he soft? yes"), {})] == [False, False, True, False]


def test_overlapping_words_have_no_pause_below_nothing() -> None:
    backwards = [*words("late", start=5.0), *words("early")]
    assert [token.pause for token in tokenise(backwards, {})] == [0.0, 0.0]


def test_no_words_no_tokens() -> None:
    assert texts(tokenise((), {})) == ""
