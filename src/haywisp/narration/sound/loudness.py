"""A quiet recording brought to the loudness that a voice detector expects."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO

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
# A gain smaller than this is not worth writing an hour anew.
LEAST_GAIN = 1.5
WAV_HEADER_BYTES = 44
BLOCK_BYTES = 2 * 60 * RATE


def level(path: Path) -> bool:
    """Raise a quiet working file where it lies, a minute at a time; True when there is nothing in it to raise."""
    import numpy as np

    with path.open("r+b") as file:
        peaks = _peaks(file)
        if peaks < SILENT:
            return True
        gain = min(WANTED * FULL_SCALE / peaks, MOST_GAIN)
        if gain > LEAST_GAIN:
            for place, block in _blocks(file):
                file.seek(place)
                file.write(np.clip(np.rint(block * gain), -FULL_SCALE, FULL_SCALE - 1).astype("<i2").tobytes())
    return False


def _blocks(file: BinaryIO) -> Iterator[tuple[int, "NDArray[Any]"]]:
    """Samples of a minute at a time, and where in the file they are."""
    import numpy as np

    place = WAV_HEADER_BYTES
    while True:
        file.seek(place)
        data = file.read(BLOCK_BYTES)
        if not data:
            return
        yield place, np.frombuffer(data, dtype="<i2").astype(np.float32)
        place += len(data)


def _peaks(file: BinaryIO) -> int:
    """The size that all but the loudest thousandth of the samples stay under."""
    import numpy as np

    counts = np.zeros(BINS, np.int64)
    for _, block in _blocks(file):
        counts += np.bincount(np.abs(block).astype(np.int32), minlength=BINS)
    return int(np.searchsorted(np.cumsum(counts), PEAKS * counts.sum()))
