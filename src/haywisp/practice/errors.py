"""What the practice refuses."""

from haywisp.errors import HaywispError


class BadAgreement(HaywispError):
    """An agreement, or a place's rule, that can't be kept as it is; ``wrong`` says what is to be mended."""

    def __init__(self, wrong: str) -> None:
        super().__init__(f"This agreement can't be kept: {wrong}.")
        self.wrong = wrong
