"""What the pages and the command line show of the recordings of a visit."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class PassageView:
    """A passage to listen to again. Times in seconds of the narration; ``number`` is its place in its recording."""

    recording: str
    number: int
    start: float
    end: float
    time: str
    reason: str
    why: str
    listened: bool
    typed: str


@dataclass(frozen=True, slots=True)
class SoundPiece:
    """Which recording is heard from ``start`` to ``end`` seconds of a narration; its own time starts at 0."""

    recording: str
    start: float
    end: float
    kept: bool = True


@dataclass(frozen=True, slots=True)
class RecordingRow:
    """A recording and how far it is.

    ``done`` of ``parts`` are heard, ``left`` is how long the rest will take in words. ``in_record`` tells whether its
    words are the visit's narration, or part of it; ``arrived`` is how many pieces of an unfinished one are here.
    """

    id: str
    visit_id: str
    began_at: datetime
    title: str
    state: str
    state_name: str
    length: str
    size: str
    sentence: str
    parts: int
    done: int
    left: str
    in_record: bool
    passages: int
    arrived: int
    stuck: bool
    playable: bool

    @property
    def moving(self) -> bool:
        """Whether it changes by itself."""
        return self.state in {"waiting", "hearing"}


@dataclass(frozen=True, slots=True)
class Sounds:
    """What can be listened to on the page of what was said."""

    pieces: tuple[SoundPiece, ...]
    passages: tuple[PassageView, ...]
    typed_waiting: int
    stays: int
    goes: int
