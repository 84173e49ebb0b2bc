"""What the camera wrote beside the picture: the few tags that measuring needs, read one by one.

EXIF is a TIFF file in small (CIPA DC-008, sections 4.5 and 4.6; tag numbers from memory, checked in the tests against
Pillow's writer). A reader of everything can be made to fill the memory by 64 kB of it; this one looks at seven tags.
"""

import struct
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta, timezone

from haywisp.measure.photographs.types import CameraNotes

ORIENTATION, EXIF_PART, FOCAL_35MM = 0x0112, 0x8769, 0xA405
#: When it was taken, else when it was made digital; each with the tag of its distance from world time. The time of
#: the last change (0x0132) is left out: other programs write it.
TIMES = ((0x9003, 0x9011), (0x9004, 0x9012))
WIDTH, HEIGHT = 0xA002, 0xA003
ASCII, SHORT, LONG = 2, 3, 4
LONGEST_TEXT = 40
MOST_FOCAL_35MM = 10_000
NOT_READ = "What the camera wrote beside the picture (EXIF) is damaged: its time, lens or turning may be missing."

Tags = dict[int, int | str]


@dataclass(frozen=True, slots=True)
class Exif:
    """The camera's notes, which way is up as EXIF counts it (1 to 8), and what could not be understood."""

    notes: CameraNotes = field(default_factory=CameraNotes)
    orientation: int = 1
    problems: tuple[str, ...] = ()


def read_exif(data: bytes) -> Exif:
    """The notes in a block of EXIF, with or without its heading; no bytes give no notes."""
    data = data.removeprefix(b"Exif\0\0")
    if not data:
        return Exif()
    problems: list[str] = []
    try:
        tags, whole = _tags(data)
    except (struct.error, ValueError):
        return Exif(problems=(NOT_READ,))
    if not whole:
        problems.append(NOT_READ)
    orientation = tags.get(ORIENTATION, 1)
    if not isinstance(orientation, int) or not 1 <= orientation <= 8:
        problems.append(
            f"The camera's note of which way is up makes no sense ({orientation}): the picture is not turned. Check "
            "that the horse stands upright in it."
        )
        orientation = 1
    return Exif(CameraNotes(_taken_at(tags), _focal(tags), _pixels(tags)), orientation, tuple(problems))


def _tags(data: bytes) -> tuple[Tags, bool]:
    """The wanted tags of the first list and of the camera's own; False beside them when a list is damaged."""
    order = {b"II*\0": "<", b"MM\0*": ">"}.get(data[:4])
    if order is None:
        raise ValueError

    def number(form: str, at: int) -> int:
        return int(struct.unpack_from(order + form, data, at)[0])

    tags, whole = _list(data, number("L", 4), number)
    part = tags.get(EXIF_PART)
    if isinstance(part, int):
        more, more_whole = _list(data, part, number)
        return {**more, **tags}, whole and more_whole
    return tags, whole


def _list(data: bytes, at: int, number: Callable[[str, int], int]) -> tuple[Tags, bool]:
    wanted = {ORIENTATION, EXIF_PART, FOCAL_35MM, WIDTH, HEIGHT, *(tag for pair in TIMES for tag in pair)}
    tags: Tags = {}
    try:
        for entry in range(at + 2, at + 2 + 12 * number("H", at), 12):
            tag = number("H", entry)
            if tag in wanted:
                tags[tag] = _value(data, entry, number)
    except struct.error:
        return tags, False
    return tags, True


def _value(data: bytes, entry: int, number: Callable[[str, int], int]) -> int | str:
    """The value of one entry; anything but a number or a short text is told as empty text."""
    kind, count = number("H", entry + 2), number("L", entry + 4)
    if kind == ASCII and count <= LONGEST_TEXT:
        start = entry + 8 if count <= 4 else number("L", entry + 8)
        return data[start : start + count].split(b"\0")[0].decode("ascii", "replace").strip()
    if kind in {SHORT, LONG} and count == 1:
        return number("H" if kind == SHORT else "L", entry + 8)
    return ""


def _taken_at(tags: Tags) -> datetime | None:
    for tag, zone_tag in TIMES:
        try:
            taken = datetime.strptime(str(tags.get(tag, "")), "%Y:%m:%d %H:%M:%S")
        except ValueError:
            continue
        return taken.replace(tzinfo=_zone(str(tags.get(zone_tag, ""))))
    return None


def _zone(text: str) -> timezone | None:
    """``+01:00`` as a time zone; None for anything else."""
    sign, hours, minutes = text[:1], text[1:3], text[4:]
    if sign not in {"+", "-"} or text[3:4] != ":" or not (hours + minutes).isdecimal() or len(minutes) != 2:
        return None
    away = timedelta(hours=int(hours), minutes=int(minutes))
    return timezone(-away if sign == "-" else away) if away < timedelta(hours=24) else None


def _focal(tags: Tags) -> float | None:
    focal = tags.get(FOCAL_35MM)
    return float(focal) if isinstance(focal, int) and 0 < focal <= MOST_FOCAL_35MM else None


def _pixels(tags: Tags) -> tuple[int, int] | None:
    width, height = tags.get(WIDTH), tags.get(HEIGHT)
    return (width, height) if isinstance(width, int) and isinstance(height, int) and width and height else None
