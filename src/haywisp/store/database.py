"""One database: its engine, its units and its migrations."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, TimeoutError

from haywisp.store.desk import in_words
from haywisp.store.engines import make_engine, read_url, shown
from haywisp.store.entries import Entries
from haywisp.store.errors import Busy
from haywisp.store.own_words import OwnWords
from haywisp.store.people import People
from haywisp.store.recordings import Recordings
from haywisp.store.types import Unit
from haywisp.store.visits import Visits


class SqlUnit(People, Visits, Entries, OwnWords, Recordings):
    """One transaction over everything that is kept."""


class Database:
    """A store behind an SQLAlchemy engine; safe to share between threads."""

    def __init__(self, url: str) -> None:
        self._url = read_url(url)
        self._engine = make_engine(self._url)

    @contextmanager
    def unit(self) -> Iterator[Unit]:
        """A unit of work.

        Each query sees what others have kept by then; what is written is kept at the end of the block, all of it, or
        none of it when the block or a statement in it failed.
        """
        try:
            connection = self._engine.connect()
        except TimeoutError as fault:
            raise Busy from fault
        except DBAPIError as fault:
            raise in_words(fault, "unit", shown(self._url)) from fault
        with connection:
            unit = SqlUnit(connection)
            yield unit
            if unit.failure:
                raise unit.failure
            try:
                connection.commit()
            except DBAPIError as fault:
                raise in_words(fault, "unit", shown(self._url)) from fault

    def migrate(self) -> None:
        """Bring the tables to this version of Haywisp; raises :class:`haywisp.store.WrongDatabase` for a newer one."""
        from haywisp.store.migrating import upgrade

        upgrade(self._engine)

    def close(self) -> None:
        """Give all connections back."""
        self._engine.dispose()
