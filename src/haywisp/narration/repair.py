"""Misheard trade words: what was heard is kept, and read as what the neighbouring words allow.

Forms that are known and are no everyday English; everyday words that are believed only beside words of the body or of
the work; and windows of one to six words that sound like a long trade word.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from haywisp.narration.alignment import Alignment
from haywisp.narration.guessing import UNSAID, Guesser
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.phrases import Matcher, Phrase, compile_phrase
from haywisp.narration.sounds import Likeness, Speech, likeness_of_language, speech_of
from haywisp.narration.tokens import Token, pieces
from haywisp.narration.types import Repair, Span

SURE, NEAR = 0.9, 0.8
BELIEVED = 0.5
BELIEVED_OF_PLAIN_WORDS = 0.62
# What is less likely than this is not worth a question.
DOUBTED = 0.15
REACH = 0.4
TOO_FAR = 0.45
EXPLAINED = 0.25
SHORTEST_COVER = 3
SPOKEN = frozenset("abcdefghijklmnopqrstuvwxyz0123456789'")


@dataclass(frozen=True, slots=True)
class Reading:
    """Tokens ``first`` to ``last`` (excluded) read as other words; ``weight`` is how much of them was heard."""

    first: int
    last: int
    meant: str
    confidence: float
    weight: float


class Repairer:
    """Finds and applies readings for one language."""

    def __init__(self, lexicon: Lexicon, same: "Repairer | None" = None) -> None:
        """``same`` is a repairer of the same tables, whose sounds are used again."""
        self._lexicon = lexicon
        self._sure = Matcher([self._phrase(heard, meant) for heard, meant in lexicon.sure.items()])
        self._near = Matcher([self._phrase(heard, heard) for heard in lexicon.near])
        table: Mapping[str, Any] = lexicon.tables.language.tables["sounds"]
        self._speech: Speech = same._speech if same else speech_of(lexicon.tables)
        self._likeness: Likeness = same._likeness if same else likeness_of_language(lexicon.tables)
        self._alignment: Alignment = (
            same._alignment if same else Alignment(table["said"], table["clipped"], self._likeness, REACH)
        )
        self._guesser: Guesser = same._guesser if same else Guesser(lexicon, list(table["said"]), self._weight)

    def _phrase(self, heard: str, meaning: str) -> Phrase:
        parts = [part for word in heard.split() for part in pieces(word, self._lexicon.spellings)]
        return compile_phrase(" ".join(parts), meaning, {}, self._lexicon.endings)

    def repair(self, tokens: list[Token], doubted: list[Repair] | None = None) -> tuple[list[Token], list[Repair]]:
        """Tokens with what was misheard read as it was meant, and a record of each change.

        ``doubted`` is given the readings that were not believed, none of them over words that were read otherwise.
        """
        tokens = [self._with_its_g(token) for token in tokens]
        tokens, first = self._apply(tokens, self._sure_readings(tokens))
        sounding, unsure = self._sounding(tokens)
        heard = tokens
        tokens, second = self._apply(heard, [*self._near_readings(heard), *sounding])
        if doubted is not None:
            read = {place for repair in second for place in range(repair.span.first, repair.span.last)}
            _, others = self._apply(heard, unsure)
            doubted += [one for one in others if not read & set(range(one.span.first, one.span.last))]
        return tokens, [*first, *second]

    def _with_its_g(self, token: Token) -> Token:
        """A word said without its last letter ("kneadin"), where the whole word is of the tables."""
        whole = token.text + "g"
        known = self._lexicon.vocabulary
        if token.text.endswith("in") and len(whole) > 5 and whole in known and token.text not in known:
            return replace(token, text=whole)
        return token

    def _sure_readings(self, tokens: Sequence[Token]) -> list[Reading]:
        return [Reading(m.first, m.last, m.meaning, SURE, self._weight(m.meaning)) for m in self._sure.find(tokens)]

    def _near_readings(self, tokens: Sequence[Token]) -> list[Reading]:
        readings = []
        for match in self._near.find(tokens):
            row = self._lexicon.near[match.meaning]
            if allowed(tokens, match.first, match.last, row, self._lexicon.lists):
                readings.append(Reading(match.first, match.last, row["meant"], NEAR, self._weight(row["meant"])))
        return readings

    def _sounding(self, tokens: Sequence[Token]) -> tuple[list[Reading], list[Reading]]:
        """What is believed by its sound, and what might be so and is not."""
        covered = self._covered(tokens)
        tokens = self._as_written(tokens)
        # A mark in place of a word is not said.
        sounds = [
            self._speech.said(token.text) if token.text[0] in SPOKEN and token.text != UNSAID else ""
            for token in tokens
        ]
        readings: list[Reading] = []
        unsure: list[Reading] = []
        for heard in self._alignment.windows(tokens, sounds):
            guess = self._guesser.guess(tokens, heard, covered)
            if guess is None or guess.confidence < DOUBTED:
                continue
            way = heard.way
            weight = way.weight * (1 - heard.distance / TOO_FAR) + EXPLAINED * guess.explained
            believed = guess.confidence >= (BELIEVED if guess.odd else BELIEVED_OF_PLAIN_WORDS)
            made = readings if believed else unsure
            made.append(Reading(heard.first, heard.last, way.meant, guess.confidence, weight))
        return readings, unsure

    def _as_written(self, tokens: Sequence[Token]) -> Sequence[Token]:
        """Tokens in which a word that was opened ("ill" to "i 'll") stands whole, and its second part says nothing."""
        whole = list(tokens)
        for place, (token, after) in enumerate(zip(tokens, tokens[1:], strict=False)):
            text = token.text + after.text.replace("'", "")
            if token.word == after.word and text in self._lexicon.bare_spellings:
                whole[place : place + 2] = [replace(token, text=text), replace(after, text=UNSAID)]
        return whole

    def _covered(self, tokens: Sequence[Token]) -> set[int]:
        """Tokens that the trade's words explain as they stand."""
        places: set[int] = set()
        for kind in ("structure", "technique", "sign"):
            for match in self._lexicon.matchers[kind].find(tokens):
                letters = sum(len(token.text) for token in tokens[match.first : match.last])
                if match.fixed >= match.last - match.first and letters >= SHORTEST_COVER:
                    places.update(range(match.first, match.last))
        return places

    def _weight(self, meant: str) -> float:
        """How much there is to hear in some words."""
        return self._likeness.weight("".join(self._speech.said(word) for word in meant.split()))

    def _apply(self, tokens: Sequence[Token], readings: Sequence[Reading]) -> tuple[list[Token], list[Repair]]:
        chosen: list[Reading] = []
        taken: set[int] = set()
        for reading in sorted(readings, key=lambda r: (-r.confidence * r.weight, r.first)):
            places = range(reading.first, reading.last)
            if not any(place in taken for place in places):
                taken.update(places)
                chosen.append(reading)
        result: list[Token] = []
        repairs: list[Repair] = []
        at = 0
        for reading in sorted(chosen, key=lambda r: r.first):
            result.extend(tokens[at : reading.first])
            old = list(tokens[reading.first : reading.last])
            new = [part for word in reading.meant.split() for part in pieces(word, self._lexicon.spellings)]
            result.extend(respread(old, new))
            span = Span(old[0].word, old[-1].word + 1)
            heard = " ".join(token.text for token in old)
            repairs.append(Repair(span, heard, reading.meant, round(reading.confidence, 3)))
            at = reading.last
        result.extend(tokens[at:])
        return result, repairs


