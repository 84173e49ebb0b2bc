"""A practitioner's own words: found before anything else is heard, and read as what they mean.

The words become one mark (two tokens where there were several, so that they keep their first and last word), and the
matcher of their kind knows the mark. Nothing else is heard inside them, and no repair reads them as something else.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from haywisp.knowledge.types import Tables
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.phrases import Item, Match, Matcher, Phrase, compile_phrase
from haywisp.narration.tokens import Token, pieces, tokenise
from haywisp.narration.types import OwnWord, Repair, Span, Word

KINDS = ("structure", "technique", "sign")
# No token of a spoken word can begin with it.
MARK = "="
# A technique and a sign over the same words are rivals, so that an own word of either holds its place against both.
RIVALS: Mapping[str, frozenset[str]] = {
    "structure": frozenset({"structure"}),
    "technique": frozenset({"technique", "sign"}),
    "sign": frozenset({"technique", "sign"}),
}


class OwnMatcher(Matcher):
    """A matcher of the tables' phrases that knows the marks of own words too, and lets them win."""

    def __init__(self, kind: str, tables: Matcher, marks: Iterable[Phrase]) -> None:
        super().__init__(marks)
        self._kind = kind
        self._tables = tables
        self.words |= tables.words

    def find(self, tokens: Sequence[Token]) -> list[Match]:
        """Matches of both, without those of the tables that hold the place of an own word."""
        known = self._tables.find(tokens)
        taken = {place for place, token in enumerate(tokens) if marked(token) in RIVALS[self._kind]}
        if taken:
            known = [match for match in known if taken.isdisjoint(range(match.first, match.last))]
        return sorted([*known, *super().find(tokens)], key=lambda match: match.first)


@dataclass(frozen=True)
class OwnWords:
    """Own words compiled: the matcher gives the number of one in ``words``; ``names`` say what each means."""

    matcher: Matcher
    words: tuple[OwnWord, ...]
    names: tuple[str, ...]

    def places(self, tokens: Sequence[Token]) -> list[Match]:
        """Where own words are said: the longest where two overlap, then the one that was kept first."""
        kept: list[Match] = []
        taken: set[int] = set()
        found = self.matcher.find(tokens)
        for match in sorted(found, key=lambda one: (one.first - one.last, one.first, int(one.meaning))):
            places = range(match.first, match.last)
            if taken.isdisjoint(places):
                taken.update(places)
                kept.append(match)
        return sorted(kept, key=lambda one: one.first)

    def read(self, tokens: Sequence[Token]) -> tuple[list[Token], list[Repair]]:
        """The tokens with a mark where own words were said, and what was said at each."""
        read: list[Token] = []
        meant: list[Repair] = []
        at = 0
        for match in self.places(tokens):
            word = self.words[int(match.meaning)]
            old = tokens[match.first : match.last]
            read += [*tokens[at : match.first], *marks(word, old)]
            heard = " ".join(token.text for token in old).replace(" '", "'").replace(" n't", "n't")
            meant.append(Repair(Span(old[0].word, old[-1].word + 1), heard, self.names[int(match.meaning)], 1.0))
            at = match.last
        return [*read, *tokens[at:]], meant


def marks(word: OwnWord, old: Sequence[Token]) -> list[Token]:
    """The tokens that stand for own words; the last keeps their pause and mark."""
    first, last = old[0], old[-1]
    if len(old) == 1:
        return [replace(first, text=mark_text(word, 1))]
    return [
        Token(mark_text(word, 2), first.word, first.start, first.end, 0.0, ""),
        replace(last, text=MARK),
    ]


def mark_text(word: OwnWord, tokens: int) -> str:
    """The text of the token that stands for an own word of one token, or of several."""
    return f"{MARK}{tokens}{MARK}{word.kind}{MARK}{word.meaning}"


def marked(token: Token) -> str:
    """The kind of the own word that a token stands for; "" for every other token."""
    return token.text.split(MARK)[2] if token.text.startswith(MARK) and len(token.text) > 1 else ""


def lexicon_with(lexicon: Lexicon, own: Iterable[OwnWord]) -> Lexicon:
    """The lexicon with own words in its matchers."""
    known = [word for word in own if is_known(word, lexicon.tables)]
    added = {kind: [p for word in known if word.kind == kind for p in mark_phrases(word)] for kind in KINDS}
    matchers = {kind: OwnMatcher(kind, lexicon.matchers[kind], phrases) for kind, phrases in added.items()}
    return replace(lexicon, matchers={**lexicon.matchers, **matchers})


def mark_phrases(word: OwnWord) -> tuple[Phrase, Phrase]:
    """The marks of an own word as phrases of its meaning."""
    one, two, rest = (Item(frozenset({text})) for text in (mark_text(word, 1), mark_text(word, 2), MARK))
    return Phrase((one,), word.meaning, word.phrase), Phrase((two, rest), word.meaning, word.phrase)


def own_words_of(lexicon: Lexicon, own: Iterable[OwnWord]) -> OwnWords:
    """Own words ready to be found; those whose meaning the tables do not know are passed over."""
    known = tuple(word for word in own if is_known(word, lexicon.tables) and key_of(word.phrase, lexicon))
    phrases = [phrase_of(word, str(number), lexicon) for number, word in enumerate(known)]
    names = tuple(meaning_name(word.kind, word.meaning, lexicon.tables).lower() for word in known)
    return OwnWords(Matcher(phrases), known, names)


def phrase_of(word: OwnWord, meaning: str, lexicon: Lexicon) -> Phrase:
    """An own word as a phrase; a technique's name is heard with its endings ("bear hugging") too."""
    parts = list(key_of(word.phrase, lexicon))
    if word.kind == "technique" and not word.misheard and len(parts[-1]) > 2 and parts[-1].isalpha():
        parts[-1] += "+"
    return compile_phrase(" ".join(parts), meaning, {}, lexicon.endings)


def key_of(phrase: str, lexicon: Lexicon) -> tuple[str, ...]:
    """What is compared of a phrase: its tokens, without case, accents, punctuation and the article before them."""
    tokens = [piece for word in phrase.split() for piece in pieces(word, lexicon.spellings)]
    while tokens and tokens[0] in lexicon.lists["own-leads"]:
        tokens = tokens[1:]
    return tuple(tokens)


def is_known(word: OwnWord, tables: Tables) -> bool:
    """Whether the tables know what an own word means."""
    return word.kind in KINDS and word.meaning in meanings(word.kind, tables)


def meanings(kind: str, tables: Tables) -> Mapping[str, object]:
    """The rows of the table that a kind of own word names."""
    return {"structure": tables.structures, "technique": tables.techniques, "sign": tables.signs}[kind]


def meaning_name(kind: str, meaning: str, tables: Tables) -> str:
    """The name of what an own word means."""
    return str(getattr(meanings(kind, tables).get(meaning), "name", meaning))


def heard_in(words: Sequence[Word], own: Iterable[OwnWord], lexicon: Lexicon) -> dict[OwnWord, int]:
    """How often each own word is said in a transcript; those that are not said are left out."""
    compiled = own_words_of(lexicon, own)
    counts: dict[OwnWord, int] = {}
    for match in compiled.places(tokenise(words, lexicon.spellings)):
        word = compiled.words[int(match.meaning)]
        counts[word] = counts.get(word, 0) + 1
    return counts
