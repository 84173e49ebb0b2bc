"""Engines: the address read, and each database set up so that both keep the same promises."""

from pathlib import Path
from typing import Any

from sqlalchemy import URL, Engine, create_engine, event, make_url
from sqlalchemy.exc import ArgumentError, SQLAlchemyError
from sqlalchemy.pool import QueuePool

from haywisp.store.errors import WrongDatabase

BUSY_TIMEOUT_MS = 10_000
EXAMPLES = "Give an address such as sqlite:////path/to/haywisp.db or postgresql://user@host/haywisp."


def read_url(url: str) -> URL:
    """The address, with the driver that Haywisp brings; raises :class:`haywisp.store.WrongDatabase`."""
    try:
        read = make_url(url)
    except (ArgumentError, ValueError) as fault:
        raise WrongDatabase(f"“{url.split('@')[-1]}”", "it isn't a database address", EXAMPLES) from fault
    backend = "postgresql" if read.drivername == "postgres" else read.get_backend_name()
    if backend == "sqlite":
        return read.set(drivername="sqlite+pysqlite")
    if backend == "postgresql":
        return read.set(drivername="postgresql+psycopg")
    raise WrongDatabase(shown(read), "only SQLite and PostgreSQL are supported", EXAMPLES)


def shown(url: URL) -> str:
    """The address as it may be shown: without its password."""
    return url.render_as_string(hide_password=True)


def make_engine(url: URL) -> Engine:
    """An engine that connects on first use."""
    if url.get_backend_name() == "sqlite":
        return sqlite_engine(url)
    try:
        return create_engine(url, pool_pre_ping=True)
    except (ImportError, SQLAlchemyError) as fault:
        act = "Install it with: pip install 'haywisp[postgresql]'."
        raise WrongDatabase(shown(url), "the PostgreSQL driver isn't installed", act) from fault


def sqlite_engine(url: URL) -> Engine:
    """SQLite in a file, its folder made when it isn't there; or in memory, on one connection that all units share."""
    in_memory = url.database in (None, "", ":memory:")
    options: dict[str, Any] = {"poolclass": QueuePool, "connect_args": {"check_same_thread": False}}
    if in_memory:
        options |= {"pool_size": 1, "max_overflow": 0, "pool_timeout": BUSY_TIMEOUT_MS / 1000}
    elif url.database and not url.database.startswith("file:"):
        make_folder(Path(url.database).parent, url)
    engine = create_engine(url, **options)
    event.listen(engine, "connect", prepare_sqlite)
    return engine


def make_folder(folder: Path, url: URL) -> None:
    """The folder of the file, or the reason why it can't be made."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        why = f"its folder can't be made ({fault.strerror})"
        raise WrongDatabase(shown(url), why, "Choose a folder that may be written to.") from fault


def prepare_sqlite(connection: Any, _record: object) -> None:
    """Set up one connection.

    The driver's own implicit BEGIN is switched off: a unit begins when it first writes, and then at once for writing,
    because SQLite can't turn a reading transaction into a writing one after another program has written.
    ``recursive_triggers`` makes REPLACE meet the triggers that refuse deletion.
    """
    connection.isolation_level = None
    for pragma in (
        f"busy_timeout={BUSY_TIMEOUT_MS}",
        "journal_mode=WAL",
        "foreign_keys=ON",
        "recursive_triggers=ON",
    ):
        connection.execute(f"PRAGMA {pragma}").close()
