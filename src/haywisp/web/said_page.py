"""What the page of what was said shows besides the use case's view: order, quotes, progress, the drawing."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.usecases.views import EntryView, SaidPage
from haywisp.web.timeline import draw
from haywisp.web.words import quote, rows


@dataclass(frozen=True, slots=True)
class Looked:
    """How many of the entries someone has decided on."""

    done: int
    total: int


def entries_in_time(view: SaidPage) -> tuple[EntryView, ...]:
    """Entries that stand and rejected ones together, so that an entry keeps its place whatever is decided on it."""
    return tuple(
        sorted((*view.entries, *view.rejected), key=lambda entry: (entry.time_s, entry.first_word, entry.thread))
    )


def looked(entries: Sequence[EntryView]) -> Looked:
    """``12 of 34 looked at``."""
    return Looked(sum(entry.status != "proposed" for entry in entries), len(entries))


def quotes_of(view: SaidPage, entries: Sequence[EntryView]) -> dict[str, str]:
    """The words behind each entry by its thread, and behind each question by ``question-`` and its id."""
    quotes = {entry.thread: quote(view.words, entry) for entry in entries}
    return quotes | {f"question-{question.id}": quote(view.words, question) for question in view.questions}


def review_values(view: SaidPage) -> dict[str, object]:
    """What the review's own part of the page needs."""
    entries = entries_in_time(view)
    return {"view": view, "entries": entries, "looked": looked(entries), "quotes": quotes_of(view, entries)}


def page_values(view: SaidPage) -> dict[str, object]:
    """What the whole page needs."""
    values = review_values(view)
    return values | {
        "rows": rows(view.lines, view.entries, view.repairs),
        "drawing": draw(view.by_region),
    }
