"""The parts of a PNG file: its size before a pixel is read, and what a reader needs to see.

Chunks by the PNG specification (W3C, third edition, sections 5 and 11), from memory.
"""

from dataclasses import dataclass

from haywisp.measure.photographs.limits import MOST_PARTS

BEGINNING = b"\x89PNG\r\n\x1a\n"
#: Size, palette, transparency, colours, pixels and the end; everything else was written for others than the reader.
NEEDED = frozenset({b"IHDR", b"PLTE", b"tRNS", b"iCCP", b"IDAT", b"IEND"})


@dataclass(frozen=True, slots=True)
class PngParts:
    """What a PNG file has.

    Width and height, the chunks that a reader needs, what the camera wrote, how many frames a moving picture has, and
    whether its pixels begin and the file ends as it should.
    """

    size: tuple[int, int]
    interlaced: bool
    needed: bytearray
    exif: bytes
    frames: int
    begun: bool
    ended: bool


def png_parts(data: bytes) -> PngParts | None:
    """The parts of a PNG file, of which the last chunk may be cut; None where its first chunk is no header."""
    if data[12:16] != b"IHDR" or len(data) < 33:
        return None
    needed, exif, frames, kinds = bytearray(BEGINNING), b"", 1, set()
    at, kept_from = len(BEGINNING), len(BEGINNING)
    for _ in range(MOST_PARTS):
        if at + 8 > len(data):
            break
        kind, end = data[at + 4 : at + 8], at + 12 + int.from_bytes(data[at : at + 4], "big")
        if kind not in NEEDED:
            needed += memoryview(data)[kept_from:at]
            kept_from = min(end, len(data))
        if kind == b"eXIf":
            exif = data[at + 8 : end - 4]
        if kind == b"acTL":
            frames = int.from_bytes(data[at + 8 : at + 12], "big")
        at = end
        kinds.add(kind)
        if kind == b"IEND":
            break
    needed += memoryview(data)[kept_from : min(at, len(data))]
    size = (int.from_bytes(data[16:20], "big"), int.from_bytes(data[20:24], "big"))
    return PngParts(size, data[28] != 0, needed, exif, frames, b"IDAT" in kinds, b"IEND" in kinds)
