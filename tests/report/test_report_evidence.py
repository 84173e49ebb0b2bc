"""Sentences around words: by full stops, by silences, and by twelve words where neither is written."""

from haywisp.narration.types import Word
from haywisp.report.evidence import Quote, Sentences


def words(text: str) -> list[Word]:
    """One word each half second; ``|`` is a silence of three seconds."""
    made, at = [], 0.0
    for part in text.split():
        if part == "|":
            at += 3.0
            continue
        made.append(Word(part, at, at + 0.5))
        at += 0.5
    return made


def quoted(said: list[Word], first: int, last: int) -> Quote | None:
    return Sentences(said).quoted(first, last)


def sentence(said: list[Word], first: int, last: int, *apart: int) -> str:
    begin, end = Sentences(said).span(first, last, apart)
    return " ".join(word.text for word in said[begin:end])


def test_the_whole_sentence_with_the_words_marked() -> None:
    said = words("Long strokes first. She is tight there, isn't she. Then the back.")
    assert quoted(said, 5, 6) == Quote("She is", "tight", "there, isn't she.")
    assert quoted(said, 5, 6).pointed == "She is «tight» there, isn't she."  # type: ignore[union-attr]
    assert quoted(said, 0, 1) == Quote("", "Long", "strokes first.")


def test_twelve_words_each_side_where_no_full_stop_is_written() -> None:
    said = words(" ".join(f"w{number}" for number in range(60)))
    quote = quoted(said, 30, 31)
    assert quote is not None
    assert (quote.before.split()[0], quote.before.split()[1], len(quote.before.split())) == ("…", "w18", 13)
    assert (quote.after.split()[-1], quote.after.split()[-2], len(quote.after.split())) == ("…", "w42", 13)


def test_a_silence_ends_a_sentence() -> None:
    said = words("now the neck | he is tight here | on we go")
    assert quoted(said, 5, 6) == Quote("he is", "tight", "here")


def test_a_decimal_ends_no_sentence() -> None:
    said = words("Hands off. His temperature was 39.5 this morning. Fine.")
    assert sentence(said, 5, 6) == "His temperature was 39.5 this morning."


def test_a_very_short_sentence_is_told_with_the_next() -> None:
    said = words("Carrot stretches. Three each side, five seconds. | See you in two weeks.")
    assert sentence(said, 0, 2) == "Carrot stretches. Three each side, five seconds."
    assert sentence(said, 7, 8) == "See you in two weeks."
    assert sentence(said, 0, 2, 4) == "Carrot stretches."


def test_a_short_sentence_before_a_silence_stays_alone() -> None:
    assert sentence(words("Rest him. | Then the back was next."), 0, 1) == "Rest him."


def test_a_long_bout_is_shortened_in_the_middle() -> None:
    quote = quoted(words(" ".join(f"w{number}" for number in range(60)) + "."), 0, 60)
    assert quote is not None
    assert quote.marked.split() == [*(f"w{n}" for n in range(13)), "…", *(f"w{n}" for n in range(47, 59)), "w59."]


def test_there_is_no_quote_of_nothing() -> None:
    assert quoted(words("a b"), -1, -1) is None
    assert Sentences([]).span(0, 1) == (0, 0)


def test_where_the_words_are_the_whole_sentence_nothing_is_pointed_at() -> None:
    assert quoted(words("Rest him. Then the back."), 0, 2).pointed == "Rest him."  # type: ignore[union-attr]
