"""What was done: bouts with the horse's answers to each."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class AnsweredBout:
    """A bout as recorded, with the signs that fell within it or shortly after, and their weighted sum (settling >
    0).
    """

    thread: str
    technique: str
    structures: tuple[str, ...]
    side: str | None
    start_s: float
    end_s: float
    pressure: str | None
    signs: tuple[str, ...]
    answer: float


@dataclass(frozen=True, slots=True)
class SessionLog:
    """One session: its bouts in time, and by (structure, side) the lightest pressure that was guarded against."""

    bouts: tuple[AnsweredBout, ...]
    guarded: Mapping[tuple[str, str | None], str]
