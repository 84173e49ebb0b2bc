"""Words that go round and round: what a recogniser writes when it has lost the thread."""

from collections.abc import Iterator, Sequence

from haywisp.narration.types import Word

LONGEST_ROUND = 12
#: Rounds that are no speech any more, by the words in one; people do say "and squeeze, and squeeze, and squeeze".
MOST_ROUNDS = {1: 6, 2: 5, 3: 4}
MOST_OF_LONGER = 3


def unlooped(words: Sequence[Word]) -> tuple[list[Word], tuple[tuple[float, float], ...]]:
    """Words with one round of each loop left, and the seconds that the loops lasted."""
    left: list[Word] = []
    lasted = []
    at = 0
    for first, last, size in loops(words):
        left += words[at : first + size]
        lasted.append((words[first].start, max(word.end for word in words[first:last])))
        at = last
    return [*left, *words[at:]], tuple(lasted)


def loops(words: Sequence[Word]) -> tuple[tuple[int, int, int], ...]:
    """Words that repeat more often than anybody says them: first place, last (not included), words in one round."""
    return tuple(_loops([plain(word.text) for word in words]))


def plain(text: str) -> str:
    """A word in small letters without the signs around it."""
    return "".join(letter for letter in text.lower() if letter.isalnum())


def _loops(words: list[str]) -> Iterator[tuple[int, int, int]]:
    at = 0
    while at < len(words):
        end, size = max((_round_end(words, at, size), -size) for size in range(1, LONGEST_ROUND + 1))
        if end > at:
            yield at, end, -size
            at = end
        else:
            at += 1


def _round_end(words: list[str], at: int, size: int) -> int:
    """Where the rounds of ``size`` words that begin here end, or ``at`` when they are few enough."""
    end = at + size
    while end < len(words) and words[end] == words[end - size]:
        end += 1
    return end if (end - at) // size >= MOST_ROUNDS.get(size, MOST_OF_LONGER) and end <= len(words) else at
