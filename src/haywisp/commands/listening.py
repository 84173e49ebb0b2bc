"""``haywisp listen``: a recording into words, and the words into a record."""

import json as json_text
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING, Annotated, Any

import typer

from haywisp.commands.files import NoFile, write_file
from haywisp.commands.horses import Json
from haywisp.commands.output import as_json, heading, items, say, short

if TYPE_CHECKING:
    from haywisp.usecases.recording_file import FileHeard

STOPPED = 130
FOLDER = "heard"
# Shorter than this nobody needs to be told how long it takes.
LONG_S = 60.0


def listen(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="A recording: wav, m4a, mp3, ogg or webm.")],
    words: Annotated[Path | None, typer.Option(help="Write the words with their times to this file.")] = None,
    model: Annotated[Path | None, typer.Option(help="Folder of another Whisper model, in CTranslate2's form.")] = None,
    prompt: Annotated[bool, typer.Option("--prompt/--no-prompt", help="Tell the recogniser the trade's words.")] = True,
    work: Annotated[
        Path | None, typer.Option(help="Folder for what was heard so far; the user's data folder unless told.")
    ] = None,
    language: Annotated[str, typer.Option(help="The language of the tables.")] = "en",
    visit: Annotated[
        str, typer.Option(metavar="VISIT", help="Keep it with this visit: its id, or a horse's name for its newest.")
    ] = "",
    json: Json = False,
) -> None:
    """Hear a recording and understand it; with --visit the sound and what was heard are kept.

    Stopped with Ctrl-C, it goes on when asked again.
    """
    from haywisp import bootstrap
    from haywisp.usecases.recording_file import heard_file

    if not file.is_file():
        raise NoFile(file, "read", "there is no such file")
    visit = _found(context, visit) if visit else ""
    folder = work or bootstrap.data_folder() / FOLDER
    tables = bootstrap.tables(language)
    with _progress(file.name) as on_progress, _stopping() as stop:
        heard = heard_file(
            file,
            folder,
            tables,
            model,
            prompted=prompt,
            on_progress=lambda done_s, all_s: on_progress(done_s, stop.started(all_s)),
            cancelled=stop.wanted,
        )
    if words is not None:
        write_file(words, heard.words_json.encode())
    _print_json(heard, language) if json else _print(heard, words, language)
    if visit and heard.complete:
        _keep(context, visit, file, heard)
    if not heard.complete:
        _say_stopped(heard, folder)
        raise typer.Exit(STOPPED)


class _Stop:
    """Ctrl-C: at once while the file is only read, after the chunk in hand once there is something to keep."""

    def __init__(self) -> None:
        self._wanted = False
        self._started = False

    def started(self, all_s: float) -> float:
        self._started = True
        return all_s

    def wanted(self) -> bool:
        return self._wanted

    def __call__(self, number: int, frame: FrameType | None) -> None:
        if self._wanted or not self._started:
            raise KeyboardInterrupt
        self._wanted = True
        typer.echo("Stopping after this passage; Ctrl-C again stops at once.", err=True)


@contextmanager
def _stopping() -> Iterator[_Stop]:
    stop = _Stop()
    before = signal.signal(signal.SIGINT, stop)
    try:
        yield stop
    except KeyboardInterrupt:
        typer.echo("Stopped. What was heard is kept; run the same command again to go on.", err=True)
        raise typer.Exit(STOPPED) from None
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def _progress(name: str) -> Iterator[Callable[[float, float], None]]:
    """A bar with the time left, on the error output, so that what is printed can be piped."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TaskProgressColumn, TextColumn, TimeRemainingColumn

    from haywisp.usecases.recording_file import COST

    columns = (TextColumn("{task.description}"), BarColumn(), TaskProgressColumn(), TimeRemainingColumn())
    console = Console(stderr=True, markup=False, highlight=False)
    with Progress(*columns, console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task("Reading", total=None)

        def tell(done_s: float, all_s: float) -> None:
            if bar.tasks[0].total is None:
                left_s = all_s - done_s
                went_on = f" {_minutes(done_s)} were heard before." if done_s else ""
                if left_s * COST > LONG_S or done_s:
                    console.print(
                        f"{name}: {_minutes(left_s)} of speech to hear, about {_minutes(left_s * COST)} on two cores."
                        + went_on
                    )
                # What was heard before must not make the rest look quick.
                bar.reset(task, description="Listening", total=all_s or 1.0, completed=int(done_s))
            bar.update(task, completed=done_s if all_s else 1.0)

        yield tell


def _print(heard: "FileHeard", words: Path | None, language: str) -> None:
    from haywisp import bootstrap
    from haywisp.usecases.narrating import narrated

    for problem in heard.problems:
        say(problem)
    if not heard.words:
        say("No words were heard in it.")
    else:
        name = "words.json" if words is None else words.name
        typer.echo(narrated(heard.words_json.encode(), name, "text", bootstrap.tables(language)))
    if heard.again:
        heading("Listen again")
        items(f"{_clock(one.start)}-{_clock(one.end)}  {one.says}" for one in heard.again)
    if words is not None:
        say(f"Wrote {heard.words} words to {words}. Read them again with: haywisp narrate {words}")


def _print_json(heard: "FileHeard", language: str) -> None:
    from haywisp import bootstrap
    from haywisp.usecases.narrating import narrated

    record: Any = None
    if heard.words:
        record = json_text.loads(narrated(heard.words_json.encode(), "words.json", "json", bootstrap.tables(language)))
    as_json(
        {
            "seconds": heard.seconds,
            "complete": heard.complete,
            "heard_until": heard.heard_until,
            "problems": heard.problems,
            "again": heard.again,
            "record": record,
        }
    )


def _found(context: typer.Context, visit: str) -> str:
    """The visit's id, looked up before anything is heard: hearing takes long."""
    from haywisp.commands.opening import opened
    from haywisp.usecases.naming import visit_named

    with opened(context) as app:
        return visit_named(app, visit).id


def _keep(context: typer.Context, visit: str, file: Path, heard: "FileHeard") -> None:
    from haywisp.commands.opening import opened
    from haywisp.usecases.hearing import add_heard
    from haywisp.usecases.recordings import row

    with opened(context) as app:
        kept = row(app, add_heard(app, visit, file, heard.heard).id)
    where = "it is the visit's narration" if kept.in_record else "put it in the record on the visit's page, Hands on"
    typer.echo(f"Kept with the visit ({short(kept.id)}); {where}.", err=True)


def _say_stopped(heard: "FileHeard", folder: Path) -> None:
    typer.echo(
        f"Stopped at {_clock(heard.heard_until)} of {_clock(heard.seconds)}. What was heard is kept in {folder}; "
        "run the same command again to go on from there.",
        err=True,
    )


def _clock(seconds: float) -> str:
    whole = int(seconds)
    hours = f"{whole // 3600}:" if whole >= 3600 else ""
    minutes = whole // 60 % 60
    return f"{hours}{minutes:02d}:{whole % 60:02d}" if hours else f"{minutes}:{whole % 60:02d}"


def _minutes(seconds: float) -> str:
    if seconds < 90:
        return f"{max(1, round(seconds))} seconds"
    hours, minutes = divmod(round(seconds / 60), 60)
    return f"{hours} h {minutes:02d} min" if hours else f"{minutes} minutes"
