"""``haywisp serve``: the pages, for real use."""

from contextlib import nullcontext
from pathlib import Path
from typing import Annotated

import typer

from haywisp.commands.opening import opened, told
from haywisp.commands.output import say

LOCAL = "127.0.0.1"
PORT = 8765


def serve(
    context: typer.Context,
    host: Annotated[str, typer.Option(help="Address to listen on; this machine alone unless told.")] = LOCAL,
    port: Annotated[int, typer.Option(min=0, max=65535, help="Port to listen on; 0 for any free one.")] = PORT,
    name: Annotated[
        list[str] | None, typer.Option(metavar="NAME", help="A domain name to answer to; may be repeated.")
    ] = None,
    worker: Annotated[bool, typer.Option(help="Hear recordings as well, in a process beside the pages.")] = True,
    model: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Folder of a Whisper model; the embedded one unless told.")
    ] = None,
) -> None:
    """Serve the pages until stopped with Ctrl-C."""
    from haywisp import bootstrap
    from haywisp.commands.minding import minded
    from haywisp.commands.serving import here_and_there, listening, only_here, server_of

    with opened(context) as app:
        pages = bootstrap.pages(app, name or ())
        listener = listening(host, port)
        here, there = here_and_there(listener)
        say(f"Haywisp is at {here} (stop with Ctrl-C).")
        if not only_here(listener):
            if there:
                say("On a phone in the same network, type")
            for address in there:
                typer.echo(address)
            if not there:
                say("This machine is in no network just now, so nothing else can reach it.")
            say("Anyone who can reach this address can read and change the records: it has no accounts.")
        with minded(told(context), model) if worker and app.shelf is not None else nullcontext():
            server_of(pages).run(sockets=[listener])
