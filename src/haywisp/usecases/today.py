"""The day at a glance."""

from collections.abc import Sequence
from datetime import date, timedelta

from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, Visit
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.conclusions import standing
from haywisp.usecases.lookup import by_visit
from haywisp.usecases.views import DueRow, TodayPage
from haywisp.usecases.visit_rows import visit_rows
from haywisp.usecases.wording import label

RECENT_DAYS = 14
# A recheck nobody came back to in half a year is history, not a diary entry.
DUE_DAYS = 180
RECHECK = "recheck"


def today(app: App) -> TodayPage:
    """Visits of today, visits waiting for review, horses that are due again, and the visits of the last two weeks."""
    tables = app.tables()
    day = app.clock().date()
    with app.units() as unit:
        lately = list(unit.visits_between(day - timedelta(days=DUE_DAYS), day))
        ahead = list(unit.visits_between(day + timedelta(days=1), day + timedelta(days=DUE_DAYS)))
        waiting = sorted(unit.visits_by_status("heard"), key=lambda visit: visit.day, reverse=True)
        since = day - timedelta(days=RECENT_DAYS)
        recent = [visit for visit in reversed(lately) if since <= visit.day < day]
        return TodayPage(
            day=day,
            visits=visit_rows(unit, [visit for visit in lately if visit.day == day], tables),
            waiting=visit_rows(unit, waiting, tables),
            due=due_rows(unit, lately, ahead, day, tables),
            recent=visit_rows(unit, recent, tables),
            horses=len(unit.horses(limit=10_000)),
        )


def due_rows(
    unit: Unit, lately: Sequence[Visit], ahead: Sequence[Visit], day: date, tables: Tables
) -> tuple[DueRow, ...]:
    """Horses whose newest past visit decided on a return and that have no visit from today on, longest wait first."""
    booked = {visit.horse_id for visit in (*lately, *ahead) if visit.day >= day}
    newest = {visit.horse_id: visit for visit in lately if visit.horse_id not in booked}
    if not newest:
        return ()
    entries = by_visit(unit.entries_of_many([visit.id for visit in newest.values()]))
    asked = {visit_id: action for visit_id, group in entries.items() if (action := _recheck(group)) is not None}
    due = sorted((visit for visit in newest.values() if visit.id in asked), key=lambda visit: visit.day)
    rows = []
    for row in visit_rows(unit, due, tables):
        kind = str(asked[row.id].body["kind"])
        known = tables.actions.get(kind)
        rows.append(
            DueRow(
                horse=row.horse,
                owner=row.owner,
                yard=row.yard,
                visit_id=row.id,
                decided=row.day,
                days_ago=(day - row.day).days,
                wording=known.wording if known is not None else label(tables.actions, kind),
            )
        )
    return tuple(rows)


def _recheck(entries: Sequence[Entry]) -> Entry | None:
    wanted = (entry for entry in standing(entries) if entry.part == "action" and entry.body.get("kind") == RECHECK)
    return next(wanted, None)
