"""Misheard trade words: what was heard is kept, and read as what the neighbouring words allow.

Three steps: forms that are known and are no everyday English; everyday words that are believed only beside words of the
body or of the work; and, for what is left, windows of one to five words that sound like a long trade word.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from rapidfuzz.distance import Indel, JaroWinkler, Levenshtein

from haywisp.narration.lexicon import Lexicon
from haywisp.narration.phrases import Matcher, Phrase, compile_phrase
from haywisp.narration.sounds import sound_key
from haywisp.narration.tokens import Token, pieces
from haywisp.narration.types import Repair, Span

LONGEST_WINDOW = 6
SHORTEST_KEY = 4
SURE, NEAR = 0.9, 0.8
ODD_WORD = 0.9
LONGER = 0.1
LONGEST_SLOT = 3
SHORTEST_COVER = 4


@dataclass(frozen=True, slots=True)
class Reading:
    """Tokens ``first`` to ``last`` (excluded) read as other words."""

    first: int
    last: int
    meant: str
    confidence: float


@dataclass(frozen=True, slots=True)
class Target:
    """A trade word that a window of other words may stand for, with its sound key and the words to read instead."""

    letters: str
    key: str
    meant: str


class Repairer:
    """Finds and applies readings for one language."""

    def __init__(self, lexicon: Lexicon) -> None:
        self._lexicon = lexicon
        self._sure = Matcher([self._phrase(heard, meant) for heard, meant in lexicon.sure.items()])
        self._near = Matcher([self._phrase(heard, heard) for heard in lexicon.near])
        self._targets = targets_of(lexicon)
        self._by_first: dict[str, list[Target]] = {}
        for target in self._targets:
            for letter in near_letters(target.key[0]):
                self._by_first.setdefault(letter, []).append(target)
        self._starts = {text.split()[0] for text in lexicon.sounded if " " in text}
        self._words = lexicon.lists["function-words"]
        self._known = lexicon.lists["known"]

    def _phrase(self, heard: str, meaning: str) -> Phrase:
        parts = [part for word in heard.split() for part in pieces(word, self._lexicon.spellings)]
        return compile_phrase(" ".join(parts), meaning, {}, self._lexicon.endings)

    def repair(self, tokens: list[Token]) -> tuple[list[Token], list[Repair]]:
        """Tokens with what was misheard read as it was meant, and a record of each change."""
        tokens = [self._with_its_g(token) for token in tokens]
        tokens, first = self._apply(tokens, self._sure_readings(tokens))
        tokens, second = self._apply(tokens, self._near_readings(tokens))
        tokens, third = self._apply(tokens, self._sounding(tokens))
        return tokens, [*first, *second, *third]

    def _with_its_g(self, token: Token) -> Token:
        """A word said without its last letter ("kneadin"), where the whole word is of the tables."""
        whole = token.text + "g"
        known = self._lexicon.vocabulary
        if token.text.endswith("in") and len(whole) > 5 and whole in known and token.text not in known:
            return replace(token, text=whole)
        return token

    def _sure_readings(self, tokens: Sequence[Token]) -> list[Reading]:
        return [Reading(m.first, m.last, m.meaning, SURE) for m in self._sure.find(tokens)]

    def _near_readings(self, tokens: Sequence[Token]) -> list[Reading]:
        readings = []
        for match in self._near.find(tokens):
            row = self._lexicon.near[match.meaning]
            if allowed(tokens, match.first, match.last, row, self._lexicon.lists):
                readings.append(Reading(match.first, match.last, row["meant"], NEAR))
        return readings

    def _sounding(self, tokens: Sequence[Token]) -> list[Reading]:
        found: list[Reading] = []
        covered = self._covered(tokens)
        for first in range(len(tokens)):
            reading = self._best_window(tokens, first, covered)
            if reading is not None:
                found.append(reading)
        return found

    def _covered(self, tokens: Sequence[Token]) -> set[int]:
        """Tokens that the trade's words explain as they stand."""
        places: set[int] = set()
        for kind in ("structure", "technique", "sign"):
            for match in self._lexicon.matchers[kind].find(tokens):
                letters = sum(len(token.text) for token in tokens[match.first : match.last])
                if match.fixed >= match.last - match.first and letters >= SHORTEST_COVER:
                    places.update(range(match.first, match.last))
        return places

    def _best_window(self, tokens: Sequence[Token], first: int, covered: set[int]) -> Reading | None:
        whole = tokens[first].text in self._starts
        if (
            (first in covered and not whole)
            or tokens[first].text in self._words
            or tokens[first].text in self._lexicon.numbers
        ):
            return None
        best: Reading | None = None
        letters = ""
        for last in range(first + 1, min(first + LONGEST_WINDOW, len(tokens)) + 1):
            token = tokens[last - 1]
            if last - 1 in covered and not (whole and last - 1 == first):
                break
            letters += token.text.strip("'")
            if self._worth(tokens, first, last, letters):
                best = self._better(best, tokens, first, last, letters)
            if token.mark or token.pause > 0.6:
                break
        return best

    def _worth(self, tokens: Sequence[Token], first: int, last: int, letters: str) -> bool:
        if not 5 <= len(letters) <= 26:
            return False
        if last - first == 1:
            return letters not in self._known and letters not in self._lexicon.vocabulary
        ending = tokens[last - 1].text
        return ending not in self._words or ending in self._lexicon.lists["latin-endings"]

    def _better(
        self, best: Reading | None, tokens: Sequence[Token], first: int, last: int, letters: str
    ) -> Reading | None:
        key = sound_key(letters)
        if len(key) < SHORTEST_KEY:
            return best
        for target in self._by_first.get(key[0], ()):
            if abs(len(target.key) - len(key)) > 3 or target.meant == " ".join(t.text for t in tokens[first:last]):
                continue
            score = likeness(letters, key, target)
            needed = self._needed(tokens, first, last, target)
            if last - first == 1 and len(letters) > 6 and JaroWinkler.similarity(letters, target.letters) >= ODD_WORD:
                score = max(score, needed)
            if score >= needed and (best is None or score > best.confidence):
                best = Reading(first, last, target.meant, score)
        return best

    def _needed(self, tokens: Sequence[Token], first: int, last: int, target: Target) -> float:
        """How alike a window must be: less where a word of place or belonging leads into it, more for short words."""
        lists = self._lexicon.lists
        before = tokens[first - 1].text if first and tokens[first - 1].mark != "stop" else ""
        led = before in lists["place"] or first == 0 or tokens[first - 1].mark != ""
        slot = last - first <= LONGEST_SLOT and not any(token.text in lists["place"] for token in tokens[first:last])
        if slot and target.meant in lists["worked"] and leads_to_place(tokens, last, lists["place"]):
            return 0.62
        needed = 0.72 if led else 0.78
        if any(token.text in self._known for token in tokens[first:last]):
            needed += 0.12
        if any(token.text.startswith("'") for token in tokens[first:last]):
            needed += 0.04
        short = {4: 0.1, 5: 0.05}.get(len(target.key), 0.0)
        return needed + short

    def _apply(self, tokens: Sequence[Token], readings: Sequence[Reading]) -> tuple[list[Token], list[Repair]]:
        chosen: list[Reading] = []
        taken: set[int] = set()
        for reading in sorted(readings, key=lambda r: (-r.confidence - LONGER * (r.last - r.first), r.first)):
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


