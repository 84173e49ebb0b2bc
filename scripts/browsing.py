"""The pages in a real browser, for the tour's pictures and the tests: which browser, how it starts, and a server."""

import shutil
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Thread

from haywisp import bootstrap
from haywisp.usecases import App

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
SIZES = {"phone": (390, 844), "laptop": (1366, 900)}
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@contextmanager
def served(app: App) -> Iterator[str]:
    """The pages on a free port of this machine."""
    import uvicorn

    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        server = uvicorn.Server(uvicorn.Config(bootstrap.pages(app), log_level="error", lifespan="off"))
        thread = Thread(target=server.run, kwargs={"sockets": [door]}, daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.02)
        yield f"http://127.0.0.1:{door.getsockname()[1]}"
        server.should_exit = True
        thread.join()
