"""Bouts by side: what of the first side was repeated on the second, and what is there to repeat."""

from bisect import bisect_right
from collections.abc import Sequence

from haywisp.narration.drafts import OPPOSITE, Draft


class BySide:
    """Look-ups over finished bouts in their order."""

    def __init__(self, drafts: Sequence[Draft]) -> None:
        self._drafts = drafts
        self._numbers: dict[str, list[int]] = {}
        self._worked: dict[tuple[str, str], list[int]] = {}
        self._last: dict[tuple[str, str, str], int] = {}
        for number, draft in enumerate(drafts):
            side = draft.side or ""
            self._numbers.setdefault(side, []).append(number)
            for structure in draft.structures:
                self._worked.setdefault((side, structure), []).append(number)
                self._last[side, draft.technique, structure] = number

    def numbers(self, side: str, after: int) -> list[int]:
        """The bouts of a side that come after a number: the first of them and the last."""
        found = self._numbers.get(side, [])
        place = bisect_right(found, after)
        return [found[place], found[-1]] if place < len(found) else []

    def repeated(self, draft: Draft, number: int) -> bool:
        """Whether a bout was done again on the other side, later."""
        return self._again(draft) > number

    def repeats(self, number: int, side: str | None) -> Draft | None:
        """What repeats a bout of a side on the other, later; None where that bout is of another side."""
        if not 0 <= number < len(self._drafts) or self._drafts[number].side != side:
            return None
        again = self._again(self._drafts[number])
        return self._drafts[again] if again > number else None

    def model(self, structures: Sequence[str], side: str, until: float) -> Draft | None:
        """The first bout of a side at one of these places, not repeated yet where there is one; of any without."""
        places = [self._worked.get((side, structure), []) for structure in structures]
        numbers = sorted({number for found in places for number in found})
        if not structures:
            numbers = self._numbers.get(side, [])
        earlier = [number for number in numbers if self._drafts[number].start < until]
        fresh = [number for number in earlier if not self._drafts[number].mirrored]
        chosen = fresh or earlier
        return self._drafts[chosen[0]] if chosen else None

    def _again(self, draft: Draft) -> int:
        other = OPPOSITE.get(draft.side or "", "")
        return max((self._last.get((other, draft.technique, s), -1) for s in draft.structures), default=-1)