def leads_to_place(tokens: Sequence[Token], last: int, places: frozenset[str]) -> bool:
    """Whether a window is followed by "down the …", "over his …": where the name of a technique would stand."""
    after = neighbours_after(tokens, last)
    return len(after) > 1 and after[0] in {"down", "over", "along", "on", "across", "through"} and after[1] in places


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


def likeness(letters: str, key: str, target: Target) -> float:
    """0 to 1: how alike two words sound (two thirds) and are written (one third)."""
    sound = Levenshtein.normalized_similarity(key, target.key)
    return 0.67 * sound + 0.33 * Indel.normalized_similarity(letters, target.letters)


def near_letters(letter: str) -> str:
    """The first sounds that a recogniser may write for a first sound."""
    groups = ("pt", "pf", "kt", "nt", "sf", "rl", "fa", "ka", "ak", "sk")
    return letter + "".join(other for group in groups if letter in group for other in group if other != letter)


def targets_of(lexicon: Lexicon) -> list[Target]:
    """Trade words long enough to be told by their sound."""
    found: dict[str, Target] = {}
    for text in lexicon.sounded:
        letters = text.replace(" ", "")
        key = sound_key(letters)
        if len(key) >= SHORTEST_KEY and letters not in found:
            found[letters] = Target(letters, key, text)
    return list(found.values())


def targets_of_name(name: str) -> list[Target]:
    """A name as what words may sound like: the whole of it and each of its words."""
    plain = "".join(letter if letter.isalnum() else " " for letter in name.lower()).split()
    letters = dict.fromkeys(["".join(plain), *(word for word in plain if len(word) > 3)])
    return [Target(text, sound_key(text), name) for text in letters]
