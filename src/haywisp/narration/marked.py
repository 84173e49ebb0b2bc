"""Plain text with ``[m:ss]`` or ``[h:mm:ss]`` marks, or with no marks at all, to cues."""

import re

from haywisp.narration.cues import SECONDS_A_WORD, Cue, clock_seconds
from haywisp.narration.types import Problem

MARK = re.compile(r"\[(?:(\d{1,3}):)?(\d{1,3}):(\d{2})(?:[.,](\d{1,3}))?\]")


def has_marks(text: str) -> bool:
    """Whether a text carries any time mark."""
    return MARK.search(text) is not None


def read_marked(text: str) -> tuple[list[Cue], list[Problem]]:
    """One cue from each mark to the next, and what was mended; the last lasts as long as its words take to say."""
    marks = list(MARK.finditer(text))
    times = [clock_seconds(*mark.groups()) for mark in marks]
    cues: list[Cue] = []
    problems: list[Problem] = []
    opening = text[: marks[0].start()] if marks else ""
    if opening.strip():
        cues.append(Cue(0.0, times[0], opening, 1))
        problems.append(Problem("line 1", "No time stands before this text; it was placed at the start."))
    line = 1 + opening.count("\n")
    for place, mark in enumerate(marks):
        until = marks[place + 1].start() if place + 1 < len(marks) else len(text)
        body = text[mark.end() : until]
        start = times[place]
        end = times[place + 1] if place + 1 < len(marks) else start
        cues.append(Cue(start, end if end > start else start + SECONDS_A_WORD * len(body.split()), body, line))
        line += text.count("\n", mark.start(), until)
    return cues, problems


def read_untimed(text: str) -> list[Cue]:
    """A text without times, as if it were said at an ordinary pace."""
    cues: list[Cue] = []
    at = 0.0
    for number, line in enumerate(text.splitlines(), start=1):
        length = SECONDS_A_WORD * len(line.split())
        if length:
            cues.append(Cue(at, at + length, line, number))
            at += length
    return cues
