"""Where trade words may be hidden in what was heard: every known way of saying them, aligned with the talk.

The sounds of the talk are read once, from left to right, against all ways of saying at the same time (Sellers'
matching: a match may begin before any word), so that the cost grows with the length of the talk alone.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from haywisp.narration.sounds import Likeness, ways
from haywisp.narration.tokens import Token

LONGEST_WINDOW = 6
WINDOW_PAUSE_S = 0.6
CLIPPED = 0.14
ROUNDING = 1e-5

Said = Mapping[str, Sequence[str]]


@dataclass(frozen=True, slots=True)
class Way:
    """One way of saying a trade word, how much there is to hear in it, and how far from it this way already is."""

    meant: str
    sounds: str
    weight: float
    off: float


@dataclass(frozen=True, slots=True)
class Heard:
    """Tokens ``first`` to ``last`` (excluded) that sound like a way of saying; ``distance`` is 0 for the very same."""

    first: int
    last: int
    way: Way
    distance: float


class Alignment:
    """Finds windows of tokens that sound like the trade words of one language."""

    def __init__(self, said: Said, clipped: Said, likeness: Likeness, reach: float) -> None:
        import numpy as np

        self._likeness = likeness
        self._ways = [
            Way(meant, sounds, likeness.weight(sounds), off)
            for table, off in ((said, 0.0), (clipped, CLIPPED))
            for meant, texts in table.items()
            for sounds in dict.fromkeys(sounds for text in texts for sounds in ways(text))
        ]
        longest = max(len(way.sounds) for way in self._ways)
        self._ends = np.array([len(way.sounds) for way in self._ways])
        self._columns = np.arange(len(self._ways))
        # What lies on the limit is within it, whatever the rounding.
        limits = [way.weight * (reach - way.off) + ROUNDING for way in self._ways]
        self._limits = np.array(limits, dtype=np.float32)
        # Costs are kept as what they are above that of losing all sounds so far, a column for each way of saying.
        self._lost = np.array([sum(likeness.losses(way.sounds)) for way in self._ways], dtype=np.float32)
        self._swaps = {}
        for sound, costs in likeness.swaps.items():
            table = np.ones((longest, len(self._ways)), dtype=np.float32)
            for column, way in enumerate(self._ways):
                losses = likeness.losses(way.sounds)
                gained = [costs[other] - loss for other, loss in zip(way.sounds, losses, strict=True)]
                table[: len(gained), column] = gained
            self._swaps[sound] = table

    def windows(self, tokens: Sequence[Token], sounds: Sequence[str]) -> list[Heard]:
        """The best window that ends at each token for each trade word within reach."""
        import numpy as np

        found: list[Heard] = []
        added, minimum = self._likeness.added, np.minimum
        state = np.zeros((int(self._ends.max()) + 1, len(self._ways)), dtype=np.float32)
        swapped = np.empty_like(state[1:])
        before, after, rows = state[:-1], state[1:], [*state]
        for place, token in enumerate(tokens):
            minimum(state, 0.0, out=state)
            for sound in sounds[place]:
                np.add(before, self._swaps[sound], out=swapped)
                np.add(state, added[sound], out=state)
                minimum(after, swapped, out=after)
                # One row after the other: many times faster than numpy's accumulate.
                for row, following in pairwise(rows):
                    minimum(following, row, out=following)
            costs = state[self._ends, self._columns] + self._lost
            within = np.flatnonzero(costs <= self._limits)
            if len(within):
                found.extend(self._traced(tokens, sounds, place + 1, [int(row) for row in within], costs))
            if token.mark or token.pause > WINDOW_PAUSE_S:
                state.fill(0.0)
        return found

    def _traced(
        self, tokens: Sequence[Token], sounds: Sequence[str], last: int, rows: Sequence[int], costs: Sequence[float]
    ) -> list[Heard]:
        best: dict[str, int] = {}
        for row in rows:
            meant = self._ways[row].meant
            if meant not in best or self._far(row, costs) < self._far(best[meant], costs):
                best[meant] = row
        earliest = last - 1
        while earliest > max(0, last - LONGEST_WINDOW) and not (
            tokens[earliest - 1].mark or tokens[earliest - 1].pause > WINDOW_PAUSE_S
        ):
            earliest -= 1
        return [self._begun(sounds, earliest, last, self._ways[row]) for row in best.values()]

    def _far(self, row: int, costs: Sequence[float]) -> float:
        way = self._ways[row]
        return costs[row] / way.weight + way.off

    def _begun(self, sounds: Sequence[str], earliest: int, last: int, way: Way) -> Heard:
        """The window of a way of saying that ends before ``last`` and begins where that costs least."""
        losses = self._likeness.losses(way.sounds)[::-1]
        wanted = way.sounds[::-1]
        row = [0.0]
        for cost in losses:
            row.append(row[-1] + cost)
        best, first = row[-1], last
        for place in range(last - 1, earliest - 1, -1):
            for sound in reversed(sounds[place]):
                row = self._likeness.heard_as(row, sound, wanted, losses)
            if row[-1] < best:
                best, first = row[-1], place
        return Heard(min(first, last - 1), last, way, best / way.weight + way.off)
