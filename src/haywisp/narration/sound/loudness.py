"""A quiet recording brought to the loudness that a voice detector expects."""

import wave
from pathlib import Path
from typing import TYPE_CHECKING, Any

from haywisp.narration.sound.types import RATE

if TYPE_CHECKING:
    from numpy.typing import NDArray

FULL_SCALE = 32768
BINS = FULL_SCALE + 1
#: The loudest thousandth of the samples is a voice's peaks and no single knock.
PEAKS = 0.999
WANTED = 0.5
# Less than 20 steps of 16 bits at the peaks: noise of the recorder itself.
SILENT = 20
MOST_GAIN = 100.0
WAV_HEADER_BYTES = 44


def level(path: Path) -> bool:
    """Raise a quiet working file where it lies; True when there is nothing in it to raise."""
    import numpy as np

    with wave.open(str(path), "rb") as file:
        frames = file.getnframes()
    if not frames:
        return True
    data: NDArray[Any] = np.memmap(path, dtype="<i2", mode="r+", offset=WAV_HEADER_BYTES, shape=(frames,))
    peaks = _peaks(data)
    if peaks < SILENT:
        return True
    gain = min(WANTED * FULL_SCALE / peaks, MOST_GAIN)
    if gain > 1.5:
        for start in range(0, frames, 60 * RATE):
            block = data[start : start + 60 * RATE]
            block[:] = np.clip(np.rint(block * gain), -FULL_SCALE, FULL_SCALE - 1).astype("<i2")
        data.flush()  # type: ignore[attr-defined]
    return False


def _peaks(data: "NDArray[Any]") -> int:
    """The size that all but the loudest thousandth of the samples stay under."""
    import numpy as np

    counts = np.zeros(BINS, np.int64)
    for start in range(0, len(data), 60 * RATE):
        counts += np.bincount(np.abs(data[start : start + 60 * RATE].astype(np.int32)), minlength=BINS)
    return int(np.searchsorted(np.cumsum(counts), PEAKS * len(data)))
