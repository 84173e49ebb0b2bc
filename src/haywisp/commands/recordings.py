"""``haywisp recordings`` and ``haywisp recording``: the sound of visits, listed, taken in, heard, deleted."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.horses import Json
from haywisp.commands.opening import opened, told
from haywisp.commands.output import as_json, say, short, table
from haywisp.commands.visits import Visit

if TYPE_CHECKING:
    from haywisp.usecases.app import App
    from haywisp.usecases.views.recordings import RecordingRow

recordings = typer.Typer(help="Recordings of visits: add, hear, delete.", no_args_is_help=True)
Which = Annotated[str, typer.Argument(help="The start of the recording's id, as in `haywisp recordings`.")]
Model = Annotated[
    Path | None, typer.Option("--model", metavar="DIR", help="Folder of a Whisper model; the embedded one unless told.")
]


def list_recordings(
    context: typer.Context,
    visit: Annotated[str, typer.Option(help="Only those of this visit: its id, or a horse's name.")] = "",
    json: Json = False,
) -> None:
    """List the recordings that are kept, and how far each has been heard."""
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.recordings import every, rows

    with opened(context) as app:
        found = rows(app, visit_named(app, visit).id) if visit else every(app)
    if json:
        as_json(found)
        return
    lines = (
        (short(one.id), short(one.visit_id), f"{one.began_at:%Y-%m-%d}", one.title, one.length, _state(one))
        for one in found
    )
    table(("Recording", "Visit", "Day", "What", "Length", "State"), lines, "There are no recordings.")


def _state(one: "RecordingRow") -> str:
    counted = f" ({one.done} of {one.parts})" if one.parts and one.state in {"hearing", "stopped", "failed"} else ""
    return f"{one.state_name}{counted}{': ' + one.sentence if one.sentence else ''}"


@recordings.command("add")
def add(
    context: typer.Context,
    visit: Visit,
    file: Annotated[Path, typer.Argument(help="A recording: wav, m4a, mp3, ogg or webm.")],
) -> None:
    """Keep a sound file as a recording of a visit; it then waits to be heard."""
    from haywisp.usecases.naming import visit_named
    from haywisp.usecases.recordings import add_file

    with opened(context) as app:
        kept = add_file(app, visit_named(app, visit).id, file, file.name)
    say(
        f"Kept ({short(kept.id)}). It is heard while `haywisp serve` runs, or now with: "
        f"haywisp recording hear {short(kept.id)}"
    )


@recordings.command("hear")
def hear(context: typer.Context, which: Which, model: Model = None) -> None:
    """Hear a recording now, or go on with it; Ctrl-C stops, and what was heard is kept."""
    from haywisp.usecases.naming import recording_named
    from haywisp.usecases.recordings import ask, row, stop

    with opened(context, model) as app:
        known = ask(app, recording_named(app, which).id)
        try:
            _follow(context, app, known.id)
        except KeyboardInterrupt:
            stop(app, known.id)
        heard = row(app, known.id)
    say(f"{heard.title}: {_state(heard)}.")
    if heard.state == "failed":
        raise typer.Exit(2)


def _follow(context: typer.Context, app: "App", recording_id: str) -> None:
    """Work, and show how far it is, until the recording no longer moves."""
    import threading

    from rich.progress import BarColumn, Progress, TextColumn

    from haywisp import bootstrap
    from haywisp.usecases.recordings import row

    done, ended = threading.Event(), threading.Event()
    faults: list[BaseException] = []

    def work() -> None:
        try:
            bootstrap.work(app, told(context).database, done)
        except BaseException as fault:
            faults.append(fault)
        finally:
            ended.set()

    threading.Thread(target=work, daemon=True).start()
    with Progress(TextColumn("Hearing"), BarColumn(), TextColumn("{task.fields[left]}")) as progress:
        bar = progress.add_task("", total=None, left="")
        try:
            while (known := row(app, recording_id)).moving and not ended.is_set():
                progress.update(bar, total=known.parts or None, completed=known.done, left=known.left)
                ended.wait(0.3)
        finally:
            done.set()
            ended.wait(20)
    if faults:
        raise faults[0]


@recordings.command("stop")
def stop_hearing(context: typer.Context, which: Which) -> None:
    """Hear no more of a recording for now."""
    from haywisp.usecases.naming import recording_named
    from haywisp.usecases.recordings import row, stop

    with opened(context) as app:
        one = row(app, stop(app, recording_named(app, which).id).id)
    say(f"{one.title}: {_state(one)}.")


@recordings.command("delete")
def delete(
    context: typer.Context,
    which: Which,
    yes: Annotated[bool, typer.Option("--yes", help="Delete it without asking.")] = False,
) -> None:
    """Delete the sound of a recording for good; words that were heard in it stay in the record."""
    from haywisp.usecases.naming import recording_named
    from haywisp.usecases.recordings import delete as forget
    from haywisp.usecases.recordings import row

    with opened(context) as app:
        one = row(app, recording_named(app, which).id)
        if not yes:
            heard = "What was heard in it stays in the record." if one.in_record else "Nothing of it is in the record."
            typer.confirm(f"Delete “{one.title}” {one.length} for good? {heard}", abort=True)
        forget(app, one.id)
    say(f"Deleted: {one.title}.")
