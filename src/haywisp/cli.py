"""The command line: a thin shell over the use cases, like the web."""

import gc
import os
import sys
from pathlib import Path
from typing import Annotated

import typer

from haywisp import __version__
from haywisp.commands import (
    asking,
    demo,
    gating,
    horses,
    listening,
    own_words,
    people,
    recordings,
    results,
    serve,
    vet,
    visits,
    worker,
    writing,
)
from haywisp.commands.helping import PlainCommand
from haywisp.commands.opening import Opened
from haywisp.errors import HaywispError

REFUSED = 2
MANY_OBJECTS = 100_000

app = typer.Typer(
    name="haywisp",
    help="The working record and reckoning tool of a hands-on equine bodywork practitioner. "
    "It records and reckons; it never diagnoses.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
app.command("today")(horses.today)
app.command("round")(horses.round_)
app.command("horses")(horses.list_horses)
app.add_typer(horses.horses, name="horse")
app.add_typer(people.owners, name="owner")
app.add_typer(people.yards, name="yard")
app.add_typer(visits.visits, name="visit")
visits.visits.command("asked")(asking.asked)
visits.visits.command("reading")(asking.reading)
visits.visits.command("drawn")(results.drawn)
visits.visits.command("write", cls=PlainCommand)(writing.write)
visits.visits.command("undo")(writing.undo)
visits.visits.command("vet-said")(vet.vet_said)
visits.visits.command("override")(vet.override)
visits.visits.command("read-again")(own_words.read_again)
app.add_typer(own_words.words, name="words")
app.command("recordings")(recordings.list_recordings)
app.add_typer(recordings.recordings, name="recording")
app.command("narrate")(results.narrate)
app.command("listen")(listening.listen)
app.command("gate")(gating.gate)
app.command("plan")(results.plan)
app.command("report")(results.report)
app.command("weight")(results.weight)
app.command("know")(results.know)
app.command("serve")(serve.serve)
app.command("worker")(worker.worker)
app.command("demo")(demo.demo)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"haywisp {__version__}")
        raise typer.Exit


@app.callback()
def options(
    context: typer.Context,
    database: Annotated[
        str | None, typer.Option(help="Address of the database, such as sqlite:////path/to/haywisp.db.")
    ] = None,
    recordings: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Folder of the recordings; beside a SQLite database unless told.")
    ] = None,
    version: Annotated[bool, typer.Option("--version", callback=_version, is_eager=True, help="Print it.")] = False,
) -> None:
    context.obj = Opened(database, recordings)


def main() -> None:
    """Run the command line. What is refused ends with code 2 and one sentence; only a fault of Haywisp may trace."""
    # The tables are many small things that stay: looking through them for garbage again and again only takes time.
    gc.set_threshold(MANY_OBJECTS)
    for stream in (sys.stdout, sys.stderr):
        # A terminal that can't print a letter gets a mark in its place rather than a traceback.
        stream.reconfigure(errors="replace")  # type: ignore[union-attr]
    try:
        app()
    except HaywispError as refused:
        sys.stderr.write(f"haywisp: {refused}\n")
        raise SystemExit(REFUSED) from None
    except BrokenPipeError:
        # The reader (head, less) has seen enough; Python would complain once more when it closes the stream.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise SystemExit(0) from None
    finally:
        # All of it goes with the process; a last look through it for garbage would take a third as long as the work.
        gc.freeze()
