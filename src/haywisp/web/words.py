"""The transcript as pieces: runs of words that made the same entries, so that words and entries point at each other."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from haywisp.usecases.views import EntryView, LineView, RepairView, WordView
from haywisp.usecases.views.recordings import PassageView

#: A passage that ends this long before the first word shown belongs to what is not shown.
NEAR_S = 30.0


@dataclass(frozen=True, slots=True)
class Piece:
    """Words ``first`` onwards that made the entries ``threads``; ``meant`` is "" unless they were mended.

    ``words`` are the same words with the second that each is said at. ``again`` is the passage to listen to again that
    they lie in, and ``marks`` are the passages that begin before them.
    """

    first: int
    text: str
    threads: tuple[str, ...]
    meant: str
    words: tuple[tuple[str, float], ...] = ()
    again: PassageView | None = None
    marks: tuple[PassageView, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the transcript, from its second ``start`` on; ``marks`` are passages after its last word."""

    time: str
    pieces: tuple[Piece, ...]
    start: float = 0.0
    marks: tuple[PassageView, ...] = ()


def threads_by_word(entries: Iterable[EntryView]) -> dict[int, tuple[str, ...]]:
    """The threads that each word is part of, in the entries' order."""
    threads: dict[int, tuple[str, ...]] = {}
    for entry in entries:
        for index in range(entry.first_word, entry.last_word) if entry.first_word >= 0 else ():
            threads[index] = (*threads.get(index, ()), entry.thread)
    return threads


def repairs_by_word(repairs: Iterable[RepairView]) -> dict[int, RepairView]:
    """The repair that each mended word belongs to."""
    return {index: repair for repair in repairs for index in range(repair.first, repair.last)}


def passage_of(word: WordView, passages: Iterable[PassageView]) -> PassageView | None:
    """The passage to listen to again that a word is said in."""
    middle = (word.start + word.end) / 2
    return next((passage for passage in passages if passage.start <= middle <= passage.end), None)


def rows(
    lines: Sequence[LineView],
    entries: Sequence[EntryView],
    repairs: Sequence[RepairView],
    passages: Sequence[PassageView] = (),
) -> tuple[Row, ...]:
    """The transcript's lines, each cut wherever what its words belong to changes: entries, a repair, a passage."""
    threads, mended = threads_by_word(entries), repairs_by_word(repairs)
    words = [word for line in lines for word in line.words]
    again = {word.index: passage_of(word, passages) for word in words} if passages else {}
    marks, after = marks_by_word(words, passages)

    def belongs(word: WordView) -> tuple[tuple[str, ...], int, PassageView | None]:
        repair = mended.get(word.index)
        return threads.get(word.index, ()), -1 if repair is None else repair.first, again.get(word.index)

    made = []
    for line in lines:
        pieces = []
        for run in _runs(line.words, belongs, marks):
            owners, repaired, passage = belongs(run[0])
            meant = mended[run[0].index].meant if repaired >= 0 else ""
            text = " ".join(word.text for word in run)
            timed = tuple((word.text, word.start) for word in run)
            pieces.append(Piece(run[0].index, text, owners, meant, timed, passage, marks.get(run[0].index, ())))
        made.append(Row(line.time, tuple(pieces), line.start))
    if made and after:
        made[-1] = replace(made[-1], marks=after)
    return tuple(made)


def marks_by_word(
    words: Sequence[WordView], passages: Iterable[PassageView]
) -> tuple[dict[int, tuple[PassageView, ...]], tuple[PassageView, ...]]:
    """The passages that stand before each word, and those after the last; none that lie before the first line."""
    marks: dict[int, tuple[PassageView, ...]] = {}
    after = []
    for passage in sorted(passages, key=lambda one: one.start):
        word = next((word for word in words if word.end > passage.start), None)
        if word is None:
            after.append(passage)
        elif word is not words[0] or passage.end >= word.start - NEAR_S:
            marks[word.index] = (*marks.get(word.index, ()), passage)
    return marks, tuple(after)


def _runs(
    words: Sequence[WordView],
    belongs: Callable[[WordView], object],
    marks: Mapping[int, object],
) -> Iterator[list[WordView]]:
    """Neighbours that belong to the same; a mark begins a run of its own."""
    run: list[WordView] = []
    for word in words:
        if run and (word.index in marks or belongs(word) != belongs(run[-1])):
            yield run
            run = []
        run.append(word)
    if run:
        yield run
