"""Which characters the packaged typeface can print, and what is printed in place of the rest."""

import struct
import unicodedata
from functools import cache
from importlib.resources import files

FONT = "DejaVuSansCondensed.ttf"
FULL_UNICODE = 12
# Invisible characters that only steer the look of their neighbours: emoji variants, joiners, marks of the byte order.
DROPPED = frozenset(map(chr, [0x200B, 0x200C, 0x200D, 0x2060, 0xFEFF, *range(0xFE00, 0xFE10)]))


def printable(text: str) -> str:
    """``text`` with every character that the typeface lacks written out by its name in square brackets."""
    whole = unicodedata.normalize("NFC", text)
    return "".join(char if _can_print(char) else _instead(char) for char in whole)


def unprintable(text: str) -> tuple[str, ...]:
    """The characters of ``text`` that the typeface lacks, each once, in order."""
    whole = unicodedata.normalize("NFC", text)
    return tuple(dict.fromkeys(char for char in whole if not _can_print(char) and _instead(char).strip()))


def _can_print(char: str) -> bool:
    return char == "\n" or (ord(char) in _coverage() and char not in DROPPED and unicodedata.category(char) != "Cc")


def _instead(char: str) -> str:
    if char in DROPPED:
        return ""
    if unicodedata.category(char) == "Cc":
        return " "
    return f"[{unicodedata.name(char, f'U+{ord(char):04X}').lower()}]"


@cache
def _coverage() -> frozenset[int]:
    """The code points in the font's character map (OpenType ``cmap``, format 12)."""
    data = (files("haywisp.report") / "fonts" / FONT).read_bytes()
    cmap = _table(data, b"cmap")
    count = struct.unpack_from(">H", data, cmap + 2)[0]
    for record in range(count):
        start = cmap + struct.unpack_from(">I", data, cmap + 4 + 8 * record + 4)[0]
        if struct.unpack_from(">H", data, start)[0] == FULL_UNICODE:
            groups = struct.unpack_from(">I", data, start + 12)[0]
            ranges = (struct.unpack_from(">II", data, start + 16 + 12 * group) for group in range(groups))
            return frozenset(code for first, last in ranges for code in range(first, last + 1))
    return frozenset(range(0x20, 0x7F))


def _table(data: bytes, tag: bytes) -> int:
    """Where a table of an OpenType font begins."""
    for record in range(struct.unpack_from(">H", data, 4)[0]):
        name, _, offset, _ = struct.unpack_from(">4sIII", data, 12 + 16 * record)
        if name == tag:
            return int(offset)
    return 0
