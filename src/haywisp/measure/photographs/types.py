"""A photograph as it is kept, and where a point of it lies in its other sizes."""

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

#: ``original``: pixels as the file stores them; ``upright``: the same, turned as the camera was held; ``kept`` and
#: ``preview``: upright and scaled down.
Frame = Literal["original", "upright", "kept", "preview"]
Point = tuple[float, float]
#: Where a width and a height change places.
TURNED = frozenset({5, 6, 7, 8})


@dataclass(frozen=True, slots=True)
class PhotoSizes:
    """The sizes of one photograph in pixels, and the EXIF orientation (1 to 8) that makes its original upright.

    A HEIC is turned by boxes of its own as it is read: its original counts as upright, and its orientation is 1.
    """

    original_width: int
    original_height: int
    orientation: int
    kept_width: int
    kept_height: int
    preview_width: int
    preview_height: int

    @property
    def scale(self) -> float:
        """Kept pixels for each pixel of the original, at most 1."""
        return max(self.kept_width, self.kept_height) / max(self.original_width, self.original_height)

    def size(self, frame: Frame) -> tuple[int, int]:
        """Width and height of a frame in its own pixels."""
        stored = (self.original_width, self.original_height)
        sizes = {
            "original": stored,
            "upright": stored[::-1] if self.orientation in TURNED else stored,
            "kept": (self.kept_width, self.kept_height),
            "preview": (self.preview_width, self.preview_height),
        }
        return sizes[frame]

    def mapped(self, point: Point, start: Frame, end: Frame) -> Point:
        """A point (x, y) of one frame in another.

        In pixels from the outer corner of the first pixel, x along the rows and y down, so that the middle of that
        pixel is (0.5, 0.5) and the far corner is (width, height).
        """
        across, down = self._shares(point, start)
        if end == "original":
            across, down = stored(across, down, self.orientation)
        width, height = self.size(end)
        return across * width, down * height

    def _shares(self, point: Point, frame: Frame) -> Point:
        """A point as shares of the upright picture's width and height."""
        width, height = self.size(frame)
        across, down = point[0] / width, point[1] / height
        return upright(across, down, self.orientation) if frame == "original" else (across, down)


def upright(x: float, y: float, orientation: int) -> Point:
    """Shares of the stored picture as shares of the upright one.

    By the EXIF standard's places of row 0 and column 0 (CIPA DC-008, tag 0x0112; from memory): 6 has row 0 on the
    right and column 0 at the top.
    """
    return {
        1: (x, y),
        2: (1 - x, y),
        3: (1 - x, 1 - y),
        4: (x, 1 - y),
        5: (y, x),
        6: (1 - y, x),
        7: (1 - y, 1 - x),
        8: (y, 1 - x),
    }[orientation]


def stored(x: float, y: float, orientation: int) -> Point:
    """Shares of the upright picture as shares of the stored one; only the quarter turns are not their own inverse."""
    return upright(x, y, {6: 8, 8: 6}.get(orientation, orientation))


@dataclass(frozen=True, slots=True)
class CameraNotes:
    """What the camera wrote beside the picture and what measuring needs; the rest is not kept.

    ``taken_at`` has a time zone only where the camera wrote one. ``focal_35mm`` is the focal length in mm in terms of
    35 mm film. ``pixels`` is the width and height that the camera says it made: others than the original's mean that
    the picture was cropped or scaled since, and that ``focal_35mm`` may no longer be its own.
    """

    taken_at: datetime | None = None
    focal_35mm: float | None = None
    pixels: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class KeptPhoto:
    """A photograph made safe to keep: JPEG bytes, upright, sRGB, 8 bits a colour, without a word beside the pixels.

    ``sha256`` and ``byte_count`` are of the file that came; ``form`` is what it was. ``problems`` are sentences on
    what was mended, left out or not understood.
    """

    picture: bytes
    preview: bytes
    sizes: PhotoSizes
    camera: CameraNotes
    form: str
    sha256: str
    byte_count: int
    problems: tuple[str, ...] = ()
