"""The transcript as pieces: runs of words that made the same entries, so that words and entries point at each other."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from haywisp.usecases.views import EntryView, LineView, RepairView, WordView


@dataclass(frozen=True, slots=True)
class Piece:
    """Words ``first`` onwards that made the entries ``threads``; ``meant`` is "" unless they were mended."""

    first: int
    text: str
    threads: tuple[str, ...]
    meant: str


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the transcript."""

    time: str
    pieces: tuple[Piece, ...]


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


def rows(lines: Sequence[LineView], entries: Sequence[EntryView], repairs: Sequence[RepairView]) -> tuple[Row, ...]:
    """The transcript's lines, each cut wherever the entries or the repair that its words belong to change."""
    threads, mended = threads_by_word(entries), repairs_by_word(repairs)

    def belongs(word: WordView) -> tuple[tuple[str, ...], int]:
        repair = mended.get(word.index)
        return threads.get(word.index, ()), -1 if repair is None else repair.first

    made = []
    for line in lines:
        pieces = []
        for (owners, repaired), run in groupby(line.words, key=belongs):
            words = list(run)
            text = " ".join(word.text for word in words)
            meant = mended[words[0].index].meant if repaired >= 0 else ""
            pieces.append(Piece(words[0].index, text, owners, meant))
        made.append(Row(line.time, tuple(pieces)))
    return tuple(made)
