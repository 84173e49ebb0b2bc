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


class Changed(HaywispError):
    """Someone else (or another window) saved a newer version first; nothing was changed."""

    def __init__(self, thread: str, version: int) -> None:
        super().__init__(
            f"This entry was changed since version {version} was shown. Nothing was saved: "
            "look at it again and repeat your change if it is still wanted."
        )
        self.thread = thread
        self.version = version
