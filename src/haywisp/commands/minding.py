"""A worker as a child of the server: started with it, started again when it dies, ended with it."""

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from haywisp.commands.opening import Opened

ENDS_WITHIN_S = 3.0
LOOKS_EVERY_S = 0.2
#: How long to wait before a worker that died is started again; twice as long each time that it died at once.
FIRST_WAIT_S, LONGEST_WAIT_S = 1.0, 60.0
LIVED_S = 30.0


class Minder:
    """Keeps one worker alive from a thread of its own."""

    def __init__(self, environment: Mapping[str, str]) -> None:
        self._environment = environment
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._mind, daemon=True)
        self.child: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        self._thread.start()

    def end(self) -> None:
        """End the worker; a part that it is at is done again by the next one."""
        self._ending.set()
        self._thread.join(2 * ENDS_WITHIN_S)

    def _mind(self) -> None:
        wait = FIRST_WAIT_S
        while not self._ending.is_set():
            began = time.monotonic()
            # The end of its standard input tells the child that this process is gone, however it went.
            with subprocess.Popen(
                [sys.executable, "-m", "haywisp", "worker", "--with-parent"],
                stdin=subprocess.PIPE,
                stdout=subprocess.DEVNULL,
                env=dict(self._environment),
            ) as child:
                self.child = child
                while child.poll() is None and not self._ending.is_set():
                    self._ending.wait(LOOKS_EVERY_S)
                self._close(child)
            wait = FIRST_WAIT_S if time.monotonic() - began > LIVED_S else min(2 * wait, LONGEST_WAIT_S)
            self._ending.wait(wait)

    def _close(self, child: "subprocess.Popen[bytes]") -> None:
        assert child.stdin is not None
        with suppress(OSError):
            child.stdin.close()
        with suppress(subprocess.TimeoutExpired):
            child.wait(ENDS_WITHIN_S)
        child.kill()


@contextmanager
def minded(told: Opened, model: Path | None = None) -> Iterator[Minder]:
    """A worker over the same database for as long as the block lasts."""
    from haywisp import bootstrap

    # An address may hold a password, and command lines can be read by everyone on the machine.
    given = {bootstrap.DATABASE: bootstrap.database_url(told.database)}
    given |= {bootstrap.RECORDINGS: str(told.recordings.absolute())} if told.recordings is not None else {}
    given |= {bootstrap.MODEL: str(model.absolute())} if model is not None else {}
    minder = Minder({**os.environ, **given})
    minder.start()
    try:
        yield minder
    finally:
        minder.end()
