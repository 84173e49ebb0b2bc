"""The day's round: its visits by yard, in the order to drive."""

from collections.abc import Sequence
from datetime import date

from haywisp.knowledge.types import Tables
from haywisp.practice import round_of
from haywisp.practice.types import Stop
from haywisp.record.types import Visit
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.views import RoundPage, StopView, VisitRow
from haywisp.usecases.visit_rows import visit_rows

NO_YARD = "Yard not known"


def round_for(app: App, day: date) -> RoundPage:
    """The visits of a day by yard, the yards in isolation last."""
    with app.units() as unit:
        return round_in(unit, unit.visits_between(day, day), day, app.tables())


def round_in(unit: Unit, visits: Sequence[Visit], day: date, tables: Tables) -> RoundPage:
    """The same within a unit of work, from visits that were fetched already; yards and horses by their names."""
    rows = {row.id: row for row in visit_rows(unit, visits, tables)}
    known = [visit for visit in visits if visit.id in rows]
    known.sort(key=lambda visit: (rows[visit.id].yard.name.casefold(), rows[visit.id].horse.name.casefold()))
    horses = {visit.horse_id: horse for visit in known if (horse := unit.horse(visit.horse_id)) is not None}
    planned = round_of(known, horses, {yard.id: yard for yard in unit.yards()})
    stops = tuple(_stop(stop, rows) for stop in planned.stops)
    return RoundPage(day=day, stops=stops, cautions=planned.cautions)


def _stop(stop: Stop, rows: dict[str, VisitRow]) -> StopView:
    yard = stop.yard
    return StopView(
        name=yard.name if yard else NO_YARD,
        address=" ".join(yard.address.split()) if yard else "",
        isolation=bool(yard and yard.isolation),
        minutes=stop.minutes,
        visits=tuple(rows[visit.id] for visit in stop.visits),
    )
