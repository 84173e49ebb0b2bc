"""What the record refuses."""

from haywisp.errors import HaywispError


class BadBody(HaywispError):
    """Fields that an entry of this part can't have; ``problems`` holds one sentence for each."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__(" ".join(problems))
        self.problems = problems


class BadIdentifier(HaywispError):
    """A number that no horse can have; ``what`` is the kind of number, ``text`` what was typed."""

    def __init__(self, what: str, text: str, wrong: str) -> None:
        super().__init__(f"The {what} “{text.strip()[:40]}” {wrong}.")
        self.what = what
        self.text = text
