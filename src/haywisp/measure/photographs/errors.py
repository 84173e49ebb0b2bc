"""Why a photograph is not taken in, each with what to do."""

from haywisp.errors import HaywispError
from haywisp.measure.photographs.limits import LEAST_PART, LEAST_SIDE_PX, MOST_BYTES, MOST_SCANS

FORMS = "JPEG, HEIC, PNG or WebP"
LONGEST_NAME = 80


def shown(name: str) -> str:
    """A file's name as a sentence can bear it: no control characters, and not endless."""
    plain = "".join(letter if letter.isprintable() else "?" for letter in name.strip())
    return (plain if len(plain) <= LONGEST_NAME else f"{plain[:LONGEST_NAME]}…") or "The file"


class NotTaken(HaywispError):
    """A photograph that is not taken in; nothing was changed."""


class UnreadableFile(NotTaken):
    """A path that gives no bytes."""

    def __init__(self, name: str, why: str) -> None:
        super().__init__(
            f"{shown(name)} can't be read: {why}. Check that the file is there and may be read, and give it again."
        )


class StillGrowing(NotTaken):
    """A file that changed while it was read."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{shown(name)} is still being written: it changed while it was read. Wait until it is copied whole, and "
            "give it again."
        )


class EmptyPhoto(NotTaken):
    """A file of no bytes."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{shown(name)} is empty: nothing was copied into it. Give the photograph itself.")


class TooManyBytes(NotTaken):
    """A file past the limit."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{shown(name)} has more than {MOST_BYTES // 1_000_000} MB, the most that is read. Export the photograph "
            "as a JPEG and give that."
        )


class NotAPhoto(NotTaken):
    """A file of another form, told from its content."""

    def __init__(self, name: str, form: str, do: str) -> None:
        super().__init__(f"{shown(name)} is {form}, whatever its name says. {do}")


class TooManyPixels(NotTaken):
    """A picture whose header says that it is larger than what is read of its form."""

    def __init__(self, name: str, form: str, size: tuple[int, int], most: int) -> None:
        super().__init__(
            f"{shown(name)} says that it is {size[0]} × {size[1]} pixels, more than the {most // 1_000_000} million "
            f"that are read of a {form}. Export it smaller, as a JPEG, and give that."
        )


class TooManyScans(NotTaken):
    """A JPEG in so many passes that reading it would take hours."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{shown(name)} is a JPEG in more than {MOST_SCANS} passes, which no camera makes. Export it again as an "
            "ordinary JPEG and give that."
        )


class TooSmall(NotTaken):
    """A picture in which no landmark can be placed."""

    def __init__(self, name: str, size: tuple[int, int], kept: tuple[int, int]) -> None:
        of = "" if kept == size else f", kept at {kept[0]} × {kept[1]}"
        super().__init__(
            f"{shown(name)} is {size[0]} × {size[1]} pixels{of}: too small to place landmarks in. Give the photograph "
            f"itself, not its preview; its shorter side needs {LEAST_SIDE_PX} pixels."
        )


class CutShort(NotTaken):
    """A picture of which too little is there; of a form that can only be read whole, anything is too little."""

    def __init__(self, name: str, whole_only: str = "") -> None:
        why = f"and {whole_only} can only be read whole" if whole_only else f"less than {LEAST_PART:.0%} of it is there"
        super().__init__(
            f"{shown(name)} is cut short, {why}. Copy it from the phone or camera again; the file is untouched."
        )


class DamagedPhoto(NotTaken):
    """A file whose form is known and whose picture can't be read."""

    def __init__(self, name: str, form: str) -> None:
        super().__init__(
            f"{shown(name)} is a {form} that can't be read: it is damaged, or of a rare kind. Copy it from the phone "
            "or camera again, or export it as an ordinary JPEG and give that."
        )
