"""``haywisp demo``: the invented practice, to look around in; ``--check`` walks through it without a browser."""

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from haywisp.commands.opening import Opened
from haywisp.commands.output import say
from haywisp.commands.serve import LOCAL, PORT

if TYPE_CHECKING:
    from haywisp.usecases.app import App


def demo(
    check: Annotated[bool, typer.Option("--check", help="Walk through it once without a browser, then stop.")] = False,
    keep: Annotated[bool, typer.Option("--keep", help="Keep what was changed in the last demo.")] = False,
    port: Annotated[int, typer.Option(min=0, max=65535, help="Port to try first.")] = PORT,
    browser: Annotated[bool, typer.Option(help="Open the pages in a browser.")] = True,
) -> None:
    """Make an invented practice and show it. Nothing of your own records is touched."""
    from haywisp import bootstrap

    if check:
        with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
            _with_demo(Path(folder) / "demo.db", lambda app, show: _check(app))
        return
    file = bootstrap.data_folder() / "demo.db"
    if not keep:
        _remove(file)
    _with_demo(file, lambda app, show: _show(app, show, port, browser, file))


def _with_demo(file: Path, act: Callable[["App", str], None]) -> None:
    from haywisp import bootstrap
    from haywisp.usecases.demo import seed_demo

    app = bootstrap.build(bootstrap.sqlite_url(file))
    try:
        seed = seed_demo(app, app.clock().date())
        made = "Made" if seed.seeded else "Kept"
        say(f"{made} an invented practice: {seed.horses} horses, {seed.visits} visits, {seed.heard} of them heard.")
        act(app, seed.show)
    finally:
        app.close()


def _show(app: "App", show: str, port: int, browser: bool, file: Path) -> None:
    import threading
    import webbrowser

    from haywisp import bootstrap
    from haywisp.commands.minding import minded
    from haywisp.commands.serving import PORTS_TRIED, address_of, listening, server_of

    pages = bootstrap.pages(app)
    listener = listening(LOCAL, port, PORTS_TRIED if port else 1)
    address = address_of(listener)
    # Addresses go on lines of their own and are not wrapped, so that they can be clicked and copied.
    say("Stop with Ctrl-C. Look at it at")
    typer.echo(address)
    if show:
        say("and at a visit that waits for its review at")
        typer.echo(f"{address}/visits/{show}/said")
    if browser:
        # The socket listens already: a browser that is early waits for the server.
        threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
    with minded(Opened(bootstrap.sqlite_url(file))):
        server_of(pages).run(sockets=[listener])


def _check(app: "App") -> None:
    from haywisp import bootstrap
    from haywisp.commands.serving import listening, running
    from haywisp.commands.walking import walk

    with running(bootstrap.pages(app), listening(LOCAL, 0)) as address:
        for step in walk(app, address):
            say(step)
    say("All of it works.")


def _remove(file: Path) -> None:
    """The demo's database, what its worker has done, and their journal files; and the recordings made in it."""
    import shutil

    from haywisp.commands.files import NoFile

    shutil.rmtree(file.with_name(f"{file.stem}-recordings"), ignore_errors=True)
    databases = (file, file.with_name(f"{file.stem}-jobs.db"))
    for path in (one.with_name(one.name + end) for one in databases for end in ("", "-wal", "-shm", "-journal")):
        try:
            path.unlink(missing_ok=True)
        except OSError as error:
            raise NoFile(path, "made anew", (error.strerror or "it is in use").lower()) from error
