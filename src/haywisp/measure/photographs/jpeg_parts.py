"""The parts of a JPEG file: its size and kind before a pixel is read, its passes, and what a reader needs to see.

Markers by ITU-T T.81 (ISO 10918-1), table B.1 and annex B.2, from memory.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from haywisp.measure.photographs.limits import MOST_PARTS

FRAMES = frozenset({*range(0xC0, 0xD0)} - {0xC4, 0xC8, 0xCC})
PROGRESSIVE = frozenset({0xC2, 0xC6, 0xCA, 0xCE})
ALONE = frozenset({0x01, *range(0xD0, 0xD9)})
SCAN, END, APP0, APP1, APP2, ADOBE = 0xDA, 0xD9, 0xE0, 0xE1, 0xE2, 0xEE
#: Tables, and how the colours are meant; everything else was written for others than the reader.
NEEDED = frozenset({0xC4, 0xCC, 0xDB, 0xDC, 0xDD, 0xDE, 0xDF, ADOBE}) | FRAMES
EXIF = b"Exif\0\0"
#: Needed too: that its colours are those of JFIF, and their profile.
NEEDED_NOTES = ((APP0, b"JFIF\0"), (APP2, b"ICC_PROFILE\0"))
# Within a scan a marker is a byte of ones before anything but a zero, another of them, or a restart.
MARKER_IN_SCAN = re.compile(rb"\xff[^\x00\xff\xd0-\xd7]", re.DOTALL)


@dataclass(frozen=True, slots=True)
class JpegParts:
    """What stands before the first scan: the frame, the segments a reader needs, and what the camera wrote.

    ``frame`` is the marker of the frame; ``components`` are their ids in order; ``scan_at`` is where the first scan's
    marker begins.
    """

    frame: int
    bits: int
    size: tuple[int, int]
    components: tuple[int, ...]
    needed: bytes
    exif: bytes
    scan_at: int


@dataclass(frozen=True, slots=True)
class Scan:
    """One pass: its components, its first and last coefficient, and whether its data are whole."""

    components: tuple[int, ...]
    first: int
    last: int
    whole: bool


def jpeg_parts(data: bytes) -> JpegParts | None:
    """The parts before the first scan; None when there is no frame or no scan."""
    frame: tuple[int, bytes] | None = None
    needed, exif = [b"\xff\xd8"], b""
    for marker, start, end in _segments(data, 2):
        body = data[start:end]
        if marker == SCAN:
            return None if frame is None else _parts(*frame, b"".join(needed), exif, start - 4)
        if marker == END:
            return None
        if marker in FRAMES:
            frame = (marker, body)
        if marker == APP1 and body.startswith(EXIF) and not exif:
            exif = body
        if marker in NEEDED or any(marker == one and body.startswith(start) for one, start in NEEDED_NOTES):
            needed.append(data[start - 4 : end])
    return None


def _parts(marker: int, body: bytes, needed: bytes, exif: bytes, scan_at: int) -> JpegParts | None:
    if len(body) < 6:
        return None
    size = (int.from_bytes(body[3:5], "big"), int.from_bytes(body[1:3], "big"))
    components = tuple(body[6::3][: body[5]])
    if not components:
        return None
    return JpegParts(marker, body[0], size, components, needed, exif, scan_at)


def _segments(data: bytes, at: int) -> Iterator[tuple[int, int, int]]:
    """Marker, beginning and end of each segment's body, to the last that ends in the file, and not without end."""
    for _ in range(MOST_PARTS):
        at = data.find(b"\xff", at)
        if at < 0 or at + 1 >= len(data):
            return
        marker = data[at + 1]
        if marker in {0x00, 0xFF}:
            at += 1
        elif marker in ALONE or marker == END:
            at += 2
            yield marker, at, at
        else:
            end = at + 2 + int.from_bytes(data[at + 2 : at + 4], "big")
            if end < at + 4 or end > len(data):
                return
            yield marker, at + 4, end
            at = end


def in_passes(data: bytes, parts: JpegParts) -> bool:
    """True when the first scan is not the whole picture, so that a reader holds all of it until the last."""
    first = next(scans(data[: parts.scan_at + 600], parts), None)
    return parts.frame in PROGRESSIVE or (first is not None and len(first.components) < len(parts.components))


def scans(data: bytes, parts: JpegParts) -> Iterator[Scan]:
    """Every scan up to the end of the picture; other pictures may follow it in the file."""
    at = parts.scan_at
    while True:
        marker, start, end = next((one for one in _segments(data, at) if one[0] in {SCAN, END}), (END, at, at))
        if marker == END:
            return
        body = data[start:end]
        found = MARKER_IN_SCAN.search(data, end)
        count = body[0] if body else 0
        first, last = (body[-3], body[-2]) if len(body) >= 3 else (0, 0)
        yield Scan(tuple(body[1 : 1 + 2 * count : 2]), first, last, found is not None)
        if found is None:
            return
        at = found.start()
