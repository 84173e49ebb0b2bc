"""The phrase language of the word tables, and its matcher.

A phrase is a row of items parted by blanks (EBNF)::

    phrase = item { " " item } ;
    item   = gap | choice [ "?" ] ;
    gap    = "~" digits ;                      (* up to so many words of any kind, within one sentence *)
    choice = option { "|" option } ;
    option = word [ "+" ] | "{" class "}" ;    (* + : the word with its endings *)
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from haywisp.narration.tokens import Token

LONG_SILENCE_S = 2.5
DENIALS = frozenset({"not", "n't", "never"})


@dataclass(frozen=True, slots=True)
class Item:
    """One place of a phrase: the words that fit it, or a gap of up to ``gap`` words."""

    words: frozenset[str]
    optional: bool = False
    gap: int = 0


@dataclass(frozen=True, slots=True)
class Phrase:
    """A compiled phrase and what it means."""

    items: tuple[Item, ...]
    meaning: str
    text: str


@dataclass(frozen=True, slots=True)
class Match:
    """Where a phrase fits: tokens ``first`` to ``last`` (excluded); ``fixed`` counts the words that it named."""

    first: int
    last: int
    meaning: str
    fixed: int


def inflected(stem: str, endings: Mapping[str, Sequence[str]]) -> frozenset[str]:
    """The forms of a word by the language's table of endings: the longest key that ends the word gives them."""
    for size in (2, 1):
        forms = endings.get(stem[-size:])
        if forms is not None and len(stem) > size:
            return frozenset(stem[:-size] + form for form in forms)
    if len(stem) > 2 and stem[-1] not in "aeiouwxy" and stem[-2] in "aeiou" and stem[-3] not in "aeiou":
        double = stem + stem[-1]
        return frozenset({stem, stem + "s", double + "ing", double + "ed", stem + "ing", stem + "ed"})
    return frozenset(stem + form for form in endings.get("", ("",)))


def option_words(
    option: str, classes: Mapping[str, frozenset[str]], endings: Mapping[str, Sequence[str]]
) -> frozenset[str]:
    """The words that one option of a phrase stands for."""
    if option.startswith("{"):
        return classes[option[1:-1]]
    if option.endswith("+"):
        return inflected(option[:-1], endings)
    return frozenset({option})


def compile_phrase(
    text: str, meaning: str, classes: Mapping[str, frozenset[str]], endings: Mapping[str, Sequence[str]]
) -> Phrase:
    """Read one phrase of a table; ValueError names the phrase and what is wrong with it."""
    items: list[Item] = []
    for part in text.split():
        if part.startswith("~"):
            if not part[1:].isdecimal():
                raise ValueError(f"The phrase {text!r} has a gap without a number ({part!r}).")
            items.append(Item(frozenset(), gap=int(part[1:])))
            continue
        optional = part.endswith("?")
        words: frozenset[str] = frozenset()
        for option in (part[:-1] if optional else part).split("|"):
            if option.startswith("{") and option[1:-1] not in classes:
                raise ValueError(f"The phrase {text!r} names the class {option}, which is not in the table.")
            words |= option_words(option, classes, endings)
        items.append(Item(words, optional))
    if not any(item.words and not item.optional for item in items):
        raise ValueError(f"The phrase {text!r} has no word of its own.")
    if items[0].gap:
        raise ValueError(f"The phrase {text!r} begins with a gap, so that it could begin anywhere.")
    return Phrase(tuple(items), meaning, text)


class Matcher:
    """Finds every place where one of many phrases fits, by the first word that each can begin with."""

    def __init__(self, phrases: Iterable[Phrase]) -> None:
        self._by_first: dict[str, list[Phrase]] = {}
        self.words: set[str] = set()
        for phrase in phrases:
            self.words.update(word for item in phrase.items for word in item.words)
            for word in self._openers(phrase):
                self._by_first.setdefault(word, []).append(phrase)

    @staticmethod
    def _openers(phrase: Phrase) -> set[str]:
        words: set[str] = set()
        for item in phrase.items:
            words |= item.words
            if not item.optional:
                break
        return words

    def holding(self, word: str) -> list[str]:
        """The meanings of the phrases that name a word, each once, in the order of the tables."""
        phrases = (phrase for starting in self._by_first.values() for phrase in starting)
        return list(dict.fromkeys(p.meaning for p in phrases if any(word in item.words for item in p.items)))

    def find(self, tokens: Sequence[Token]) -> list[Match]:
        """All matches, longest for each phrase and place, in order of place."""
        found: list[Match] = []
        for place, token in enumerate(tokens):
            for phrase in self._by_first.get(token.text, ()):
                end = fits(phrase.items, 0, tokens, place)
                if end is not None:
                    fixed = sum(1 for item in phrase.items if item.words and not item.optional)
                    found.append(Match(place, end, phrase.meaning, fixed))
        return found


def fits(items: Sequence[Item], step: int, tokens: Sequence[Token], place: int) -> int | None:
    """The token after the match of ``items[step:]`` at ``place``, or None; a phrase does not cross a full stop."""
    if step == len(items):
        return place
    item = items[step]
    if item.gap:
        return _after_gap(items, step, tokens, place)
    crossed = step > 0 and place > 0 and parted(tokens[place - 1])
    if place < len(tokens) and not crossed and tokens[place].text in item.words:
        end = fits(items, step + 1, tokens, place + 1)
        if end is not None:
            return end
    return fits(items, step + 1, tokens, place) if item.optional else None


def parted(token: Token) -> bool:
    """Whether a full stop or a long silence follows a token."""
    return token.mark == "stop" or token.pause > LONG_SILENCE_S


def ends_gap(token: Token) -> bool:
    """Whether a gap stops at this token: at the end of a sentence, or where the phrase would swallow its own denial."""
    return parted(token) or token.text in DENIALS


def _after_gap(items: Sequence[Item], step: int, tokens: Sequence[Token], place: int) -> int | None:
    for skip in range(items[step].gap + 1):
        if place + skip > len(tokens) or (skip and ends_gap(tokens[place + skip - 1])):
            return None
        end = fits(items, step + 1, tokens, place + skip)
        if end is not None:
            return end
    return None
