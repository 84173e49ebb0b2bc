"""Names for workers: each is one worker's alone while it lives, and the same again after it died."""

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import IO

from haywisp.errors import HaywispError

MOST = 16


class TooManyHands(HaywispError):
    """Every name is taken."""

    def __init__(self) -> None:
        super().__init__(f"{MOST} workers are at it on this machine already. End one of them first.")


class Hands:
    """One worker's name, held by a lock that the system takes back when its process ends in whatever way.

    ``machine`` tells the machines apart that share a database. A worker that starts takes the lowest free name, so
    that what a dead one left behind is found by the next.
    """

    def __init__(self, folder: Path, machine: str) -> None:
        self._folder = folder
        self._machine = machine
        self._held: IO[bytes] | None = None
        self._number = 0

    @property
    def name(self) -> str:
        return self._named(self._number)

    def take(self) -> None:
        """Take a name; :class:`TooManyHands` when all of them are taken."""
        self._folder.mkdir(parents=True, exist_ok=True)
        for number in range(1, MOST + 1):
            held = self._locked(number)
            if held is not None:
                self._held, self._number = held, number
                return
        raise TooManyHands

    def give_back(self) -> None:
        if self._held is not None:
            self._held.close()
            self._held = None

    def left_behind(self) -> Iterator[str]:
        """Names that some worker once had and none has now; nobody can take one while it is looked at."""
        for number in range(1, MOST + 1):
            if number == self._number or not self._file(number).exists():
                continue
            held = self._locked(number)
            if held is not None:
                try:
                    yield self._named(number)
                finally:
                    held.close()

    def _named(self, number: int) -> str:
        return f"{self._machine}-{number}"

    def _file(self, number: int) -> Path:
        return self._folder / f"{self._named(number)}.lock"

    def _locked(self, number: int) -> IO[bytes] | None:
        file = self._file(number).open("ab")
        try:
            lock(file)
        except OSError:
            file.close()
            return None
        return file


def lock(file: IO[bytes]) -> None:
    """Lock a file against other processes until it is closed; :class:`OSError` when another has it."""
    with suppress(ImportError):
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        return
    import msvcrt

    file.seek(0)
    msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined]
