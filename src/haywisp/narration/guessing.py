"""How sure it is that a window of words is a misheard trade word: sound, spelling, and what stands in and around it."""

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass
from math import exp, log
from typing import Any

from rapidfuzz.distance import Indel

from haywisp.narration.alignment import Heard
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.tokens import Token

# What stands for the second part of a word that was opened and is heard as it was written.
UNSAID = "'"
TOPIC_REACH = 8
SAME_WORD = 0.85
SAME_WORDS = 0.9
A_WORD_OF_IT = 0.6
FARTHEST_REST = 0.57


@dataclass(frozen=True, slots=True)
class Guess:
    """A window, how sure it is that it was so meant, 0 to 1, and how many words of its own it explains.

    A word of ordinary talk at its end counts against it. ``odd`` tells a window that is not made of plain words alone.
    """

    heard: Heard
    confidence: float
    explained: int
    odd: bool


class Guesser:
    """Weighs windows of one language."""

    def __init__(self, lexicon: Lexicon, meanings: Sequence[str], weigh: Callable[[str], float]) -> None:
        lists = lexicon.lists
        self._lists = lists
        self._everyday = lists["everyday"]
        self._common = lexicon.vocabulary.union(
            *(lists[name] for name in ("everyday", "common", "alike", "known", "function-words"))
        )
        self._function = lists["function-words"]
        self._endings = lists["latin-endings"] | lists["latin-tails"]
        self._vocabulary = lexicon.vocabulary
        table: Mapping[str, Any] = lexicon.tables.language.tables["sounds"]
        self._weights: Mapping[str, float] = table["confidence"]
        self._words = {meant: tuple(meant.split()) for meant in meanings}
        self._heaviness = {word: weigh(word) for words in self._words.values() for word in words}
        self._work = frozenset(meant for meant in meanings if self._is_work(meant, lexicon))

    @staticmethod
    def _is_work(meant: str, lexicon: Lexicon) -> bool:
        """Whether a trade word names what the hands do, and so stands where a technique stands."""
        words = set(meant.split())
        return words <= (lexicon.matchers["technique"].words | lexicon.matchers["weak"].words) and not words <= (
            lexicon.matchers["structure"].words | lexicon.matchers["sign"].words
        )

    def possible(self, tokens: Sequence[Token], heard: Heard, covered: Set[int]) -> bool:
        """Whether a window may be read as something else at all: not where trade words stand in it as they are."""
        said = [p for p in range(heard.first, heard.last) if tokens[p].text != UNSAID]
        texts = [tokens[place].text for place in said]
        meant = self._words[heard.way.meant]
        if any(not text[0].isalnum() and text[0] != "'" for text in texts):
            return False
        if set(meant) <= set(texts) or not self._lists["never-misheard"].isdisjoint(texts):
            return False
        free = [tokens[place].text for place in said if place not in covered]
        if not free or all(text in self._function for text in free):
            return False
        if len(texts) == 1:
            return texts[0] not in self._vocabulary
        held = [tokens[p].text for p in said if p in covered and tokens[p].text not in meant]
        if any(max(alike(text, word) for word in meant) < A_WORD_OF_IT for text in held):
            return False
        settled = any(alike(text, heard.way.meant) >= SAME_WORD for text in held)
        return not settled and not self._known_but_for_an_ending(texts, meant)

    def _known_but_for_an_ending(self, texts: Sequence[str], meant: Sequence[str]) -> bool:
        known = len(texts) == len(meant) and all(text in self._vocabulary for text in texts)
        return known and alike("".join(texts), "".join(meant)) >= SAME_WORDS

    def features(self, tokens: Sequence[Token], heard: Heard, covered: Set[int]) -> dict[str, float]:
        """What speaks for and against a window."""
        first, last, way = heard.first, heard.last, heard.way
        texts = [token.text for token in tokens[first:last] if token.text != UNSAID]
        letters = "".join(texts).replace("'", "")
        size = max(len(letters), 1)
        odd = sum(len(text) for text in texts if text not in self._common) / size
        everyday = sum(len(text) for text in texts if text in self._everyday) / size
        meant = self._words[way.meant]
        strange = [place for place in range(first, last) if place in covered and tokens[place].text not in meant]
        near = sum(
            1 for place in range(max(0, first - TOPIC_REACH), min(len(tokens), last + TOPIC_REACH)) if place in covered
        )
        work = way.meant in self._work
        before = tokens[first - 1] if first else None
        open_before = before is None or bool(before.mark)
        led = not open_before and before is not None and before.text in self._lists["place"]
        offered = open_before or (before is not None and before.text in self._lists["work-leads"])
        after = [token.text for token in tokens[last : last + 2]]
        onto = len(after) == 2 and after[0] in self._lists["work-onto"] and after[1] in self._lists["place"]
        shared = sum(self._heaviness[word] for word in meant if word in texts)
        tail = len(texts) > 1 and texts[-1] in self._lists["latin-tails"]
        own = [text for text in (texts[:-1] if tail else texts) if text not in self._function and text not in meant]
        return {
            "constant": 1.0,
            "distance": heard.distance,
            "weight": log(way.weight),
            "spelling": Indel.normalized_similarity(letters, way.meant.replace(" ", "")),
            "odd": odd,
            "everyday": everyday,
            "distance_everyday": heard.distance * everyday,
            "alone_known": float(len(texts) == 1 and texts[0] in self._common),
            "one_known": float(len(texts) > 1 and len(own) <= 1 and all(text in self._common for text in own)),
            "many": float(len(texts) - 1),
            "leans": float(texts[0] in self._function),
            "trails": float(texts[-1] in self._function and texts[-1] not in self._endings),
            "tail": float(tail),
            "led": float(not work and led),
            "begins": float(not work and open_before),
            "unled": float(not work and not led and not open_before),
            "work": float(work),
            "work_led": float(work and (offered or onto)),
            "strange": float(bool(strange)),
            "shared": float(shared > 0),
            "rest": heard.distance * way.weight / max(1.0, way.weight - shared) if shared else 0.0,
            "topic": float(min(near, 3)),
        }

    def confidence(self, features: Mapping[str, float]) -> float:
        """0 to 1, fitted so that of the windows given a figure about that share are right."""
        total = sum(self._weights.get(name, 0.0) * value for name, value in features.items())
        return 1.0 / (1.0 + exp(-max(-30.0, min(30.0, total))))

    def guess(self, tokens: Sequence[Token], heard: Heard, covered: Set[int]) -> Guess | None:
        """A window weighed, or None where it can be nothing else than it is."""
        if not self.possible(tokens, heard, covered):
            return None
        features = self.features(tokens, heard, covered)
        if features["rest"] > FARTHEST_REST:
            return None
        own = sum(1 for token in tokens[heard.first : heard.last] if token.text not in self._function)
        return Guess(
            heard, self.confidence(features), own - int(features["trails"]), features["odd"] > 0 or features["tail"] > 0
        )


def alike(one: str, other: str) -> float:
    """How alike two words are written, 0 to 1."""
    return Indel.normalized_similarity(one, other)
