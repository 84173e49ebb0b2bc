"""The day at a glance."""

from collections.abc import Sequence
from datetime import date, timedelta

from haywisp.knowledge.types import Tables
from haywisp.practice import due
from haywisp.practice.types import Due
from haywisp.record.types import Visit
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.rounds import round_in
from haywisp.usecases.views import DueRow, TodayPage, VisitRow
from haywisp.usecases.visit_rows import visit_rows
from haywisp.usecases.wording import label

RECENT_DAYS = 14
# A recheck nobody came back to in half a year is history, not a diary entry.
DUE_DAYS = 180


def today(app: App) -> TodayPage:
    """Visits of today, visits waiting for review, horses that are due again, and the other visits of two weeks."""
    tables = app.tables()
    day = app.clock().date()
    with app.units() as unit:
        lately = list(unit.visits_between(day - timedelta(days=DUE_DAYS), day))
        ahead = list(unit.visits_between(day + timedelta(days=1), day + timedelta(days=DUE_DAYS)))
        waiting = sorted(unit.visits_by_status("heard"), key=lambda visit: visit.day, reverse=True)
        since = day - timedelta(days=RECENT_DAYS)
        reviewing = {visit.id for visit in waiting}
        recent = [visit for visit in reversed(lately) if since <= visit.day < day and visit.id not in reviewing]
        visits = [visit for visit in lately if visit.day == day]
        return TodayPage(
            day=day,
            visits=visit_rows(unit, visits, tables),
            waiting=visit_rows(unit, waiting, tables),
            due=due_rows(unit, [*lately, *ahead], day, tables),
            recent=visit_rows(unit, recent, tables),
            horses=unit.count_horses(),
            round=round_in(unit, visits, day, tables),
        )


def due_rows(unit: Unit, visits: Sequence[Visit], day: date, tables: Tables) -> tuple[DueRow, ...]:
    """Horses whose newest visit decided on a return that isn't booked, the longest wait first."""
    newest = {visit.horse_id: visit.id for visit in visits if visit.day < day and visit.status != "planned"}
    returns = due(visits, unit.entries_of_many(list(newest.values())), day)
    rows = visit_rows(unit, [one.visit for one in returns], tables)
    return tuple(_due_row(row, one, tables) for row, one in zip(rows, returns, strict=True))


def _due_row(row: VisitRow, one: Due, tables: Tables) -> DueRow:
    kind = str(one.entry.body.get("kind", ""))
    known = tables.actions.get(kind)
    return DueRow(
        horse=row.horse,
        owner=row.owner,
        yard=row.yard,
        visit_id=row.id,
        decided=row.day,
        days_ago=one.days_ago,
        wording=known.wording if known is not None else label(tables.actions, kind),
    )
