"""What is known for a hands-on time: the visit that speaks for it, and what still stands of the visits before."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from haywisp.findings import OF_THE_DAY, Earlier
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, Horse, Visit
from haywisp.store.types import Unit
from haywisp.usecases.asked import answers, taken_back
from haywisp.usecases.conclusions import standing
from haywisp.usecases.lookup import by_visit
from haywisp.usecases.vet import Answered, answered, is_vet_word, unlifted


@dataclass(frozen=True, slots=True)
class Basis:
    """The visit to plan from, with its entries that speak for the hands-on time, and what was ``before`` it.

    ``first`` is whether nobody has worked on the horse yet: no bout stands in any visit until now.
    """

    visit: Visit
    entries: Sequence[Entry]
    before: tuple[Earlier, ...]
    first: bool


def earlier(visits: Sequence[Visit], than: Visit) -> list[Visit]:
    """The visits before one, newest first; an old visit that was written up late still lies before."""
    before = [visit for visit in visits if (visit.day, visit.number) < (than.day, than.number)]
    return sorted(before, key=lambda visit: (visit.day, visit.number), reverse=True)


def basis_of(unit: Unit, visit: Visit, visits: Sequence[Visit], horse: Horse, tables: Tables) -> Basis:
    """What is known for the hands-on time after a visit.

    It is what the visit itself recorded; where nothing stands in it yet but what was told before touching,
    :func:`known_before`. What the vet has answered is left out.
    """
    own = unit.entries_of(visit.id)
    if not recorded(own):
        return known_before(unit, visit, visits, horse, tables)
    told = _told_until(unit, visit, visits, horse, tables)
    return Basis(visit, unlifted(for_next(own), told.vet.own), told.earlier(), nobody_worked(own) and told.first)


def known_before(unit: Unit, visit: Visit, visits: Sequence[Visit], horse: Horse, tables: Tables) -> Basis:
    """What was known before hands were laid on at a visit: what it was told beforehand, and the visits before it.

    The visit given back is the newest before it in which something was recorded, or itself where there is none. What
    was told at visits between the two, where nothing was then done, is among what stands from before.
    """
    told = _told_until(unit, visit, visits, horse, tables)
    own = [entry for entry in told.entries[visit.id] if beforehand(entry)]
    basis = next((one for one in told.past if recorded(told.entries.get(one.id, ()))), None)
    if basis is None:
        return Basis(visit, unlifted(own, told.vet.own), told.earlier(), told.first)
    again = {entry.body["flag"] for entry in answers(own)}
    known = [e for e in for_next(told.entries[basis.id]) if e.part != "flag" or e.body["flag"] not in again]
    entries = unlifted([*known, *own], told.vet.own | told.taken_back)
    return Basis(basis, entries, told.earlier(but=basis), told.first)


def before(unit: Unit, visit: Visit, visits: Sequence[Visit], horse: Horse, tables: Tables) -> tuple[Earlier, ...]:
    """What was recorded at the visits before one, oldest first: what is neither felt again nor answered stands."""
    return _told_until(unit, visit, visits, horse, tables).earlier()


@dataclass(frozen=True, slots=True)
class _Told:
    """The visits before one, newest first, the entries of all of them and its own, and what was answered of these."""

    past: Sequence[Visit]
    entries: Mapping[str, Sequence[Entry]]
    vet: Answered
    taken_back: frozenset[str]

    def earlier(self, but: Visit | None = None) -> tuple[Earlier, ...]:
        lifted = self.vet.past | self.taken_back
        visits = [visit for visit in reversed(self.past) if visit != but]
        return tuple(Earlier(visit.day, unlifted(self.entries.get(visit.id, ()), lifted)) for visit in visits)

    @property
    def first(self) -> bool:
        return all(nobody_worked(self.entries.get(visit.id, ())) for visit in self.past)


def _told_until(unit: Unit, visit: Visit, visits: Sequence[Visit], horse: Horse, tables: Tables) -> _Told:
    until = [visit, *earlier(visits, visit)]
    entries = {visit.id: [], **by_visit(unit.entries_of_many([one.id for one in until]))}
    back = taken_back(until, entries, horse, tables)
    return _Told(until[1:], entries, vet_answers(unit, visits, tables), back)


def recorded(entries: Sequence[Entry]) -> bool:
    """Whether anything stands that was done, found or decided; what was told beforehand is none of it."""
    return any(not beforehand(entry) for entry in standing(entries))


BEFOREHAND = frozenset({"flag", "note", "reading"})


def beforehand(entry: Entry) -> bool:
    """Whether an entry is of what was asked and read before touching: red flags, notes and readings, of no moment."""
    return is_vet_word(entry) or (
        entry.part in {"flag", "note", "reading"} and entry.first_word < 0 and not entry.time_s
    )


def for_next(entries: Sequence[Entry]) -> list[Entry]:
    """The entries that still say something at the next visit."""
    return [entry for entry in entries if entry.part != "flag" or entry.body.get("flag") not in OF_THE_DAY]


def vet_answers(unit: Unit, visits: Sequence[Visit], tables: Tables) -> Answered:
    """What the vet said at any of these visits."""
    ids = [visit.id for visit in visits]
    return answered(unit, unit.entries_of_many(ids), visits, tables) if ids else Answered()


def nobody_worked(entries: Sequence[Entry]) -> bool:
    """Whether no bout stands among the entries of the visits until now: the next hands-on time is the first one."""
    return not any(entry.part == "bout" for entry in standing(entries))
