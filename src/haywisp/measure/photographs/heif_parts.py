"""The parts of a HEIF file: what the camera wrote, and the file as a reader may see it.

Boxes by ISO 14496-12 (8.11: ``meta``, ``iloc``, ``iinf``) and ISO 23008-12 (annex A: EXIF), from memory; the tests read
what the reader's own library writes.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from haywisp.measure.photographs.forms import boxes
from haywisp.measure.photographs.limits import MOST_EXIF_BYTES, MOST_LISTS_BYTES

# Notes, their ties to pictures, and groups of pictures: a reader copies what they name, and again for every picture.
NOTES = (b"Exif", b"mime", b"uri ", b"cdsc", b"grpl")
UNKNOWN = b"none"


@dataclass(frozen=True, slots=True)
class HeifParts:
    """The file with its notes made unknown to a reader, and its EXIF.

    ``claimed_bytes`` is what all its items claim to have: more than the file has only where they claim the same.
    """

    needed: bytes
    claimed_bytes: int
    exif: bytes


def heif_parts(data: bytes) -> HeifParts | None:
    """The parts of a HEIF file; None where its lists are too long, and EXIF that can't be found is none."""
    places = [(start, end) for kind, start, end in boxes(data) if kind == b"meta"]
    lists_bytes = sum(end - start for start, end in places)
    if lists_bytes > MOST_LISTS_BYTES:
        return None
    pieces: list[bytes | memoryview] = []
    at, claimed, exif = 0, 0, b""
    for start, end in places:
        lists = data[start:end]
        inner = {kind: lists[4:][first:last] for kind, first, last in boxes(lists[4:])}
        items, spots = list(_items(inner.get(b"iinf", b""))), list(_places(inner.get(b"iloc", b"")))
        claimed += sum(spot.length for spot in spots)
        exif = exif or _exif(data, items, spots)
        for note in NOTES:
            lists = lists.replace(note, UNKNOWN)
        pieces += [memoryview(data)[at:start], lists]
        at = end
    needed = b"".join((*pieces, memoryview(data)[at:]))
    return HeifParts(needed, claimed, exif)


def _exif(data: bytes, items: list[tuple[int, bytes]], places: list["_Place"]) -> bytes:
    """The first block of EXIF; it begins with how many bytes stand before its TIFF part."""
    wanted = next((number for number, kind in items if kind == b"Exif"), None)
    for place in places:
        if place.item == wanted and place.whole and 4 < place.length <= MOST_EXIF_BYTES:
            body = data[place.start : place.start + place.length]
            return body[4 + int.from_bytes(body[:4], "big") :]
    return b""


def _items(body: bytes) -> Iterator[tuple[int, bytes]]:
    """Number and kind of every item."""
    for _, start, end in boxes(body[6 if body[:1] == b"\0" else 8 :]):
        entry = body[6 if body[:1] == b"\0" else 8 :][start:end]
        wide = 4 if entry[:1] == b"\3" else 2
        yield int.from_bytes(entry[4 : 4 + wide], "big"), entry[6 + wide : 10 + wide]


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a piece of an item lies; ``whole`` when it is all of the item, and in the file itself."""

    item: int
    start: int
    length: int
    whole: bool


def _places(body: bytes) -> Iterator[_Place]:
    read = _Numbers(body)
    version = read.number(4) >> 24
    sizes = read.number(2)
    offset, length, base, index = (sizes >> shift & 15 for shift in (12, 8, 4, 0))
    wide = 4 if version == 2 else 2
    if not offset + length:
        return
    for _ in range(min(read.number(wide), len(body))):
        item = read.number(wide)
        elsewhere = read.number(2) & 15 if version else 0
        elsewhere |= read.number(2)
        start, pieces = read.number(base), read.number(2)
        for _ in range(min(pieces, len(body))):
            read.number(index if version else 0)
            yield _Place(item, start + read.number(offset), read.number(length), pieces == 1 and not elsewhere)
            if read.at > len(body):
                return


@dataclass(slots=True)
class _Numbers:
    """Whole numbers of any width, one after the other; noughts after the end."""

    body: bytes
    at: int = 0

    def number(self, width: int) -> int:
        self.at += width
        return int.from_bytes(self.body[self.at - width : self.at], "big")
