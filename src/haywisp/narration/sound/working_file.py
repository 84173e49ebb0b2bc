"""A working file on disk: written as it is decoded and read a stretch at a time, so that hours never lie in memory."""

import wave
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from haywisp.narration.sound.errors import NoRoom
from haywisp.narration.sound.types import RATE, Sound

if TYPE_CHECKING:
    from numpy.typing import NDArray

BLOCK_S = 60.0
FULL_SCALE = 32768.0
WIDTH_BYTES = 2


@contextmanager
def open_to_write(path: Path) -> Iterator[wave.Wave_write]:
    """A WAV file of the working form, to write samples into."""
    with path.open("wb") as raw, wave.open(raw, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(WIDTH_BYTES)
        file.setframerate(RATE)
        yield file


def samples(sound: Sound, start: float, end: float) -> "NDArray[Any]":
    """The samples between two times, -1 to 1."""
    import numpy as np

    first = max(0, round(start * RATE))
    try:
        with sound.path.open("rb") as raw, wave.open(raw, "rb") as file:
            first = min(first, file.getnframes())
            file.setpos(first)
            data = file.readframes(max(0, round(end * RATE) - first))
    except (OSError, EOFError, wave.Error) as fault:
        raise NoRoom(sound.path, _why(fault)) from fault
    return np.frombuffer(data, dtype="<i2").astype(np.float32) / FULL_SCALE


def blocks(sound: Sound, lead_s: float = 0.0) -> Iterator[tuple[float, "NDArray[Any]"]]:
    """A minute after the other with the time that it starts at, each with ``lead_s`` of what went before it."""
    start = 0.0
    while start < sound.seconds:
        yield start, samples(sound, max(0.0, start - lead_s), start + BLOCK_S)
        start += BLOCK_S


def _why(fault: Exception) -> str:
    return (getattr(fault, "strerror", None) or str(fault) or type(fault).__name__).lower()
