"""The refusals of the use cases: each owns a sentence that says what, where and what to do."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from haywisp.errors import HaywispError

if TYPE_CHECKING:
    from haywisp.usecases.views.shared import Namesakes


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


class TooLarge(Refused):
    """A narration's file that is larger than any transcript of a session; ``limit`` is in bytes."""

    def __init__(self, file_name: str, limit: int) -> None:
        super().__init__(
            f"{file_name} is larger than {limit // 1024**2} MB, so it was not read. A transcript of a whole session is "
            "far smaller: check that it is the transcript and not the sound recording. Nothing that was already kept "
            "has changed."
        )
        self.limit = limit


class QuestionsOpen(Refused):
    """A review can't be finished while questions wait for an answer; ``how`` tells how to do it all the same."""

    def __init__(self, waiting: int, how: str = "finish without") -> None:
        super().__init__(
            f"1 question is still open. Answer it first, or {how}: it then stays open in the record."
            if waiting == 1
            else f"{waiting} questions are still open. Answer them first, or {how}: they then stay open in the record."
        )
        self.waiting = waiting


class AlreadyKept(Refused):
    """Names that are kept already; ``how`` tells how to add another one all the same."""

    def __init__(self, namesakes: Sequence["Namesakes"], how: str = "say that this is another one") -> None:
        kept = (
            f"There is {'an' if one.what == 'owner' else 'a'} {one.what} called “{one.name}” already: "
            f"{', '.join(found.name for found in one.found)}."
            for one in namesakes
        )
        super().__init__(f"{' '.join(kept)} Take the one that is kept, or {how}. Nothing was added.")
        self.namesakes = tuple(namesakes)


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
