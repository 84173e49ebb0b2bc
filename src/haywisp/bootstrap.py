"""The only place where parts are wired: the database, the tables, the clock and the source of ids."""

import os
import sys
from collections.abc import Callable, Collection, Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from haywisp.usecases.app import App

if TYPE_CHECKING:
    from fastapi import FastAPI

    from haywisp.knowledge.types import Tables

DATABASE = "HAYWISP_DATABASE"


def build(
    url: str | None = None,
    *,
    clock: Callable[[], datetime] | None = None,
    new_id: Callable[[], str] | None = None,
) -> App:
    """An app over the database at ``url``, brought to this version of Haywisp first.

    Without ``url`` the environment's ``HAYWISP_DATABASE`` is used, and without that a SQLite file in the user's
    data folder. Raises :class:`haywisp.store.StoreError` when the database can't be used.
    """
    from haywisp.knowledge import load_tables
    from haywisp.store import open_store

    store = open_store(url or os.environ.get(DATABASE) or sqlite_url(data_folder() / "haywisp.db"))
    store.migrate()
    return App(
        units=store.unit,
        tables=load_tables,
        clock=clock or local_time,
        new_id=new_id or random_id,
        close=store.close,
    )


def tables(language: str = "en") -> "Tables":
    """The knowledge tables, for what needs no database."""
    from haywisp.knowledge import load_tables

    return load_tables(language)


def pages(app: App, hosts: Collection[str] = ()) -> "FastAPI":
    """The web pages over an app; ``hosts`` are domain names to answer to besides this machine's own."""
    from haywisp.web import create_app

    return create_app(app, hosts=hosts)


def local_time() -> datetime:
    """Now, with this machine's zone: a visit's day is the practitioner's own."""
    return datetime.now().astimezone()


def random_id() -> str:
    """A new id that no other machine will make."""
    from uuid import uuid4

    return uuid4().hex


def sqlite_url(path: Path) -> str:
    return f"sqlite:///{path.as_posix()}"


def data_folder(
    environment: Mapping[str, str] | None = None, platform: str = sys.platform, home: Path | None = None
) -> Path:
    """Where this user's data is kept: the platform's own place for it."""
    environment = os.environ if environment is None else environment
    home = home or Path.home()
    given = environment.get("XDG_DATA_HOME", "")
    if given and Path(given).is_absolute():
        return Path(given) / "haywisp"
    if platform == "win32":
        return Path(environment.get("LOCALAPPDATA") or home / "AppData" / "Local") / "Haywisp"
    if platform == "darwin":
        return home / "Library" / "Application Support" / "Haywisp"
    return home / ".local" / "share" / "haywisp"
