"""The refusals of the use cases: each owns a sentence that says what, where and what to do."""

from haywisp.errors import HaywispError


class NotFound(HaywispError):
    """Nothing is kept under that id."""

    def __init__(self, what: str, key: str, hint: str = "") -> None:
        super().__init__(f"There is no {what} “{key}”." + (f" {hint}" if hint else ""))
        self.what = what
        self.key = key


class Refused(HaywispError):
    """Asked for something that can't be done as it is; nothing was changed."""

    def __init__(self, sentence: str, problems: tuple[str, ...] = ()) -> None:
        super().__init__(sentence)
        self.problems = problems


class NothingReviewed(Refused):
    """A report was asked for of a visit in which nobody has stood by anything yet."""

    def __init__(self, proposed: int) -> None:
        waiting = "1 entry that was heard is" if proposed == 1 else f"{proposed} entries that were heard are"
        super().__init__(
            f"There is nothing to tell the owner yet: {waiting} still to be reviewed, and none is accepted. "
            "Look through them first."
            if proposed
            else "There is nothing to tell the owner yet: nothing is recorded of this visit. "
            "Give it the narration, or add entries by hand."
        )
        self.proposed = proposed


class Changed(HaywispError):
    """Someone else (or another window) saved a newer version first; nothing was changed."""

    def __init__(self, thread: str, version: int) -> None:
        super().__init__(
            f"This entry was changed since version {version} was shown. Nothing was saved: "
            "look at it again and repeat your change if it is still wanted."
        )
        self.thread = thread
        self.version = version
