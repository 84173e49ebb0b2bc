"""A scene with its finished bouts, and where things are in it: what features and offers are taken from."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import cached_property

from haywisp.narration.clauses import Clause
from haywisp.narration.deciding import last_onset, onsets
from haywisp.narration.drafts import Draft
from haywisp.narration.mentions import Mention
from haywisp.narration.scene import Scene
from haywisp.narration.sides import BySide
from haywisp.narration.types import Repair, Span

SHORTEST = 4
KNOWN = ("everyday", "common", "function-words", "known", "own-common")


class Hearing:
    """A scene with its finished bouts, and the look-ups that features are taken from."""

    def __init__(self, scene: Scene, drafts: Sequence[Draft]) -> None:
        self.scene, self.drafts = scene, drafts

    @cached_property
    def _clause_firsts(self) -> list[int]:
        return [clause.first for clause in self.scene.clauses]

    @cached_property
    def _draft_starts(self) -> list[float]:
        return [draft.start for draft in self.drafts]

    @cached_property
    def _token_starts(self) -> list[float]:
        return [token.start for token in self.scene.tokens]

    @cached_property
    def _token_words(self) -> list[int]:
        return [token.word for token in self.scene.tokens]

    @cached_property
    def strange(self) -> list[int]:
        """How many words that no table knows stand before each token: names of people and places, or misheard ones."""
        lexicon = self.scene.lexicon
        known = (lexicon.vocabulary, *(lexicon.lists[name] for name in KNOWN), lexicon.numbers)
        sums = [0]
        for token in self.scene.tokens:
            odd = len(token.text) >= SHORTEST and not any(token.text in words for words in known)
            sums.append(sums[-1] + odd)
        return sums

    @cached_property
    def doubted(self) -> list[tuple[int, Repair]]:
        """Readings that were not believed, by their first token."""
        return sorted(((self.place_of(one.span), one) for one in self.scene.doubted), key=lambda pair: pair[0])

    def doubted_in(self, first: int, last: int) -> list[Repair]:
        """Readings from token ``first`` to before ``last`` that were not believed."""
        places = self._doubted_places
        return [one for _, one in self.doubted[bisect_left(places, first) : bisect_left(places, last)]]

    @cached_property
    def _doubted_places(self) -> list[int]:
        return [place for place, _ in self.doubted]

    @cached_property
    def by_side(self) -> BySide:
        """Bouts by side."""
        return BySide(self.drafts)

    @cached_property
    def first_of_side(self) -> dict[str, int]:
        """The number of the first bout of each side."""
        found: dict[str, int] = {}
        for number, draft in enumerate(self.drafts):
            found.setdefault(draft.side or "", number)
        return found

    @cached_property
    def last_work(self) -> int:
        """The token of the last technique named as done."""
        return last_onset(self.scene, onsets(self.scene))

    def number_at(self, place: int) -> int:
        """The number of the clause that holds a token."""
        return max(0, bisect_right(self._clause_firsts, place) - 1)

    def clause_at(self, place: int) -> Clause:
        """The clause that holds a token."""
        return self.scene.clauses[self.number_at(place)]

    def place_of(self, span: Span) -> int:
        """The first token of the words of a span."""
        at = max(0, bisect_right(self._token_words, span.first) - 1)
        while at and self._token_words[at - 1] == self._token_words[at]:
            at -= 1
        return at

    def token_at(self, when: float) -> int:
        """The last token that has begun at a time."""
        return max(0, bisect_right(self._token_starts, when) - 1)

    def draft_at(self, when: float) -> Draft | None:
        """The bout that was begun last at a time."""
        number = self.drafts_until(when) - 1
        return self.drafts[number] if number >= 0 else None

    def drafts_until(self, when: float) -> int:
        """How many bouts had begun at a time."""
        return bisect_right(self._draft_starts, when)

    def names(self, mention: Mention) -> tuple[str, ...]:
        """The structures that a mention may name."""
        return self.scene.lexicon.ambiguous[mention.id] if mention.kind == "ambiguous" else (mention.id,)

    def named(self, structure: str, first: int, last: int) -> list[Mention]:
        """Mentions from token ``first`` to before ``last`` that may name a structure."""
        return [m for m in self.scene.mentions.within("structure", first, last) if structure in self.names(m)]
