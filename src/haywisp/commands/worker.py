"""``haywisp worker``: hears the recordings that wait, in a process of its own."""

import signal
import sys
import threading
from pathlib import Path
from typing import Annotated

import typer

from haywisp.commands.opening import opened, told


def worker(
    context: typer.Context,
    model: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Folder of a Whisper model; the embedded one unless told.")
    ] = None,
    with_parent: Annotated[bool, typer.Option("--with-parent", hidden=True)] = False,
) -> None:
    """Hear recordings until stopped with Ctrl-C; what was heard is kept, and the next one goes on from there."""
    from haywisp import bootstrap

    stop = threading.Event()
    if with_parent:
        # Ctrl-C in a terminal reaches the child too; it is the parent that ends it.
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        threading.Thread(target=_until_end_of_input, args=(stop,), daemon=True).start()
    else:
        signal.signal(signal.SIGINT, lambda *_: stop.set())
        signal.signal(signal.SIGTERM, lambda *_: stop.set())
    with opened(context, model) as app:
        bootstrap.work(app, told(context).database, stop)


def _until_end_of_input(stop: threading.Event) -> None:
    """The parent's end of the pipe is closed when it ends, however it does."""
    sys.stdin.read()
    stop.set()
