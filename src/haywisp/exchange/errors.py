"""Why a file could not be taken in."""

from haywisp.errors import HaywispError


class BadFile(HaywispError):
    """A file that is not what it should be: what kind was wanted, where it is wrong and how."""

    def __init__(self, kind: str, problems: tuple[str, ...]) -> None:
        self.kind = kind
        self.problems = problems
        shown = "; ".join(problems[:3])
        more = f"; and {len(problems) - 3} more" if len(problems) > 3 else ""
        super().__init__(f"This is not a {kind} that can be read: {shown}{more}. Nothing was taken in from it.")
