"""The pass with the trade's words as a prompt against the pass without: which words stand, and where they disagree."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from haywisp.narration.sound.looping import plain, unlooped
from haywisp.narration.sound.types import Again
from haywisp.narration.types import Word

# Fewer letters than these are another spelling of the same sounds; fewer that come back alone ("four") need no telling.
LOST_LETTERS = 7
TOUCHING_S = 0.02
# A name that the other pass wrote as it sounds: alike by this much of 100.
ALIKE = 50.0
SHORTEST_TRADE_WORD = 5


@dataclass(frozen=True, slots=True)
class Part:
    """Words of both passes at one place; ``same`` when they agree."""

    unprompted: tuple[Word, ...]
    prompted: tuple[Word, ...]
    same: bool


def compare(prompted: Sequence[Word], unprompted: Sequence[Word], prompt: str) -> tuple[list[Word], list[Again]]:
    """The words that stand and the passages to listen to again.

    The prompted pass stands, since it knows the trade; what it lost comes from the other pass. The other stands where
    the prompted one goes round; where both do, one round is left.
    """
    prompted, lasted = unlooped(prompted)
    unprompted, lasted_too = unlooped(unprompted)
    if lasted and not lasted_too:
        return list(unprompted), [Again(start, end, "loop") for start, end in lasted]
    known = {plain(word) for word in prompt.replace("-", " ").split()}
    known = {word for word in known if len(word) >= SHORTEST_TRADE_WORD}
    words: list[Word] = []
    again: list[Again] = []
    for part in parts(prompted, unprompted):
        lost = _lost(part)
        words += sorted((*part.prompted, *lost), key=lambda word: word.start)
        if _letters(lost) >= LOST_LETTERS:
            again.append(_over((*part.prompted, *part.unprompted), "dropped"))
        again += [_over([word], "prompted") for word in _only_prompted(part, known)]
    return words, [*again, *(Again(start, end, "loop") for start, end in lasted)]


def parts(prompted: Sequence[Word], unprompted: Sequence[Word]) -> Iterator[Part]:
    """The two passes side by side, by the fewest words that differ and then by the least time between the same."""
    alike = _pairs(unprompted, prompted)
    first = start = 0
    for last, end in [*alike, (len(unprompted), len(prompted))]:
        if first < last or start < end:
            yield Part(tuple(unprompted[first:last]), tuple(prompted[start:end]), False)
        if last < len(unprompted) and end < len(prompted):
            yield Part((unprompted[last],), (prompted[end],), True)
        first, start = last + 1, end + 1


def _pairs(ours: Sequence[Word], theirs: Sequence[Word]) -> list[tuple[int, int]]:
    """Places of the words that both have, by Wagner and Fischer's table; a word said twice goes to its own time."""
    apart = [[_apart(word, other) for other in theirs] for word in ours]
    table: list[list[tuple[float, float]]] = [[(float(place), 0.0) for place in range(len(theirs) + 1)]]
    for row in range(len(ours)):
        table.append([(row + 1.0, 0.0)])
        for column in range(len(theirs)):
            table[-1].append(min(_steps(table, row, column, apart[row][column])))
    found = []
    row, column = len(ours), len(theirs)
    while row and column:
        here, between = table[row][column], apart[row - 1][column - 1]
        aslant, above, _ = _steps(table, row - 1, column - 1, between)
        if here == aslant:
            row, column = row - 1, column - 1
            if between is not None:
                found.append((row, column))
        elif here == above:
            row -= 1
        else:
            column -= 1
    return found[::-1]


def _steps(
    table: Sequence[Sequence[tuple[float, float]]], row: int, column: int, apart: float | None
) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    """What the cell after ``row`` and ``column`` costs from aslant, from above and from the left."""
    (edits, seconds), (above, waited) = table[row][column], table[row][column + 1]
    left, lasted = table[row + 1][column]
    aslant = (edits + 1.0, seconds) if apart is None else (edits, seconds + apart)
    return aslant, (above + 1.0, waited), (left + 1.0, lasted)


def _apart(word: Word, other: Word) -> float | None:
    """Seconds between two words that are the same, or None where they are not."""
    return abs(word.start - other.start) if plain(word.text) == plain(other.text) else None


def _lost(part: Part) -> tuple[Word, ...]:
    """Words of the unprompted pass that the prompted one has neither in this nor another spelling."""
    if part.same or (part.prompted and _letters(part.unprompted) - _letters(part.prompted) < LOST_LETTERS):
        return ()
    return tuple(
        word
        for word in part.unprompted
        if all(min(word.end, other.end) - max(word.start, other.start) < TOUCHING_S for other in part.prompted)
    )


def _letters(words: Sequence[Word]) -> int:
    return sum(len(plain(word.text)) for word in words)


def _only_prompted(part: Part, known: set[str]) -> Iterator[Word]:
    """Trade words of the prompted pass where the other wrote nothing that sounds like them."""
    from rapidfuzz.fuzz import partial_ratio

    if part.same:
        return
    beside = "".join(plain(word.text) for word in part.unprompted)
    for word in part.prompted:
        name = plain(word.text)
        if name in known and partial_ratio(name, beside) < ALIKE:
            yield word


def _over(words: Sequence[Word], reason: str) -> Again:
    return Again(min(word.start for word in words), max(word.end for word in words), reason)
