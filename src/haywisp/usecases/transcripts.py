"""The words of a narration as lines of a page."""

from collections.abc import Iterator, Sequence

from haywisp.narration.types import Narration, Word
from haywisp.report.wording import mmss
from haywisp.usecases.views import LineView, RepairView, WordView

# Word-time files have no cues, and a page needs lines: a breath, the end of a sentence or this many words end one.
PAUSE_S = 1.0
MOST_WORDS = 30
ENOUGH_WORDS = 8


def word_views(narration: Narration) -> tuple[WordView, ...]:
    """Every word in order; ``meant`` on each word of a repair."""
    meant = {
        index: repair.meant
        for repair in narration.repairs
        for index in range(repair.span.first, repair.span.last)
        if repair.meant != repair.heard
    }
    return tuple(
        WordView(
            index=index,
            text=word.text,
            start=word.start,
            end=word.end,
            cue=word.cue,
            meant=meant.get(index, ""),
            probability=word.probability,
        )
        for index, word in enumerate(narration.transcript.words)
    )


def repair_views(narration: Narration) -> tuple[RepairView, ...]:
    return tuple(
        RepairView(
            first=repair.span.first,
            last=repair.span.last,
            heard=repair.heard,
            meant=repair.meant,
            confidence=repair.confidence,
        )
        for repair in narration.repairs
    )


def line_views(words: Sequence[WordView]) -> tuple[LineView, ...]:
    """The words by cue; a cue that is too long for a line is broken where the speaker paused or ended a sentence."""
    return tuple(
        LineView(
            cue=words[first].cue,
            time=mmss(words[first].start),
            start=words[first].start,
            end=words[last - 1].end,
            first=first,
            last=last,
            words=tuple(words[first:last]),
        )
        for first, last in _lines(words)
    )


def _lines(words: Sequence[WordView]) -> Iterator[tuple[int, int]]:
    cue_lengths: dict[int, int] = {}
    for word in words:
        cue_lengths[word.cue] = cue_lengths.get(word.cue, 0) + 1
    first = 0
    for index in range(1, len(words) + 1):
        if index == len(words) or _breaks(words[index - 1], words[index], index - first, cue_lengths):
            yield first, index
            first = index


def _breaks(before: WordView, after: WordView, length: int, cue_lengths: dict[int, int]) -> bool:
    if before.cue != after.cue:
        return True
    if cue_lengths[before.cue] <= MOST_WORDS:
        return False
    paused = after.start - before.end >= PAUSE_S or before.text.endswith((".", "?", "!"))
    return length >= MOST_WORDS or (paused and length >= ENOUGH_WORDS)


def end_of(words: Sequence[Word]) -> float:
    """When the last word ends, in seconds; 0 without words."""
    return max((word.end for word in words), default=0.0)
