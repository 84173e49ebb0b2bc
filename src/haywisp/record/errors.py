"""What the record refuses."""

from haywisp.errors import HaywispError


class BadBody(HaywispError):
    """Fields that an entry of this part can't have; ``problems`` holds one sentence for each."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__(" ".join(problems))
        self.problems = problems
