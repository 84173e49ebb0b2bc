"""Which visit speaks for the next hands-on time."""

from collections.abc import Sequence

from haywisp.findings import Earlier
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, Visit
from haywisp.store.types import Unit
from haywisp.usecases.conclusions import standing
from haywisp.usecases.lookup import by_visit
from haywisp.usecases.vet import Answered, answered, is_vet_word, unlifted

# Over by the next visit, where they are asked again; every other red flag waits for its answer.
OF_THE_DAY = frozenset({"hard-feed-recently", "just-worked", "vaccinated-recently"})


def earlier(visits: Sequence[Visit], than: Visit) -> list[Visit]:
    """The visits before one, newest first; an old visit that was written up late still lies before."""
    before = [visit for visit in visits if (visit.day, visit.number) < (than.day, than.number)]
    return sorted(before, key=lambda visit: (visit.day, visit.number), reverse=True)


def basis_of(unit: Unit, visit: Visit, visits: Sequence[Visit], tables: Tables) -> tuple[Visit, Sequence[Entry]]:
    """The visit to plan from, with the entries that speak for the next hands-on time.

    It is the visit itself; where nothing stands in it yet but what was told before touching, :func:`known_before`. What
    the vet has answered is left out.
    """
    entries = unit.entries_of(visit.id)
    if not recorded(entries):
        return known_before(unit, visit, visits, tables)
    return visit, unlifted(for_next(entries), vet_answers(unit, visits, tables).own)


def known_before(unit: Unit, visit: Visit, visits: Sequence[Visit], tables: Tables) -> tuple[Visit, Sequence[Entry]]:
    """What was known before hands were laid on at a visit: what it was told beforehand, and the newest visit before it.

    The visit given back is the one before, or the visit itself where there is none in which anything stands.
    """
    told = [entry for entry in unit.entries_of(visit.id) if beforehand(entry)]
    others = ((other, unit.entries_of(other.id)) for other in earlier(visits, visit))
    basis, known = next(((other, entries) for other, entries in others if recorded(entries)), (visit, []))
    return basis, unlifted([*for_next(known), *told], vet_answers(unit, visits, tables).own)


def recorded(entries: Sequence[Entry]) -> bool:
    """Whether anything stands that was done, found or decided; what was told beforehand is none of it."""
    return any(not beforehand(entry) for entry in standing(entries))


def beforehand(entry: Entry) -> bool:
    """Whether an entry is of what was asked and told before touching: red flags and notes by hand, of no moment."""
    return is_vet_word(entry) or (entry.part in {"flag", "note"} and entry.first_word < 0 and not entry.time_s)


def for_next(entries: Sequence[Entry]) -> list[Entry]:
    """The entries that still say something at the next visit."""
    return [entry for entry in entries if entry.part != "flag" or entry.body.get("flag") not in OF_THE_DAY]


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
