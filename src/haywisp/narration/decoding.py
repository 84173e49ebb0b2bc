"""Bytes of a file to text: what can be read is read, the rest is refused with a sentence."""

import re

from haywisp.errors import HaywispError
from haywisp.narration.types import Problem

LIMIT_BYTES = 32 * 1024 * 1024
# The longer marks first: that of UTF-32 begins with that of UTF-16.
MARKS = (
    (b"\xef\xbb\xbf", "utf-8"),
    (b"\xff\xfe\0\0", "utf-32"),
    (b"\0\0\xfe\xff", "utf-32"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)
CONTROLS = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x84\x86-\x9f]")
# What no one can say or print: direction and width marks, and halves of letters.
UNSEEN = re.compile("[\u200b\u200e\u200f\u2060\ufeff\ud800-\udfff]")
BINARY_SHARE = 0.02


class Unreadable(HaywispError):
    """A file that can't be read as a narration."""

    def __init__(self, file_name: str, why: str, remedy: str) -> None:
        super().__init__(f"{file_name}: {why}. {remedy}")


def decode(data: bytes, file_name: str) -> tuple[str, tuple[Problem, ...]]:
    """Text of a file and what was mended; raises :class:`Unreadable` for empty, binary and oversized files."""
    if len(data) > LIMIT_BYTES:
        raise Unreadable(
            file_name, "the file is larger than 32 MB", "A transcript is far smaller: choose the text file."
        )
    text, problems = _decoded(data, file_name)
    odd = len(CONTROLS.findall(text)) + text.count("\ufffd")
    if odd > len(text) * BINARY_SHARE:
        raise _binary(file_name)
    text = clean(text)
    if not text.strip():
        raise Unreadable(file_name, "the file is empty", "Choose the transcript that the recorder or recogniser wrote.")
    return text, problems


def clean(text: str) -> str:
    """Text without characters that have neither sound nor shape; control characters become blanks."""
    return UNSEEN.sub("", CONTROLS.sub(" ", text))


def _decoded(data: bytes, file_name: str) -> tuple[str, tuple[Problem, ...]]:
    for mark, codec in MARKS:
        if data.startswith(mark):
            return _strict(data, codec, file_name).removeprefix("\ufeff"), ()
    if b"\0" in data:
        return _wide(data, file_name)
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError as fault:
        return _western(data, fault.start)


def _strict(data: bytes, codec: str, file_name: str) -> str:
    try:
        return data.decode(codec)
    except UnicodeDecodeError as fault:
        raise Unreadable(
            file_name,
            f"byte {fault.start} does not fit the encoding that the file says it has ({codec})",
            "Save it as UTF-8.",
        ) from fault


def _wide(data: bytes, file_name: str) -> tuple[str, tuple[Problem, ...]]:
    """UTF-16 that does not say so: in Western text every second byte is zero."""
    half = len(data) // 2
    first, second = data[0::2].count(0), data[1::2].count(0)
    codec = "utf-16-le" if second > first else "utf-16-be"
    if min(first, second) > half * BINARY_SHARE or max(first, second) < half * 0.6:
        raise _binary(file_name)
    try:
        text = data.decode(codec)
    except UnicodeDecodeError as fault:
        raise _binary(file_name) from fault
    return text, (
        Problem("whole file", "The file does not say its encoding; it was read as UTF-16. Check accented letters."),
    )


def _western(data: bytes, place: int) -> tuple[str, tuple[Problem, ...]]:
    line = data.count(b"\n", 0, place) + 1
    return data.decode("cp1252", errors="replace"), (
        Problem(f"line {line}", "The file is not UTF-8; it was read as Windows-1252. Check accented letters."),
    )


def _binary(file_name: str) -> Unreadable:
    return Unreadable(
        file_name,
        "this is not text (it looks like a sound, picture or program file)",
        "Choose a WebVTT, SRT, text or word-time JSON transcript.",
    )
