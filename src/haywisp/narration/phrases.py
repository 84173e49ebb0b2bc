"""The phrase language of the word tables, and its matcher.

A phrase is a row of items parted by blanks (EBNF)::

    phrase = item { " " item } ;
    item   = gap | choice [ "?" ] ;
    gap    = "~" digits ;                      (* up to so many words of any kind, within one sentence *)
    choice = option { "|" option } ;
    option = word [ "+" ] | "{" class "}" ;    (* + : the word with its endings *)
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from haywisp.narration.tokens import Token

LONG_SILENCE_S = 2.5
TURNS = frozenset({"but"})
DENIALS = frozenset({"not", "n't", "never"})
# Few phrases that begin with one word are tried one by one the first times: an index costs more than it saves then.
FEW, SELDOM = 6, 4


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


class Compiler:
    """Reads the phrases of one language; a part that many phrases share is read once."""

    def __init__(self, classes: Mapping[str, frozenset[str]], endings: Mapping[str, Sequence[str]]) -> None:
        self._classes, self._endings = classes, endings
        self._items: dict[str, Item] = {}

    def phrase(self, text: str, meaning: str) -> Phrase:
        """Read one phrase of a table; ValueError names the phrase and what is wrong with it."""
        items = tuple([self._items.get(part) or self._item(part, text) for part in text.split()])
        if not any(item.words and not item.optional for item in items):
            raise ValueError(f"The phrase {text!r} has no word of its own.")
        if items[0].gap:
            raise ValueError(f"The phrase {text!r} begins with a gap, so that it could begin anywhere.")
        return Phrase(items, meaning, text)

    def _item(self, part: str, text: str) -> Item:
        if part.startswith("~"):
            if not part[1:].isdecimal():
                raise ValueError(f"The phrase {text!r} has a gap without a number ({part!r}).")
            item = Item(frozenset(), gap=int(part[1:]))
        else:
            optional = part.endswith("?")
            options = (part[:-1] if optional else part).split("|")
            if "{" in part or "+" in part:
                item = Item(frozenset().union(*[self._words(option, text) for option in options]), optional)
            else:
                item = Item(frozenset(options), optional)
        self._items[part] = item
        return item

    def _words(self, option: str, text: str) -> frozenset[str]:
        """The words that one option of a phrase stands for."""
        if option.startswith("{"):
            if option[1:-1] not in self._classes:
                raise ValueError(f"The phrase {text!r} names the class {option}, which is not in the table.")
            return self._classes[option[1:-1]]
        if option.endswith("+"):
            return inflected(option[:-1], self._endings)
        return frozenset((option,))


def compile_phrase(
    text: str, meaning: str, classes: Mapping[str, frozenset[str]], endings: Mapping[str, Sequence[str]]
) -> Phrase:
    """Read one phrase alone; ValueError names the phrase and what is wrong with it."""
    return Compiler(classes, endings).phrase(text, meaning)


class Opening:
    """The phrases that can begin with one word, by the word that must come next, so that few of them are tried."""

    def __init__(self, word: str, phrases: Sequence[tuple[int, Phrase]]) -> None:
        self._word, self._phrases = word, phrases
        self._all = [number for number, _ in phrases]
        self._untried = SELDOM if len(phrases) <= FEW else 0
        self._always: list[int] = []
        self._soon: dict[str, list[tuple[int, list[int]]]] | None = None
        self._farthest = 0

    def _index(self) -> dict[str, list[tuple[int, list[int]]]]:
        soon: dict[str, list[tuple[int, list[int]]]] = {}
        alike: dict[tuple[int, frozenset[str]], list[int]] = {}
        for number, phrase in self._phrases:
            following = following_words(self._word, phrase.items)
            if following is None:
                self._always.append(number)
            else:
                for reach_and_words in following:
                    alike.setdefault(reach_and_words, []).append(number)
        for (reach, words), numbers in alike.items():
            self._farthest = max(self._farthest, reach)
            for text in words:
                soon.setdefault(text, []).append((reach, numbers))
        return soon

    def likely(self, texts: Sequence[str], place: int) -> list[int]:
        """The numbers of the phrases that may fit at a place, in order; all that do fit are among them."""
        if self._untried:
            self._untried -= 1
            return self._all
        if self._soon is None:
            self._soon = self._index()
        likely: set[int] | None = None
        for distance, text in enumerate(texts[place + 1 : place + 2 + self._farthest]):
            for reach, numbers in self._soon.get(text, ()):
                if distance <= reach:
                    likely = likely or set(self._always)
                    likely.update(numbers)
        return sorted(likely) if likely else self._always


def following_words(word: str, items: Sequence[Item]) -> list[tuple[int, frozenset[str]]] | None:
    """Which words can follow the first word of a phrase, and after how many others at most.

    None where nothing need follow it.
    """
    found: list[tuple[int, frozenset[str]]] = []
    for place, item in enumerate(items):
        if item.gap:
            return None
        if word in item.words and not _followed_by(items[place + 1 :], found):
            return None
        if not item.optional:
            break
    return found


def _followed_by(items: Sequence[Item], found: list[tuple[int, frozenset[str]]]) -> bool:
    """Add what can come next; False where the phrase may end here."""
    reach = 0
    for item in items:
        reach += item.gap
        if item.words:
            found.append((reach, item.words))
            if not item.optional:
                return True
    return False


class Matcher:
    """Finds every place where one of many phrases fits, by the first word that each can begin with and the next."""

    def __init__(self, phrases: Iterable[Phrase]) -> None:
        self.phrases = tuple(phrases)
        # Words of an item are shared by the phrases of a compiler: each set of them is gone through once.
        sets = {id(item.words): item.words for phrase in self.phrases for item in phrase.items}
        self.words: set[str] = set().union(*sets.values())
        alike: dict[frozenset[str], list[int]] = {}
        for number, phrase in enumerate(self.phrases):
            alike.setdefault(openers(phrase.items), []).append(number)
        self._by_first: dict[str, list[list[int]]] = {}
        for words, numbers in alike.items():
            for word in words:
                self._by_first.setdefault(word, []).append(numbers)
        self._openings: dict[str, Opening] = {}

    def holding(self, word: str) -> list[str]:
        """The meanings of the phrases that name a word, each once, in the order of the tables."""
        return list(dict.fromkeys(p.meaning for p in self.phrases if any(word in item.words for item in p.items)))

    def find(self, tokens: Sequence[Token]) -> list[Match]:
        """All matches, longest for each phrase and place, in order of place."""
        found: list[Match] = []
        for place, end, phrase in self.fitting(tokens):
            fixed = sum(1 for item in phrase.items if item.words and not item.optional)
            found.append(Match(place, end, phrase.meaning, fixed))
        return found

    def fitting(self, tokens: Sequence[Token]) -> Iterator[tuple[int, int, Phrase]]:
        """Where each phrase fits: its first token, the one after its last, and the phrase."""
        texts = [token.text for token in tokens]
        for place, text in enumerate(texts):
            if text in self._by_first:
                for number in self._opening(text).likely(texts, place):
                    end = fits(self.phrases[number].items, 0, tokens, place)
                    if end is not None:
                        yield place, end, self.phrases[number]

    def _opening(self, word: str) -> Opening:
        """Made when a word is first said, as most words of the tables never are."""
        opening = self._openings.get(word)
        if opening is None:
            numbers = sorted(number for numbers in self._by_first[word] for number in numbers)
            opening = Opening(word, [(number, self.phrases[number]) for number in numbers])
            self._openings[word] = opening
        return opening


def openers(items: Sequence[Item]) -> frozenset[str]:
    """The words that a phrase can begin with."""
    words = items[0].words
    for before, item in zip(items, items[1:], strict=False):
        if not before.optional:
            break
        words |= item.words
    return words


def fits(items: Sequence[Item], step: int, tokens: Sequence[Token], place: int) -> int | None:
    """The token after the match of ``items[step:]`` at ``place``, or None; a phrase does not cross a full stop."""
    while step < len(items):
        item = items[step]
        if item.gap:
            return _after_gap(items, step, tokens, place)
        here = place < len(tokens) and tokens[place].text in item.words
        here = here and not (step and place and parted(tokens[place - 1]))
        step += 1
        if item.optional:
            end = fits(items, step, tokens, place + 1) if here else None
            if end is not None:
                return end
        elif here:
            place += 1
        else:
            return None
    return place


def parted(token: Token) -> bool:
    """Whether a full stop or a long silence follows a token."""
    return token.mark == "stop" or token.pause > LONG_SILENCE_S


def ends_gap(token: Token) -> bool:
    """Whether a gap stops at this token: at the end of a sentence, or where the phrase would swallow its own denial."""
    return parted(token) or token.text in DENIALS or token.text in TURNS


def _after_gap(items: Sequence[Item], step: int, tokens: Sequence[Token], place: int) -> int | None:
    widest = 0 if place and parted(tokens[place - 1]) else items[step].gap
    for skip in range(widest + 1):
        if place + skip > len(tokens) or (skip and ends_gap(tokens[place + skip - 1])):
            return None
        end = fits(items, step + 1, tokens, place + skip)
        if end is not None:
            return end
    return None
