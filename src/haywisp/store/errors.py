"""What the store refuses, each with its sentence."""

from haywisp.errors import HaywispError


class StoreError(HaywispError):
    """Something that the store could not do; nothing of the unit was kept."""


class Stale(StoreError):
    """An entry version that doesn't follow the newest one of its thread: somebody else changed it in between."""

    def __init__(self, thread: str, version: int, newest: int) -> None:
        super().__init__(
            f"This entry was changed in the meantime: version {newest} is the newest, so version {version} can't be"
            " added. Nothing was changed; look at the entry as it is now and make the change again."
        )
        self.thread = thread
        self.version = version
        self.newest = newest


class Unstorable(StoreError):
    """A value that no database can keep whole, such as text with a NUL character or a number that is not finite."""

    def __init__(self, what: str, field: str, why: str) -> None:
        super().__init__(f"The {field.replace('_', ' ')} of this {what} can't be kept: {why}. Nothing was changed.")
        self.what = what
        self.field = field


class Conflict(StoreError):
    """A row whose id is used already, or that points at something that isn't there."""

    def __init__(self, what: str, why: str) -> None:
        super().__init__(f"The {what} was not kept: {why}. Nothing was changed; open the page again and retry.")
        self.what = what


class Busy(StoreError):
    """Another program held the database for longer than the store waits."""

    def __init__(self) -> None:
        super().__init__(
            "The record is being written to by somebody else and did not become free in time."
            " Nothing was changed; try again in a moment."
        )


class Unreachable(StoreError):
    """The database server, or the file, could not be opened or was lost on the way."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"The database {where} can't be reached: {why.strip().rstrip('.')}."
            " Check that it exists and may be read and written, then try again."
        )


class WrongDatabase(StoreError):
    """An address that isn't a database Haywisp knows, or a database that isn't Haywisp's or is newer than it."""

    def __init__(self, where: str, why: str, act: str) -> None:
        super().__init__(f"{where} can't be used as Haywisp's database: {why}. {act}")
