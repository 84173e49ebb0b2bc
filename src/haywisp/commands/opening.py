"""The app behind a command: opened when the command runs and closed after it."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from haywisp.usecases.app import App


@dataclass(frozen=True, slots=True)
class Opened:
    """What the command line was told to open."""

    database: str | None = None
    recordings: Path | None = None


def told(context: typer.Context) -> Opened:
    """The options before the command."""
    given = context.find_root().obj
    return given if isinstance(given, Opened) else Opened()


@contextmanager
def opened(context: typer.Context, model: Path | None = None) -> Iterator["App"]:
    """The app over the database that ``--database`` names, or the usual one."""
    from haywisp import bootstrap

    given = told(context)
    app = bootstrap.build(given.database, recordings=given.recordings, model=model)
    try:
        yield app
    finally:
        app.close()
