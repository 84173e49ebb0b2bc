"""The app behind a command: opened when the command runs and closed after it."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from haywisp.usecases.app import App


@contextmanager
def opened(context: typer.Context) -> Iterator["App"]:
    """The app over the database that ``--database`` names, or the usual one."""
    from haywisp import bootstrap

    app = bootstrap.build(context.find_root().obj)
    try:
        yield app
    finally:
        app.close()
