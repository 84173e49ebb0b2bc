"""What the vet answered: kept as a note of the visit, and what it lifts.

An answer that bodywork may go on lifts what was asked of the vet before it: the referral, and red flags that ask for a
vet first. Rows of the gate that are absolute are not lifted where they were recorded; they only are not carried on.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from haywisp import record
from haywisp.findings import facts_from_entries, gate
from haywisp.knowledge.types import Caution, Tables
from haywisp.record.types import VET_AGREES, VET_SAYS_WAIT, Entry, Visit
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.deciding import allowed_of, append, check
from haywisp.usecases.entry_views import entry_view
from haywisp.usecases.lookup import visit_of
from haywisp.usecases.views import EntryView, VetWord

ASKS_VET = "refer-vet"
VET_WORDS = (VET_AGREES, VET_SAYS_WAIT)


@dataclass(frozen=True, slots=True)
class Answered:
    """What the vet said of one horse, oldest first, and the threads that the newest answer lifts.

    ``own`` are lifted where they were recorded, and ``past`` (which holds them too) are not carried to later visits.
    """

    words: tuple[VetWord, ...] = ()
    own: frozenset[str] = frozenset()
    past: frozenset[str] = frozenset()


def vet_said(app: App, visit_id: str, text: str, *, agrees: bool = True) -> EntryView:
    """Keep what the vet answered; ``agrees`` is whether bodywork may go on."""
    tables = app.tables()
    body = {"kind": VET_AGREES if agrees else VET_SAYS_WAIT, "text": " ".join(text.split())}
    check("note", body, allowed_of(tables))
    with app.units() as unit:
        visit_of(unit, visit_id)
        entry = record.by_hand(visit_id, "note", body, 0.0, app.new_id, app.clock())
        append(unit, [entry])
        return entry_view(entry, (), tables)


def is_vet_word(entry: Entry) -> bool:
    """Whether an entry is an answer of the vet."""
    return entry.part == "note" and entry.body.get("kind") in VET_WORDS


def answered(unit: Unit, entries: Iterable[Entry], visits: Sequence[Visit], tables: Tables) -> Answered:
    """What the vet said among the entries of a horse's visits, and what that lifts; the newest answer counts."""
    known = [entry for entry in entries if entry.status != "rejected"]
    days = {visit.id: visit.day for visit in visits}
    told = sorted(((first_made(unit, one), one) for one in known if is_vet_word(one)), key=lambda pair: pair[0])
    words = tuple(_word(at, one, days) for at, one in told)
    if not told or not words[-1].agrees:
        return Answered(words)
    newest = told[-1][0]
    past = frozenset(one.thread for one in known if _asks(one, tables) and first_made(unit, one) <= newest)
    return Answered(words, past - _absolute(known, tables), past)


def unlifted(entries: Sequence[Entry], threads: frozenset[str]) -> list[Entry]:
    """The entries that still count for the gate."""
    return [entry for entry in entries if entry.thread not in threads]


def first_made(unit: Unit, entry: Entry) -> datetime:
    """When an entry was first made: deciding on it later doesn't ask again."""
    return entry.made_at if entry.version == 1 else unit.thread(entry.thread)[0].made_at


def _word(at: datetime, entry: Entry, days: dict[str, date]) -> VetWord:
    agrees = entry.body.get("kind") == VET_AGREES
    return VetWord(entry.visit_id, days.get(entry.visit_id, at.date()), at.date(), str(entry.body["text"]), agrees)


def _asks(entry: Entry, tables: Tables) -> bool:
    """Whether an entry asks for the vet and nothing else."""
    if entry.part == "action":
        return entry.body.get("kind") == ASKS_VET
    if entry.part == "note":
        return entry.body.get("kind") == VET_SAYS_WAIT
    verdicts = {row.verdict for row in _cautions_of(entry, tables)} if entry.part == "flag" else set()
    return verdicts == {"vet-first"}


def _absolute(entries: Sequence[Entry], tables: Tables) -> frozenset[str]:
    """The threads that raise an absolute row, alone or with what was found at the same visit."""
    by_visit: dict[str, list[Entry]] = {}
    for entry in entries:
        by_visit.setdefault(entry.visit_id, []).append(entry)
    verdicts = [gate(facts_from_entries(told), tables) for told in by_visit.values()]
    reasons = [reason for verdict in verdicts for reason in verdict.reasons if reason.absolute]
    return frozenset(fact.entry for reason in reasons for fact in reason.facts)


def _cautions_of(entry: Entry, tables: Tables) -> list[Caution]:
    flag = entry.body.get("flag")
    return [
        row
        for row in tables.cautions.values()
        if any(trigger.kind == "flag" and trigger.id == flag for trigger in row.triggers)
    ]
