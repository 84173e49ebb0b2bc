"""The pages in a real browser: a server on a port of this machine, and what its tests are run with."""

import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Thread

import pytest
from web_practice import CHROMIUM

from haywisp.usecases import App
from haywisp.web import create_app

playwright = pytest.importorskip("playwright.sync_api")
in_browser = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="no chromium on the path"),
]
PHONE = {"width": 390, "height": 844}
LAPTOP = {"width": 1366, "height": 900}
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
        server = uvicorn.Server(uvicorn.Config(create_app(app), log_level="error", lifespan="off"))
        thread = Thread(target=server.run, kwargs={"sockets": [door]}, daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.02)
        yield f"http://127.0.0.1:{door.getsockname()[1]}"
        server.should_exit = True
        thread.join()


def expect(locator: "playwright.Locator") -> "playwright.LocatorAssertions":
    """What the browser is waited for to show."""
    return playwright.expect(locator)
