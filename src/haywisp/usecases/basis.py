"""Which visit speaks for the next hands-on time."""

from collections.abc import Sequence

from haywisp.findings import Earlier
from haywisp.record.types import Entry, Visit
from haywisp.store.types import Unit
from haywisp.usecases.conclusions import standing
from haywisp.usecases.lookup import by_visit


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


def before(unit: Unit, visit: Visit, visits: Sequence[Visit]) -> tuple[Earlier, ...]:
    """What was recorded at the visits before one, oldest first: what is not felt again still stands."""
    known = earlier(visits, visit)[::-1]
    entries = by_visit(unit.entries_of_many([each.id for each in known])) if known else {}
    return tuple(Earlier(each.day, entries.get(each.id, [])) for each in known)
