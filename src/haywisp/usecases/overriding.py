"""Work against a verdict that asks for the vet first: the written reason, kept as a note of the visit it is for."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import chain

from haywisp import record
from haywisp.findings import Earlier, Override, may_be_set_aside, overrides_in
from haywisp.knowledge.types import Tables
from haywisp.record.types import OVERRIDE, Entry, Visit
from haywisp.report.phrases import joined
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.basis import known_before, recorded
from haywisp.usecases.conclusions import held_of
from haywisp.usecases.deciding import allowed_of, append, check
from haywisp.usecases.entry_views import entry_view
from haywisp.usecases.errors import Refused
from haywisp.usecases.lookup import horse_of, visit_of
from haywisp.usecases.vet import first_made
from haywisp.usecases.views import EntryView


def work_against(app: App, visit_id: str, reason: str, cautions: Sequence[str] = ()) -> EntryView:
    """Keep why the work of a visit goes on although the vet should come first; all the rows that ask, unless named.

    Refused where nothing asks for the vet, where a row that asks is absolute or the vet's own, and for a reason that is
    no sentence. It holds for this visit alone.
    """
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        asking = _asking(unit, visit, tables)
        named = list(dict.fromkeys(cautions)) or asking
        _refuse_wrong(asking, named, tables)
        body = {"kind": OVERRIDE, "cautions": named, "text": " ".join(reason.split())}
        check("note", body, allowed_of(tables))
        entry = record.by_hand(visit_id, "note", body, 0.0, app.new_id, app.clock())
        append(unit, [entry])
        return entry_view(entry, (), tables)


def overrides_for(
    unit: Unit, visit: Visit, entries: Sequence[Entry], before: Sequence[Earlier], *, next_time: bool = False
) -> tuple[Override, ...]:
    """What was set aside at a visit, of what ``entries`` and those ``before`` tell; each covers what it was written on.

    ``next_time`` is for the hands-on time that the visit speaks for: once something is recorded of it that is the next
    one, and nothing is set aside for that.
    """
    own = unit.entries_of(visit.id)
    overrides = overrides_in(own)
    if not overrides or (next_time and recorded(own)):
        return ()
    told = chain(own, entries, *(visit.entries for visit in before))
    made = {entry.thread: first_made(unit, entry) for entry in told}
    return tuple(
        replace(one, known=frozenset(thread for thread, at in made.items() if at <= made[one.entry]))
        for one in overrides
    )


def _asking(unit: Unit, visit: Visit, tables: Tables) -> list[str]:
    """The rows that ask for the vet before hands are laid on, and were not set aside yet."""
    horse = horse_of(unit, visit.horse_id)
    start = known_before(unit, visit, unit.visits_of(horse.id), horse, tables)
    overrides = overrides_for(unit, visit, start.entries, start.before)
    found = held_of(
        start.entries, horse, tables, first_visit=start.first, before=start.before, overrides=overrides
    ).verdict
    return [reason.caution for reason in found.reasons if reason.verdict == "vet-first"]


def _refuse_wrong(asking: Sequence[str], named: Sequence[str], tables: Tables) -> None:
    if not asking:
        raise Refused("Nothing asks for the vet before this visit, so nothing has to be set aside. Nothing was saved.")
    never = [tables.cautions[row].name for row in asking if not may_be_set_aside(tables.cautions[row])]
    if never:
        raise Refused(
            f"No reason sets this aside: {joined(never)}. The vet comes first, and the work waits. Nothing was saved."
        )
    stray = [row for row in named if row not in asking]
    if stray:
        raise Refused(
            f"“{stray[0]}” does not ask for the vet before this visit; choose from {', '.join(asking)}. "
            "Nothing was saved."
        )
