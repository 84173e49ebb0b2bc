"""The sound of recordings on disk: pieces as they arrive, one file once all are there; each piece counts once."""

import hashlib
import os
import re
import shutil
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from haywisp.store.errors import StoreError

SAFE = re.compile(r"[0-9A-Za-z-]{1,64}")
FORM = re.compile(r"[0-9a-z]{1,8}")
COPIED_AT_ONCE = 1024 * 1024


class NoShelf(StoreError):
    """The folder of the recordings can't be read or written."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(
            f"The folder of the recordings ({path}) can't be used: {why}. What was kept before is still there; free "
            "some room or let it be written to, then send it again."
        )


class PiecesMissing(StoreError):
    """A recording of which not every piece has arrived; ``missing`` are their numbers."""

    def __init__(self, missing: Sequence[int], count: int) -> None:
        super().__init__(
            f"{len(missing)} of {count} pieces of this recording have not arrived yet. Those that have are kept; "
            "send the rest from the device that it was recorded on."
        )
        self.missing = tuple(missing)


class OtherPiece(StoreError):
    """A piece with the number of one that is there already."""

    def __init__(self, number: int) -> None:
        super().__init__(
            f"Piece {number + 1} of this recording is there already, from somewhere else: it is being recorded in two "
            "places at once. Nothing was overwritten; make a new recording."
        )


@dataclass(frozen=True, slots=True)
class Joined:
    """A whole recording as one file."""

    path: Path
    size_bytes: int
    sha256: str


class Shelf:
    """A folder with a folder for each recording."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def put_piece(self, recording_id: str, number: int, mark: str, data: bytes) -> None:
        """Keep a piece for good before this returns; the same piece a second time changes nothing."""
        known = self.pieces(recording_id).get(number)
        if known is not None:
            if known != mark:
                raise OtherPiece(number)
            return
        pieces = self._pieces(recording_id)
        target = pieces / f"{number:06d}.{_safe(mark)}"
        part = pieces / f"arriving-{target.name}"
        with _worded(self.folder):
            pieces.mkdir(parents=True, exist_ok=True)
            with part.open("wb") as file:
                file.write(data)
                _settle(file.fileno())
            part.replace(target)
            _settle_folder(pieces)

    def pieces(self, recording_id: str) -> dict[int, str]:
        """The numbers of the pieces that are there, each with its mark."""
        try:
            names = [path.name for path in self._pieces(recording_id).iterdir()]
        except OSError:
            return {}
        found = (name.split(".", 1) for name in sorted(names) if name[:6].isdigit() and "." in name)
        return {int(number): mark for number, mark in found}

    def bytes_of_pieces(self, recording_id: str) -> int:
        """How much has arrived."""
        with _worded(self.folder):
            folder = self._pieces(recording_id)
            return sum(path.stat().st_size for path in folder.iterdir()) if folder.exists() else 0

    def join(self, recording_id: str, count: int, form: str) -> Joined:
        """Pieces 0 to ``count`` as one file; done again after a crash, it gives the same."""
        there = self.pieces(recording_id)
        target = self._file(recording_id, f"sound.{_form(form)}")
        if not there and target.is_file():
            return _joined(target)
        missing = [number for number in range(count) if number not in there]
        if missing or not count:
            raise PiecesMissing(missing, count)
        part = target.with_name(target.name + ".part")
        with _worded(self.folder):
            with part.open("wb") as out:
                for number in range(count):
                    path = self._pieces(recording_id) / f"{number:06d}.{there[number]}"
                    with path.open("rb") as piece:
                        shutil.copyfileobj(piece, out, COPIED_AT_ONCE)
                _settle(out.fileno())
            part.replace(target)
            _settle_folder(target.parent)
        return _joined(target)

    def take(self, recording_id: str, source: Path, form: str) -> Joined:
        """A copy of a whole file."""
        target = self._file(recording_id, f"sound.{_form(form)}")
        part = target.with_name(target.name + ".part")
        with _worded(self.folder):
            target.parent.mkdir(parents=True, exist_ok=True)
            with source.open("rb") as read, part.open("wb") as out:
                shutil.copyfileobj(read, out, COPIED_AT_ONCE)
                _settle(out.fileno())
            part.replace(target)
        return _joined(target)

    def drop_pieces(self, recording_id: str) -> None:
        """Once the whole is kept, and known to be."""
        shutil.rmtree(self._pieces(recording_id), ignore_errors=True)

    def sound(self, recording_id: str) -> Path | None:
        """The recording as it came."""
        return next(iter(self._files(recording_id, "sound.")), None)

    def playing(self, recording_id: str) -> Path | None:
        """What is played back: a copy in which a player can go to any time, or else the recording as it came."""
        return next(iter(self._files(recording_id, "playing.")), None) or self.sound(recording_id)

    def file(self, recording_id: str, name: str) -> Path:
        """A further file of a recording, its folder made."""
        path = self._file(recording_id, name)
        with _worded(self.folder):
            path.parent.mkdir(parents=True, exist_ok=True)
        return path

    def write(self, recording_id: str, name: str, text: str) -> None:
        """Put a text in place of the one before, all of it or nothing."""
        target = self.file(recording_id, name)
        part = target.with_name(target.name + ".part")
        with _worded(self.folder):
            part.write_text(text, "utf-8")
            part.replace(target)

    def read(self, recording_id: str, name: str) -> str:
        """A text of a recording; "" when there is none."""
        path = self._file(recording_id, name)
        with _worded(self.folder):
            return path.read_text("utf-8") if path.is_file() else ""

    def remove(self, recording_id: str) -> None:
        """All there is of a recording."""
        with _worded(self.folder):
            folder = self.folder / _safe(recording_id)
            if folder.exists():
                shutil.rmtree(folder)

    def _files(self, recording_id: str, start: str) -> list[Path]:
        folder = self.folder / _safe(recording_id)
        return [path for path in sorted(folder.glob(f"{start}*")) if path.suffix != ".part"]

    def _file(self, recording_id: str, name: str) -> Path:
        return self.folder / _safe(recording_id) / name

    def _pieces(self, recording_id: str) -> Path:
        return self.folder / _safe(recording_id) / "pieces"


class _worded:  # noqa: N801
    """Faults of the disk as one sentence."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __enter__(self) -> None:
        return None

    def __exit__(self, kind: object, fault: BaseException | None, trace: object) -> None:
        if isinstance(fault, OSError):
            raise NoShelf(self.folder, (fault.strerror or str(fault)).lower()) from fault


def _safe(name: str) -> str:
    """An id from a browser names a folder: letters, digits and dashes, or it is nothing of ours."""
    if not SAFE.fullmatch(name):
        raise StoreError("This is not the name of a recording. Open the page of the visit again.")
    return name


def _form(form: str) -> str:
    return form if FORM.fullmatch(form) else "sound"


def _joined(path: Path) -> Joined:
    with _worded(path.parent), path.open("rb") as file:
        return Joined(path, path.stat().st_size, hashlib.file_digest(file, "sha256").hexdigest())


def _settle(descriptor: int) -> None:
    os.fsync(descriptor)


def _settle_folder(folder: Path) -> None:
    """The name of a new file is kept with its folder; Windows does so by itself."""
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def numbers_from(pieces: Sequence[int]) -> Iterator[int]:
    """The numbers from 0 on without a gap."""
    there = set(pieces)
    number = 0
    while number in there:
        yield number
        number += 1
