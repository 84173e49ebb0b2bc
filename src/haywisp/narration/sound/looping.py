"""Words that go round and round: what a recogniser writes when it has lost the thread."""

from collections.abc import Iterator, Sequence

from haywisp.narration.types import Word

LONGEST_ROUND = 12
#: Rounds that are no speech any more, by the words in one; people do say "and squeeze, and squeeze, and squeeze".
MOST_ROUNDS = {1: 6, 2: 5, 3: 4}
MOST_OF_LONGER = 3


def loops(words: Sequence[Word]) -> tuple[tuple[int, int], ...]:
    """Places, first included and last not, of words that repeat more often than anybody says them."""
    return tuple(_loops([plain(word.text) for word in words]))


def plain(text: str) -> str:
    """A word in small letters without the signs around it."""
    return "".join(letter for letter in text.lower() if letter.isalnum())


def _loops(words: list[str]) -> Iterator[tuple[int, int]]:
    at = 0
    while at < len(words):
        end = max((_round_end(words, at, size) for size in range(1, LONGEST_ROUND + 1)), default=at)
        if end > at:
            yield at, end
            at = end
        else:
            at += 1


def _round_end(words: list[str], at: int, size: int) -> int:
    """Where the rounds of ``size`` words that begin here end, or ``at`` when they are few enough."""
    end = at + size
    while end < len(words) and words[end] == words[end - size]:
        end += 1
    rounds = (end - at) // size
    return end if rounds >= MOST_ROUNDS.get(size, MOST_OF_LONGER) and size <= len(words) - at else at