def respread(old: Sequence[Token], new: Sequence[str]) -> list[Token]:
    """New texts over the times and words of old tokens; the last keeps the pause and the mark."""
    spread = []
    for place, text in enumerate(new):
        source = old[min(place * len(old) // len(new), len(old) - 1)] if place < len(new) - 1 else old[-1]
        if place == 0:
            source = old[0]
        final = place == len(new) - 1
        last = old[-1]
        end = last.end if final else source.end
        spread.append(
            Token(text, last.word if final and len(new) > 1 else source.word, source.start, end,
                  last.pause if final else 0.0, last.mark if final else "")
        )  # fmt: skip
    return spread


def allowed(
    tokens: Sequence[Token], first: int, last: int, row: Mapping[str, Any], lists: Mapping[str, frozenset[str]]
) -> bool:
    """Whether the neighbours let an everyday word be read as a trade word."""
    before = neighbours_before(tokens, first)
    after = neighbours_after(tokens, last)
    if before and before[-1] in row.get("not_before", ()):
        return False
    if after and after[0] in row.get("not_after", ()):
        return False
    asks = row.get("asks")
    opening = not before and last <= len(tokens) and tokens[last - 1].mark != ""
    if asks == "place" and opening:
        return True
    reach = 2 if asks == "place" else 1
    if asks and not any(word in lists.get(asks, frozenset({asks})) for word in before[-reach:]):
        return False
    wanted_before, wanted_after = row.get("before_any"), row.get("after_any")
    if wanted_before and not any(word in wanted_before for word in before[-1:]):
        return False
    return not wanted_after or any(word in wanted_after for word in after[:4])


def neighbours_before(tokens: Sequence[Token], first: int) -> list[str]:
    """Up to three words before a place, within the sentence, oldest first."""
    words: list[str] = []
    for token in reversed(tokens[max(0, first - 3) : first]):
        if token.mark == "stop":
            break
        words.insert(0, token.text)
    return words


def neighbours_after(tokens: Sequence[Token], last: int) -> list[str]:
    """Up to four words after a place, within the sentence."""
    words: list[str] = []
    if last and last <= len(tokens) and tokens[last - 1].mark == "stop":
        return words
    for token in tokens[last : last + 4]:
        words.append(token.text)
        if token.mark == "stop":
            break
    return words
