"""Files read and written for a command, with a sentence when that can't be done."""

from pathlib import Path

from haywisp.errors import HaywispError


class NoFile(HaywispError):
    """A file that can't be read or written."""

    def __init__(self, path: Path, what: str, why: str) -> None:
        super().__init__(f"{path} can't be {what}: {why}. Check the name and the folder.")


def read_file(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise NoFile(path, "read", _why(error)) from error


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
