"""A long record in pieces: which entries a page shows, and the part of the session that they belong to."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.usecases.views import EntryView, LineView, QuestionView

# An hour's session has about a hundred entries, so an ordinary one is never cut.
ENTRIES = 200
QUESTIONS = 40


@dataclass(frozen=True, slots=True)
class Piece:
    """Entries ``first`` (included) to ``last`` (excluded) of ``total``, and the seconds of the session they cover.

    The whole record is one piece when it is short. ``begins`` is minus infinity in the first piece and ``ends``
    infinity in the last, so that every word of the transcript is in one.
    """

    first: int
    last: int
    total: int
    begins: float
    ends: float
    before: int | None
    after: int | None

    @property
    def whole(self) -> bool:
        """Whether there is nothing else."""
        return self.before is None and self.after is None


def piece_of(entries: Sequence[EntryView], *, start: int = 0, thread: str = "", size: int = ENTRIES) -> Piece:
    """The piece that entry number ``start`` is in or, where it is given and there, the entry ``thread``."""
    total = len(entries)
    place = next((number for number, entry in enumerate(entries) if thread and entry.thread == thread), start)
    first = max(0, min(place, total - 1)) // size * size
    last = min(first + size, total)
    return Piece(
        first=first,
        last=last,
        total=total,
        begins=entries[first].time_s if first else float("-inf"),
        ends=entries[last].time_s if last < total else float("inf"),
        before=first - size if first else None,
        after=last if last < total else None,
    )


def lines_in(lines: Sequence[LineView], piece: Piece) -> tuple[LineView, ...]:
    """The lines of the transcript that lie in a piece, whole, so that one on the border is in both."""
    return tuple(line for line in lines if line.end >= piece.begins and line.start <= piece.ends)


def questions_first(questions: Sequence[QuestionView], shown: Sequence[EntryView]) -> tuple[QuestionView, ...]:
    """As many questions as a person looks at in one go, those about the entries shown before all others."""
    here = {entry.thread for entry in shown}
    return tuple(sorted(questions, key=lambda question: question.thread not in here)[:QUESTIONS])
