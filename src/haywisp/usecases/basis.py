"""Which visit speaks for the next hands-on time."""

from collections.abc import Sequence
from datetime import date

from haywisp.record.types import Entry, Visit
from haywisp.store.types import Unit
from haywisp.usecases.conclusions import standing


def earlier(visits: Sequence[Visit], than: Visit) -> list[Visit]:
    """The visits before one, newest first; an old visit that was written up late still lies before."""
    before = [visit for visit in visits if (visit.day, visit.number) < (than.day, than.number)]
    return sorted(before, key=lambda visit: (visit.day, visit.number), reverse=True)


def basis_of(unit: Unit, visit: Visit, visits: Sequence[Visit]) -> tuple[Visit, Sequence[Entry]]:
    """The visit to plan from, with its entries.

    It is the visit itself; where nothing stands in it yet, the newest one before in which something does.
    """
    entries = unit.entries_of(visit.id)
    if standing(entries):
        return visit, entries
    for before in earlier(visits, visit):
        known = unit.entries_of(before.id)
        if standing(known):
            return before, known
    return visit, entries


def day_words(day: date) -> str:
    """``4 March 2026``."""
    return f"{day.day} {day:%B %Y}"
