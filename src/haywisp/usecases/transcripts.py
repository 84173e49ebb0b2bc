"""The words of a narration as lines of a page."""

from collections.abc import Iterable, Iterator, Sequence

from haywisp.narration.types import Narration, Word
from haywisp.record.types import Entry, StoredQuestion
from haywisp.report.evidence import Sentences
from haywisp.report.wording import mmss
from haywisp.usecases.views import LineView, QuoteView, RepairView, WordView

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


def quote_views(
    words: Sequence[WordView], entries: Iterable[Entry], questions: Iterable[StoredQuestion]
) -> dict[str, QuoteView | None]:
    """The sentence behind each entry and question; None for what was added by hand."""
    said = Sentences(words)
    quotes = {entry.thread: _quote(said, entry) for entry in entries}
    return quotes | {f"question-{question.id}": _quote(said, question) for question in questions}


def _quote(said: Sentences, about: Entry | StoredQuestion) -> QuoteView | None:
    quote = said.quoted(about.first_word, about.last_word) if about.first_word >= 0 else None
    return QuoteView(quote.before, quote.marked, quote.after, quote.pointed) if quote else None


def end_of(words: Sequence[Word]) -> float:
    """When the last word ends, in seconds; 0 without words."""
    return max((word.end for word in words), default=0.0)
