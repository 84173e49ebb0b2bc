"""Run the migrations from code: there is no ini file, and the scripts are part of the package."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.util import CommandError
from sqlalchemy import Connection, Engine, text
from sqlalchemy.exc import DBAPIError

from haywisp.store.desk import in_words
from haywisp.store.engines import shown
from haywisp.store.errors import WrongDatabase

SCRIPTS = Path(__file__).with_name("migrations")
#: Any number will do, as long as every Haywisp uses the same one.
MIGRATION_LOCK = 7_204_114


def config(connection: Connection | None = None) -> Config:
    """Alembic's settings, with the connection that :mod:`haywisp.store.migrations.env` uses."""
    settings = Config()
    settings.set_main_option("script_location", str(SCRIPTS).replace("%", "%%"))
    settings.attributes["connection"] = connection
    return settings


def upgrade(engine: Engine) -> None:
    """Bring the database to the newest revision in one transaction, one program at a time."""
    try:
        with engine.connect() as connection:
            alone(connection)
            command.upgrade(config(connection), "head")
            connection.commit()
    except CommandError as fault:
        act = "Update Haywisp, or open another database."
        raise WrongDatabase(shown(engine.url), "it was made by a newer version of Haywisp", act) from fault
    except DBAPIError as fault:
        raise in_words(fault, "migration", shown(engine.url)) from fault


def alone(connection: Connection) -> None:
    """Wait until no other program migrates, and hold them off until the transaction ends."""
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql("BEGIN IMMEDIATE")
    else:
        connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": MIGRATION_LOCK})
