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
    """The two passes side by side, by the fewest words that differ."""
    from rapidfuzz.distance import Levenshtein

    ours = [plain(word.text) for word in unprompted]
    theirs = [plain(word.text) for word in prompted]
    steps = [(op.tag, op.src_start, op.src_end, op.dest_start, op.dest_end) for op in Levenshtein.opcodes(ours, theirs)]
    for same, first, last, start, end in _joined(steps):
        yield Part(tuple(unprompted[first:last]), tuple(prompted[start:end]), same)


def _joined(steps: Sequence[tuple[str, int, int, int, int]]) -> list[tuple[bool, int, int, int, int]]:
    """Steps that differ one after the other made one."""
    found: list[tuple[bool, int, int, int, int]] = []
    for kind, first, last, start, end in steps:
        same = kind == "equal"
        if found and not same and not found[-1][0]:
            found[-1] = (False, found[-1][1], last, found[-1][3], end)
        else:
            found.append((same, first, last, start, end))
    return found


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
