"""Rows fetched or refused: the use cases' own way to ask the unit of work for something that must be there."""

from collections.abc import Sequence

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Entry, Horse, StoredQuestion, Visit
from haywisp.store.types import Unit
from haywisp.usecases.errors import NotFound


def owner_of(unit: Unit, owner_id: str) -> Owner:
    found = unit.owner(owner_id)
    if found is None:
        raise NotFound("owner", owner_id, "Add the owner first, or choose one from the list.")
    return found


def yard_of(unit: Unit, yard_id: str) -> Yard:
    found = unit.yard(yard_id)
    if found is None:
        raise NotFound("yard", yard_id, "Add the yard first, or choose one from the list.")
    return found


def horse_of(unit: Unit, horse_id: str) -> Horse:
    found = unit.horse(horse_id)
    if found is None:
        raise NotFound("horse", horse_id, "The list of horses has them all.")
    return found


def visit_of(unit: Unit, visit_id: str) -> Visit:
    found = unit.visit(visit_id)
    if found is None:
        raise NotFound("visit", visit_id, "Each horse's page lists its visits.")
    return found


def question_of(unit: Unit, question_id: str) -> StoredQuestion:
    found = unit.question(question_id)
    if found is None:
        raise NotFound("question", question_id, "It may belong to a narration that was replaced.")
    return found


def newest_of(unit: Unit, thread: str) -> Entry:
    """The newest version of a thread."""
    versions = unit.thread(thread)
    if not versions:
        raise NotFound("entry", thread, "Look at the visit again: it lists all its entries.")
    return versions[-1]


def by_visit(entries: Sequence[Entry]) -> dict[str, list[Entry]]:
    """Entries grouped by their visit, order kept."""
    groups: dict[str, list[Entry]] = {}
    for entry in entries:
        groups.setdefault(entry.visit_id, []).append(entry)
    return groups
