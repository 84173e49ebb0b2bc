"""The fault of a knowledge table: which file, which row, and what is wrong with it."""

from haywisp.errors import HaywispError


class KnowledgeFault(HaywispError):
    """A table that can't be used; the text tells where to mend it."""

    def __init__(self, file: str, row: str, wrong: str) -> None:
        self.file, self.row, self.wrong = file, row, wrong
        where = f"{file}, row {row!r}" if row else file
        super().__init__(f"Knowledge table {where}: {wrong} Mend the file and start again.")
