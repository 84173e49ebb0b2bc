"""Bytes of a file to text: what can be read is read, the rest is refused with a sentence."""

from haywisp.errors import HaywispError
from haywisp.narration.types import Problem

LIMIT_BYTES = 32 * 1024 * 1024


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
    if not data.strip():
        raise Unreadable(file_name, "the file is empty", "Choose the transcript that the recorder or recogniser wrote.")
    for mark, codec in ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16")):
        if data.startswith(mark):
            return _strict(data, codec, file_name), ()
    if b"\0" in data:
        raise _binary(file_name)
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError as fault:
        return _western(data, fault.start, file_name)


def _strict(data: bytes, codec: str, file_name: str) -> str:
    try:
        return data.decode(codec)
    except UnicodeDecodeError as fault:
        raise Unreadable(
            file_name,
            f"byte {fault.start} does not fit the encoding that the file says it has ({codec})",
            "Save it as UTF-8.",
        ) from fault


def _western(data: bytes, place: int, file_name: str) -> tuple[str, tuple[Problem, ...]]:
    text = data.decode("cp1252", errors="replace")
    odd = sum(1 for letter in text if letter == "�" or (ord(letter) < 32 and letter not in "\t\r\n\f"))
    if odd > len(text) // 200:
        raise _binary(file_name)
    line = data.count(b"\n", 0, place) + 1
    return text, (
        Problem(f"line {line}", "The file is not UTF-8; it was read as Windows-1252. Check accented letters."),
    )


def _binary(file_name: str) -> Unreadable:
    return Unreadable(
        file_name,
        "this is not text (it looks like a sound, picture or program file)",
        "Choose a WebVTT, SRT, text or word-time JSON transcript.",
    )
