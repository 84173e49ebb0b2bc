"""What every part of a unit shares: running statements on one connection, with each fault put in words."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import Any

from sqlalchemy import Connection, Select, select
from sqlalchemy.engine import CursorResult, RowMapping
from sqlalchemy.exc import DBAPIError, IntegrityError

from haywisp.store.engines import shown
from haywisp.store.errors import Busy, Conflict, StoreError, Unreachable, WrongDatabase
from haywisp.store.rows import TABLES, K, Kept, columns, from_row, to_row
from haywisp.store.storable import sound

#: Ids asked for in one statement; SQLite takes 32 766 parameters and PostgreSQL 65 535.
CHUNK = 1000


class Desk:
    """One connection and its transaction; the parts of the unit are built on it.

    After a fault the unit can't be kept any more, even when the fault is caught on the way: PostgreSQL has then
    given up the transaction, and would throw it away silently.
    """

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.failure: StoreError | None = None
        self._writing = False

    def ask(self, statement: Select[Any]) -> Sequence[RowMapping]:
        """The rows of a query."""
        return self._run("question", statement).mappings().all()

    def find(self, kind: type[K], statement: Select[Any]) -> list[K]:
        """The rows of a query over :func:`haywisp.store.rows.columns`, as dataclasses."""
        return [from_row(kind, row) for row in self.ask(statement)]

    def first(self, kind: type[K], statement: Select[Any]) -> K | None:
        """The first of them, if any."""
        return next(iter(self.find(kind, statement.limit(1))), None)

    def by_id(self, kind: type[K], row_id: str) -> K | None:
        """The one with this id."""
        found = columns(kind)
        return self.first(kind, select(*found).where(TABLES[kind].c.id == row_id))

    def add(self, kept: Sequence[Kept]) -> None:
        """Insert things of one kind."""
        if kept:
            rows = [to_row(one) for one in kept]
            table = TABLES[type(kept[0])]
            self.write(table.name, table.insert(), rows)

    def replace(self, kept: Kept, only: Sequence[str] = ()) -> None:
        """Put the fields of one row, or only those named, in place of the old ones."""
        table = TABLES[type(kept)]
        row = to_row(kept)
        values = {name: row[name] for name in only} or row
        if self.write(table.name, table.update().where(table.c.id == kept.id).values(values)).rowcount != 1:
            raise self._fail(Conflict(table.name, "it isn't in the record"))

    def remove(self, kind: type[Kept], row_id: str) -> None:
        """Take one row out of a table that may lose rows."""
        table = TABLES[kind]
        if self.write(table.name, table.delete().where(table.c.id == sound(row_id))).rowcount != 1:
            raise self._fail(Conflict(table.name.replace("_", " "), "it isn't in the record"))

    def write(self, what: str, statement: Any, rows: list[dict[str, Any]] | None = None) -> CursorResult[Any]:
        """Run a statement that changes something."""
        self.begin_writing()
        return self._run(what, statement, rows)

    def begin_writing(self) -> None:
        """Take SQLite's one place for writing, waiting for it if need be; PostgreSQL locks row by row."""
        if not self._writing and self.connection.dialect.name == "sqlite":
            try:
                self.connection.exec_driver_sql("BEGIN IMMEDIATE")
            except DBAPIError as fault:
                raise self._fail(translated(fault, "record", self.connection)) from fault
        self._writing = True

    def _run(self, what: str, statement: Any, rows: list[dict[str, Any]] | None = None) -> CursorResult[Any]:
        try:
            return self.connection.execute(statement, rows)
        except DBAPIError as fault:
            raise self._fail(translated(fault, what, self.connection)) from fault

    def _fail(self, failure: StoreError) -> StoreError:
        self.failure = failure
        return failure


def chunks(ids: Iterable[str]) -> Iterator[list[str]]:
    """The ids without repetitions, in portions that one statement takes."""
    rest = iter(dict.fromkeys(ids))
    while portion := list(islice(rest, CHUNK)):
        yield portion


def translated(fault: DBAPIError, what: str, connection: Connection) -> StoreError:
    """The driver's fault as one that a person can act on."""
    return in_words(fault, what, shown(connection.engine.url))


def in_words(fault: DBAPIError, what: str, where: str) -> StoreError:
    """Sort a driver's fault by its kind and, for SQLite's, by its text."""
    said = str(fault.orig).strip()
    lower = said.lower()
    if isinstance(fault, IntegrityError):
        return Conflict(what, constraint_in_words(lower))
    if "database is locked" in lower or "lock timeout" in lower:
        return Busy()
    if "append-only" in lower:
        return Conflict(what, "what was recorded may be superseded but never overwritten")
    if "no such table" in lower or ("relation" in lower and "does not exist" in lower):
        return WrongDatabase(where, "its tables haven't been made", "Run the migration first (Store.migrate).")
    if "not a database" in lower or "malformed" in lower:
        return WrongDatabase(where, "the file isn't a database, or is damaged", "Choose another, or restore a backup.")
    return Unreachable(where, said.splitlines()[0] if said else type(fault.orig).__name__)


def constraint_in_words(said: str) -> str:
    """Which kind of promise was about to be broken."""
    if "foreign key" in said:
        return "something that it belongs to isn't in the record"
    if "unique" in said or "duplicate" in said:
        return "its id is in the record already"
    if "append-only" in said:
        return "what was recorded may be superseded but never overwritten"
    return "one of its values is missing or out of range"
