"""What the conclusions refuse."""

from haywisp.errors import HaywispError


class BadScore(HaywispError):
    """A score that its scale doesn't have; ``most`` is the highest."""

    def __init__(self, scale: str, value: object, most: int) -> None:
        super().__init__(f"{scale} can be a whole number from 0 to {most}; “{value}” isn't. Look at the scale again.")
        self.scale = scale
        self.value = value
