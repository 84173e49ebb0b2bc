"""The bytes of a file: an ordinary one, whole, unchanging and not too large."""

import os
import stat
from pathlib import Path

from haywisp.measure.photographs.errors import EmptyPhoto, StillGrowing, TooManyBytes, UnreadableFile
from haywisp.measure.photographs.limits import MOST_BYTES


def fetched(source: bytes | Path, name: str) -> bytes:
    """The bytes that came or that a path holds; at most one more than the limit is read of any file."""
    data = source if isinstance(source, bytes) else _read(source, name)
    if not data:
        raise EmptyPhoto(name)
    if len(data) > MOST_BYTES:
        raise TooManyBytes(name)
    return data


def _read(path: Path, name: str) -> bytes:
    try:
        # Before it is opened: the opening of a pipe waits for whoever writes into it.
        if not stat.S_ISREG(path.stat().st_mode):
            raise UnreadableFile(name, "it is a folder or a device, and no file")
        with path.open("rb") as file:
            before = os.fstat(file.fileno())
            if before.st_size > MOST_BYTES:
                raise TooManyBytes(name)
            data = file.read(MOST_BYTES + 1)
            after = os.fstat(file.fileno())
    except (OSError, ValueError) as fault:
        raise UnreadableFile(name, (getattr(fault, "strerror", None) or str(fault)).lower()) from fault
    if len(data) != after.st_size or (before.st_size, before.st_mtime_ns) != (after.st_size, after.st_mtime_ns):
        raise StillGrowing(name)
    return data
