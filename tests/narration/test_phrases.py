"""The phrase language: words, options, classes, endings, optional words and gaps."""

from pathlib import Path
from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st
from narration_samples import lexicon, words

from haywisp.narration import phrases
from haywisp.narration.phrases import LONG_SILENCE_S, SELDOM, Compiler, Match, Matcher, compile_phrase, fits, inflected
from haywisp.narration.tokens import tokenise

CLASSES = {"his": frozenset({"his", "her", "the"})}
ENDINGS = {"": ("", "s", "ed", "ing"), "e": ("e", "es", "ed", "ing"), "y": ("y", "ies", "ied", "ying")}


def found(phrase: str, text: str) -> list[str]:
    """The stretches of a text where a phrase fits."""
    made = tokenise(words(text), {})
    matcher = Matcher([compile_phrase(phrase, "meant", CLASSES, ENDINGS)])
    return [" ".join(token.text for token in made[match.first : match.last]) for match in matcher.find(made)]


@pytest.mark.parametrize(
    ("phrase", "text", "fits"),
    [
        ("long stroke", "a long stroke down", ["long stroke"]),
        ("long stroke", "a long slow stroke", []),
        ("long|slow stroke", "long stroke slow stroke", ["long stroke", "slow stroke"]),
        ("stroke+", "stroke strokes stroked stroking stroker", ["stroke", "strokes", "stroked", "stroking"]),
        ("{his} neck", "my neck her neck", ["her neck"]),
        ("long slow? stroke", "long stroke long slow stroke", ["long stroke", "long slow stroke"]),
        ("work+ ~2 neck", "working down his neck", ["working down his neck"]),
        ("work+ ~2 neck", "work neck", ["work neck"]),
        ("work+ ~2 neck", "working slowly down his neck", []),
        ("{his}|my neck", "my neck the neck", ["my neck", "the neck"]),
        ("right? side", "right side", ["right side", "side"]),
    ],
)
def test_where_a_phrase_fits(phrase: str, text: str, fits: list[str]) -> None:
    assert found(phrase, text) == fits


@pytest.mark.parametrize("text", ["long. stroke", f"long ({LONG_SILENCE_S + 0.1}) stroke"])
def test_a_phrase_crosses_no_stop_and_no_long_silence(text: str) -> None:
    assert found("long stroke", text) == []
    assert found("long ~2 stroke", text) == []


def test_a_phrase_crosses_a_comma_and_a_short_silence() -> None:
    assert found("long stroke", f"long, ({LONG_SILENCE_S - 0.1}) stroke") == ["long stroke"]


def test_a_match_tells_its_meaning_and_the_words_that_it_named() -> None:
    made = tokenise(words("a long slow stroke"), {})
    match = Matcher([compile_phrase("long slow? ~1 stroke", "sweep", {}, ENDINGS)]).find(made)[0]
    assert (match.first, match.last, match.meaning, match.fixed) == (1, 4, "sweep", 2)


@pytest.mark.parametrize(
    ("stem", "forms"),
    [
        ("stroke", {"stroke", "strokes", "stroked", "stroking"}),
        ("carry", {"carry", "carries", "carried", "carrying"}),
        ("rub", {"rub", "rubs", "rubbed", "rubbing", "rubing", "rubed"}),
        ("press", {"press", "presss", "pressed", "pressing"}),
    ],
)
def test_endings(stem: str, forms: set[str]) -> None:
    assert inflected(stem, ENDINGS) == forms


@pytest.mark.parametrize(
    ("phrase", "why"),
    [
        ("", "no word of its own"),
        ("~3", "no word of its own"),
        ("long? slow?", "no word of its own"),
        ("~3 neck", "begins with a gap"),
        ("long ~x neck", "gap without a number"),
        ("{hers} neck", "class {hers}"),
    ],
)
def test_a_phrase_that_cannot_be_read_is_named(phrase: str, why: str) -> None:
    with pytest.raises(ValueError, match=why) as fault:
        compile_phrase(phrase, "meant", CLASSES, ENDINGS)
    assert repr(phrase) in str(fault.value)


ITEMS = st.sampled_from(["a", "b", "c", "a|b", "b?", "c?", "{his}", "{his}?", "not", "~1", "~2", "a|{his}"])
TEXTS = st.lists(st.sampled_from(["a", "b", "c", "his", "her", "not", "b.", "x", "(3.0)"]), max_size=12)


@given(st.lists(st.lists(ITEMS, max_size=4), min_size=1, max_size=12), TEXTS)
def test_the_index_finds_what_trying_every_phrase_at_every_word_finds(rows: list[list[str]], said: list[str]) -> None:
    compiler = Compiler(CLASSES, ENDINGS)
    many = [compiler.phrase(" ".join(["a|his?", *row, "c"]), str(number)) for number, row in enumerate(rows)]
    many += [compiler.phrase(" ".join(["b", *row]), f"b{number}") for number, row in enumerate(rows)]
    tokens = tokenise(words(" ".join(["a", *said])), {})
    tried = [
        Match(place, end, phrase.meaning, sum(1 for item in phrase.items if item.words and not item.optional))
        for place in range(len(tokens))
        for phrase in many
        if (end := fits(phrase.items, 0, tokens, place)) is not None and tokens[place].text in openers(phrase.text)
    ]
    matcher = Matcher(many)
    assert [matcher.find(tokens) for _ in range(SELDOM + 2)] == [tried] * (SELDOM + 2)


def openers(phrase: str) -> set[str]:
    """The words that a phrase of the test above can begin with."""
    found: set[str] = set()
    for part in phrase.split():
        if part.startswith("~"):
            break
        for option in part.rstrip("?").split("|"):
            found |= CLASSES["his"] if option == "{his}" else {option}
        if not part.endswith("?"):
            break
    return found


def test_every_phrase_of_the_tables_can_be_read() -> None:
    assert lexicon().matchers["structure"].find(tokenise(words("over the neck"), {})) != []


def test_the_written_grammar_is_that_of_the_code() -> None:
    grammar = dedent((phrases.__doc__ or "").partition("(EBNF)::")[2]).strip()
    assert grammar.startswith("phrase = item")
    assert grammar in (Path(__file__).parents[2] / "docs" / "grammar.md").read_text(encoding="utf-8")
