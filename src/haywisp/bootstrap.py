"""The only place where parts are wired: the database, the tables, the clock and the source of ids."""

import os
import platform
import re
import sys
from collections.abc import Callable, Collection, Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from haywisp.usecases.app import App
from haywisp.usecases.ears import SpeechEar

if TYPE_CHECKING:
    from threading import Event

    from fastapi import FastAPI

    from haywisp.knowledge.types import Tables

DATABASE = "HAYWISP_DATABASE"
RECORDINGS = "HAYWISP_RECORDINGS"
MODEL = "HAYWISP_MODEL"
CACHE = "HAYWISP_CACHE"


def build(
    url: str | None = None,
    *,
    clock: Callable[[], datetime] | None = None,
    new_id: Callable[[], str] | None = None,
    recordings: Path | None = None,
    model: Path | None = None,
) -> App:
    """An app over the database at ``url``, brought to this version of Haywisp first.

    Without ``url`` the environment's ``HAYWISP_DATABASE`` is used, and without that a SQLite file in the user's
    data folder. ``recordings`` is the folder for the sound and ``model`` that of a recogniser's weights; without them,
    ``HAYWISP_RECORDINGS`` and ``HAYWISP_MODEL``, a folder beside a SQLite file, and the embedded weights. Raises
    :class:`haywisp.store.StoreError` when the database can't be used.
    """
    from haywisp.store import open_store
    from haywisp.store.beside import recordings_beside
    from haywisp.store.shelf import Shelf

    url = database_url(url)
    store = open_store(url)
    store.migrate()
    folder = recordings or _path(RECORDINGS) or recordings_beside(url)
    return App(
        shelf=Shelf(folder) if folder is not None else None,
        ear=SpeechEar(model or _path(MODEL)),
        units=store.unit,
        tables=tables,
        clock=clock or local_time,
        new_id=new_id or random_id,
        close=store.close,
    )


def database_url(url: str | None = None) -> str:
    """The address of the database that is used when ``url``, or none, is given."""
    return url or os.environ.get(DATABASE) or sqlite_url(data_folder() / "haywisp.db")


def work(app: App, url: str | None, stop: "Event") -> None:
    """Hear the recordings that wait until ``stop`` is set; the worker's name is this machine's and its own."""
    from haywisp.jobs import Hands, work_off
    from haywisp.store.beside import jobs_beside
    from haywisp.usecases.hearing import hearing
    from haywisp.usecases.recordings import shelf_of

    hands = Hands(shelf_of(app).folder / "workers", re.sub(r"[^\w-]", "-", platform.node()) or "machine")
    hands.take()
    try:
        work_off(jobs_beside(database_url(url)), hands, [hearing(app)], stop)
    finally:
        hands.give_back()


def _path(name: str) -> Path | None:
    given = os.environ.get(name, "")
    return Path(given) if given else None


def tables(language: str = "en") -> "Tables":
    """The knowledge tables, for what needs no database; read copies of them are kept for the next start."""
    from haywisp.knowledge import load_tables

    return load_tables(language, kept_in=cache_folder())


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


def cache_folder(
    environment: Mapping[str, str] | None = None, platform: str = sys.platform, home: Path | None = None
) -> Path | None:
    """Where what can be made again is kept: ``HAYWISP_CACHE`` (none where it is empty), or the platform's own place."""
    environment = os.environ if environment is None else environment
    home = home or Path.home()
    named = environment.get(CACHE)
    if named is not None:
        return Path(named) if named else None
    given = environment.get("XDG_CACHE_HOME", "")
    if given and Path(given).is_absolute():
        return Path(given) / "haywisp"
    if platform == "win32":
        return Path(environment.get("LOCALAPPDATA") or home / "AppData" / "Local") / "Haywisp" / "Cache"
    if platform == "darwin":
        return home / "Library" / "Caches" / "Haywisp"
    return home / ".cache" / "haywisp"
