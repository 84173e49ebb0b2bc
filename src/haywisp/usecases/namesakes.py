"""What is kept already under a name that is about to be added, so that nothing is kept twice unnoticed."""

from collections.abc import Sequence
from typing import TypeVar

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse
from haywisp.store.types import Unit
from haywisp.usecases.views import Namesakes, Ref

Row = TypeVar("Row", Horse, Owner, Yard)
EVERYTHING = 1_000_000


def owners_called(unit: Unit, name: str) -> Namesakes:
    found = _called(name, unit.owners())
    return Namesakes("owner", name, tuple(Ref(row.id, _with(row.name, row.phone)) for row in found))


def yards_called(unit: Unit, name: str) -> Namesakes:
    found = _called(name, unit.yards())
    return Namesakes("yard", name, tuple(Ref(row.id, _with(row.name, row.address)) for row in found))


def horses_called(unit: Unit, name: str) -> Namesakes:
    """Horses of that name with their owner, whose name tells them apart."""
    found = _called(name, unit.horses(limit=EVERYTHING))
    owners = {owner.id: owner.name for owner in unit.owners()} if found else {}
    return Namesakes("horse", name, tuple(Ref(row.id, _with(row.name, owners.get(row.owner_id, ""))) for row in found))


def _called(name: str, rows: Sequence[Row]) -> list[Row]:
    wanted = " ".join(name.split()).casefold()
    return [row for row in rows if wanted and row.name.casefold() == wanted]


def _with(name: str, more: str) -> str:
    more = " ".join(more.split())
    return f"{name} ({more})" if more else name
