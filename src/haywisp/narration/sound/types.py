"""What is heard of a recording, step by step: JSON-able, so that a job can keep each step as soon as it is done."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from haywisp.narration.types import Problem, Transcript, Word

#: Samples a second of a working file; what the recognisers listen to.
RATE = 16_000


@dataclass(frozen=True, slots=True)
class Sound:
    """A working file, 16 kHz mono 16-bit WAV, and what was mended or lost when it was made."""

    path: Path
    seconds: float
    problems: tuple[Problem, ...] = ()

    def to_json(self) -> dict[str, Any]:
        return {
            "path": str(self.path),
            "seconds": self.seconds,
            "problems": [{"where": problem.where, "text": problem.text} for problem in self.problems],
        }

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "Sound":
        problems = tuple(Problem(str(row["where"]), str(row["text"])) for row in data.get("problems", ()))
        return cls(Path(data["path"]), float(data["seconds"]), problems)


@dataclass(frozen=True, slots=True)
class Chunk:
    """A stretch of a recording that is heard in one go: seconds from its start, 15 s at most."""

    start: float
    end: float

    def to_json(self) -> dict[str, Any]:
        return {"start": self.start, "end": self.end}

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "Chunk":
        return cls(float(data["start"]), float(data["end"]))


@dataclass(frozen=True, slots=True)
class Again:
    """A passage to listen to again.

    ``reason`` is ``unheard`` (speech with no words), ``loop`` (words repeat), ``prompted`` (a trade word heard only
    with the prompt) or ``dropped`` (the pass with the prompt lost words that the pass without it has).
    """

    start: float
    end: float
    reason: str

    def to_json(self) -> dict[str, Any]:
        return {"start": self.start, "end": self.end, "reason": self.reason}

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "Again":
        return cls(float(data["start"]), float(data["end"]), str(data["reason"]))


@dataclass(frozen=True, slots=True)
class ChunkHeard:
    """The words of a chunk, their times in seconds from the start of the recording, and what to listen to again."""

    chunk: Chunk
    words: tuple[Word, ...]
    again: tuple[Again, ...] = ()

    def to_json(self) -> dict[str, Any]:
        return {
            "chunk": self.chunk.to_json(),
            "words": [word_to_json(word) for word in self.words],
            "again": [passage.to_json() for passage in self.again],
        }

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "ChunkHeard":
        return cls(
            Chunk.from_json(data["chunk"]),
            tuple(word_from_json(row) for row in data["words"]),
            tuple(Again.from_json(row) for row in data["again"]),
        )


@dataclass(frozen=True, slots=True)
class Heard:
    """All that was heard of a recording; when it was stopped, ``complete`` is False and ``heard_until`` says where."""

    transcript: Transcript
    again: tuple[Again, ...]
    sound: Sound
    complete: bool = True
    heard_until: float = 0.0


def word_to_json(word: Word) -> dict[str, Any]:
    """A word in the word-time form that transcripts are read in."""
    row: dict[str, Any] = {"text": word.text, "start": round(word.start, 2), "end": round(word.end, 2)}
    return row if word.probability is None else {**row, "probability": round(word.probability, 3)}


def word_from_json(data: Mapping[str, Any]) -> Word:
    chance = data.get("probability")
    return Word(str(data["text"]), float(data["start"]), float(data["end"]), None if chance is None else float(chance))
