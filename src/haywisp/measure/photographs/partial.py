"""As much of a picture as there is in a file, from the top, and how much that is."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.ImageFile import ImageFile

#: What a picture is filled with before it is read, so that rows which were never read are told from black ones.
FILL: dict[str, int | tuple[int, ...]] = {
    "1": 1,
    "L": 1,
    "P": 255,
    "I;16": 1,
    "LA": (1, 254),
    "RGB": (1, 254, 3),
    "RGBA": (1, 254, 3, 5),
    "CMYK": (1, 254, 3, 250),
}
#: The modes whose fill no row of a photograph has from end to end.
SURE = frozenset({"LA", "RGB", "RGBA", "CMYK"})
ROWS = 64


@dataclass(frozen=True, slots=True)
class Loss:
    """The part of the height that is missing below, 0 to 1, and whether the file ended too early or is damaged."""

    part: float = 0.0
    cut: bool = False
    damaged: bool = False


def load(image: "ImageFile") -> Loss:
    """Read a picture that was opened; what can't be read keeps the colour of :data:`FILL`."""
    from PIL import Image

    image.im = Image.new(image.mode, image.size, FILL.get(image.mode, 0)).im
    try:
        image.load()
    except (OSError, SyntaxError, ValueError, IndexError) as fault:
        image.tile = []
        cut = "truncated" in str(fault)
        return Loss(1 - _rows_read(image) / image.height, cut, not cut)
    # Packed pixels that come to their own end too early are no fault to their reader.
    part = 1 - _rows_read(image) / image.height if image.mode in SURE else 0.0
    return Loss(part, cut=part > 0)


def _rows_read(image: "ImageFile") -> int:
    import numpy as np

    blank = np.tile(np.atleast_1d(np.asarray(FILL.get(image.mode, 0))), image.width)
    for end in range(image.height, 0, -ROWS):
        start = max(0, end - ROWS)
        rows = np.asarray(image.crop((0, start, image.width, end))).reshape(end - start, -1)
        read = np.flatnonzero((rows != blank).any(axis=1))
        if len(read):
            return start + int(read[-1]) + 1
    return 0


class Joined(io.RawIOBase):
    """Pieces of bytes read as one file, without a copy of them."""

    def __init__(self, pieces: Sequence[bytes | memoryview]) -> None:
        self._pieces = tuple(memoryview(piece) for piece in pieces)
        self._at = 0

    def readable(self) -> bool:
        """True: it may be read."""
        return True

    def seekable(self) -> bool:
        """True: it may be read again."""
        return True

    def tell(self) -> int:
        """Bytes from the beginning."""
        return self._at

    def seek(self, offset: int, whence: int = io.SEEK_SET) -> int:
        """Go on from a place, counted as files count it."""
        start = {io.SEEK_SET: 0, io.SEEK_CUR: self._at, io.SEEK_END: sum(map(len, self._pieces))}[whence]
        self._at = max(0, start + offset)
        return self._at

    def read(self, size: int = -1) -> bytes:
        """Up to so many bytes; all that are left for a negative number."""
        left = sum(map(len, self._pieces)) - self._at if size < 0 else size
        got, start = [], 0
        for piece in self._pieces:
            at = self._at - start
            if left > 0 and at < len(piece):
                got.append(bytes(piece[at : at + left]))
                self._at += len(got[-1])
                left -= len(got[-1])
            start += len(piece)
        return b"".join(got)
