"""Seconds, memory and growth over transcripts of many lengths, made by saying the demo narrations one after another."""

import math
import tracemalloc
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from importlib.resources import files
from random import Random
from time import process_time

from haywisp.knowledge import Tables
from haywisp.narration import Transcript, Word, read_bytes, understand

GAP_S = 4.0
STOP = "stop-session"


@dataclass(frozen=True)
class Measured:
    """One length: its minutes and words, the least CPU seconds of some repeats, and the most memory in megabytes."""

    minutes: float
    words: int
    seconds: float
    megabytes: float


def narrations(seed: int, tables: Tables) -> list[Transcript]:
    """The demo narrations in an order that the seed gives, but for those in which the session is stopped."""
    folder = files("haywisp.demo") / "narrations"
    found = sorted((file for file in folder.iterdir() if file.is_file()), key=lambda file: file.name)
    read = [read_bytes(file.read_bytes(), file.name) for file in found]
    made = [part for part in read if all(action.kind != STOP for action in understand(part, tables).actions)]
    Random(seed).shuffle(made)
    return made


def of_length(minutes: float, parts: Sequence[Transcript]) -> Transcript:
    """Narrations said one after another for so many minutes."""
    words: list[Word] = []
    at = 0.0
    while True:
        for part in parts:
            for word in part.words:
                if at + word.end > minutes * 60:
                    return Transcript(tuple(words), "vtt")
                words.append(replace(word, start=round(at + word.start, 3), end=round(at + word.end, 3)))
            at = words[-1].end + GAP_S


def measured(
    minutes: Sequence[float], parts: Sequence[Transcript], work: Callable[[Transcript], object], again: int
) -> list[Measured]:
    """One row for each length; what is made once (a lexicon, an index) is made before."""
    work(of_length(minutes[0], parts))
    rows = []
    for length in minutes:
        transcript = of_length(length, parts)
        seconds = cpu(lambda transcript=transcript: work(transcript), again)  # type: ignore[misc]
        memory = peak_mb(lambda transcript=transcript: work(transcript))  # type: ignore[misc]
        rows.append(Measured(length, len(transcript.words), seconds, memory))
    return rows


def cpu(work: Callable[[], object], again: int) -> float:
    """The least CPU seconds of several runs."""
    taken = []
    for _ in range(again):
        start = process_time()
        work()
        taken.append(process_time() - start)
    return min(taken)


def peak_mb(work: Callable[[], object]) -> float:
    """The most memory that Python held during some work, in megabytes."""
    tracemalloc.start()
    work()
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most / 1e6


def slope(rows: Sequence[Measured]) -> float:
    """The exponent of growth: the least-squares slope of log seconds over log words (1 is proportional)."""
    xs = [math.log(row.words) for row in rows]
    ys = [math.log(max(row.seconds, 1e-9)) for row in rows]
    middle_x, middle_y = sum(xs) / len(xs), sum(ys) / len(ys)
    across = sum((x - middle_x) * (y - middle_y) for x, y in zip(xs, ys, strict=True))
    return across / sum((x - middle_x) ** 2 for x in xs)
