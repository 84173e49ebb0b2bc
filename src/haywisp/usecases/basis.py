"""Which visit speaks for the next hands-on time."""

from collections.abc import Sequence

from haywisp.findings import Earlier
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, Visit
from haywisp.store.types import Unit
from haywisp.usecases.conclusions import standing
from haywisp.usecases.lookup import by_visit
from haywisp.usecases.vet import Answered, answered, is_vet_word, unlifted


def earlier(visits: Sequence[Visit], than: Visit) -> list[Visit]:
    """The visits before one, newest first; an old visit that was written up late still lies before."""
    before = [visit for visit in visits if (visit.day, visit.number) < (than.day, than.number)]
    return sorted(before, key=lambda visit: (visit.day, visit.number), reverse=True)


def basis_of(unit: Unit, visit: Visit, visits: Sequence[Visit], tables: Tables) -> tuple[Visit, Sequence[Entry]]:
    """The visit to plan from, with its entries.

    It is the visit itself; where nothing stands in it yet but an answer of the vet, the newest one before in which
    something does. What the vet has answered is left out.
    """
    entries = unit.entries_of(visit.id)
    chosen = visit, entries
    if not recorded(entries):
        others = ((before, unit.entries_of(before.id)) for before in earlier(visits, visit))
        chosen = next(((before, known) for before, known in others if recorded(known)), chosen)
    return chosen[0], unlifted(chosen[1], vet_answers(unit, visits, tables).own)


def recorded(entries: Sequence[Entry]) -> bool:
    """Whether anything stands that was done, found or decided; what a vet answered is none of it."""
    return any(not is_vet_word(entry) for entry in standing(entries))


def vet_answers(unit: Unit, visits: Sequence[Visit], tables: Tables) -> Answered:
    """What the vet said at any of these visits."""
    ids = [visit.id for visit in visits]
    return answered(unit, unit.entries_of_many(ids), visits, tables) if ids else Answered()


def before(unit: Unit, visit: Visit, visits: Sequence[Visit], tables: Tables) -> tuple[Earlier, ...]:
    """What was recorded at the visits before one, oldest first: what is neither felt again nor answered stands."""
    known = earlier(visits, visit)[::-1]
    entries = by_visit(unit.entries_of_many([each.id for each in known])) if known else {}
    lifted = vet_answers(unit, visits, tables).past
    return tuple(Earlier(each.day, unlifted(entries.get(each.id, []), lifted)) for each in known)
