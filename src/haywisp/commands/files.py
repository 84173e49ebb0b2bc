"""Files read and written for a command, with a sentence when that can't be done."""

from pathlib import Path

from haywisp.errors import HaywispError


class NoFile(HaywispError):
    """A file that can't be read or written."""

    def __init__(self, path: Path, what: str, why: str) -> None:
        super().__init__(f"{path} can't be {what}: {why}. Check the name and the folder.")


def read_file(path: Path, limit: int | None = None) -> bytes:
    """The bytes of a file; with a ``limit`` one byte more than it at most, so that a larger file can be refused."""
    try:
        with path.open("rb") as file:
            return file.read() if limit is None else file.read(limit + 1)
    except OSError as error:
        raise NoFile(path, "read", _why(error)) from error


def as_text(data: bytes, path: Path) -> str:
    """The text of a file's bytes."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise NoFile(path, "read", "it is no text in UTF-8") from error


def read_narration(path: Path) -> bytes:
    """The bytes of a narration's file; of one that is too large, enough to be refused as that."""
    from haywisp.usecases.listening import LARGEST_FILE

    return read_file(path, LARGEST_FILE)


def write_file(path: Path, data: bytes) -> None:
    """Written beside and then moved into place, so that a failure leaves the file that was there."""
    part = path.with_name(path.name + ".part")
    try:
        part.write_bytes(data)
        part.replace(path)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise NoFile(path, "written", _why(error)) from error


def _why(error: OSError) -> str:
    return (error.strerror or type(error).__name__).lower()
