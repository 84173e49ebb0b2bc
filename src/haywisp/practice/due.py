"""Which horses are due for a return that was decided on and not booked."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from haywisp.practice.types import Due
from haywisp.record.types import Entry, Visit

#: Kinds of action that decide on a return.
RETURNS = frozenset({"recheck"})


def due(
    visits: Sequence[Visit],
    entries: Iterable[Entry],
    today: date,
    *,
    kinds: frozenset[str] = RETURNS,
    within_days: int = 180,
) -> tuple[Due, ...]:
    """Horses whose newest visit decided on a return, the longest wait first.

    ``entries`` are the newest versions at least of those visits. A horse with any visit from ``today`` on is looked
    after already, and a decision older than ``within_days`` is history. A decision that was rejected doesn't count;
    one that nobody has reviewed yet does.
    """
    booked = {visit.horse_id for visit in visits if visit.day >= today}
    decided = {
        entry.visit_id: entry
        for entry in entries
        if entry.part == "action" and entry.body.get("kind") in kinds and entry.status != "rejected"
    }
    found = [
        Due(horse_id, visit, decided[visit.id], (today - visit.day).days)
        for horse_id, visit in _newest(visits, today).items()
        if visit.id in decided and horse_id not in booked and (today - visit.day).days <= within_days
    ]
    return tuple(sorted(found, key=lambda one: (-one.days_ago, one.horse_id)))


def _newest(visits: Sequence[Visit], today: date) -> Mapping[str, Visit]:
    """Each horse's newest visit that took place before today."""
    newest: dict[str, Visit] = {}
    for visit in sorted(visits, key=lambda one: (one.day, one.number)):
        if visit.day < today and visit.status != "planned":
            newest[visit.horse_id] = visit
    return newest
