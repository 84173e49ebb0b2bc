"""Visits, and the narrations that were heard at them."""

from collections.abc import Sequence
from datetime import date

from sqlalchemy import func, select

from haywisp.record.types import StoredNarration, Visit
from haywisp.store.desk import Desk, chunks
from haywisp.store.rows import columns
from haywisp.store.tables import narration, visit


class Visits(Desk):
    """The part of the unit that knows when the practice was, or will be, at a horse."""

    def add_visit(self, visit: Visit) -> None:
        """Keep a new visit."""
        self.add([visit])

    def save_visit(self, visit: Visit) -> None:
        """Put a visit's details in place of the old ones."""
        self.replace(visit)

    def visit(self, visit_id: str) -> Visit | None:
        """The visit with this id."""
        return self.by_id(Visit, visit_id)

    def visits_of(self, horse_id: str) -> Sequence[Visit]:
        """All visits to one horse, newest first."""
        query = select(*columns(Visit)).where(visit.c.horse_id == horse_id)
        return self.find(Visit, query.order_by(visit.c.day.desc(), visit.c.number.desc(), visit.c.id.desc()))

    def visits_between(self, first: date, last: date) -> Sequence[Visit]:
        """Visits of all horses from ``first`` to ``last``, both included, oldest first."""
        query = select(*columns(Visit)).where(visit.c.day.between(first, last))
        return self.find(Visit, query.order_by(visit.c.day, visit.c.id))

    def visits_by_status(self, status: str, limit: int = 100) -> Sequence[Visit]:
        """Visits with a status, newest first."""
        query = select(*columns(Visit)).where(visit.c.status == status)
        return self.find(Visit, query.order_by(visit.c.day.desc(), visit.c.id).limit(max(limit, 0)))

    def last_visit_days(self, horse_ids: Sequence[str]) -> dict[str, date]:
        """The day of each horse's newest visit that took place."""
        newest = func.max(visit.c.day).label("newest")
        days: dict[str, date] = {}
        for ids in chunks(horse_ids):
            query = select(visit.c.horse_id, newest).where(visit.c.horse_id.in_(ids), visit.c.status != "planned")
            days |= {row["horse_id"]: row["newest"] for row in self.ask(query.group_by(visit.c.horse_id))}
        return days

    def add_narration(self, narration: StoredNarration) -> None:
        """Keep a narration as it came; an earlier one of the same visit stays."""
        self.add([narration])

    def narration_of(self, visit_id: str) -> StoredNarration | None:
        """The newest narration of a visit."""
        query = select(*columns(StoredNarration)).where(narration.c.visit_id == visit_id)
        return self.first(StoredNarration, query.order_by(narration.c.added_at.desc(), narration.c.seq.desc()))
