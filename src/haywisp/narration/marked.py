"""Plain text with ``[m:ss]`` or ``[h:mm:ss]`` marks, or with no marks at all, to cues."""

import re

from haywisp.narration.cues import SECONDS_A_WORD, Cue, clock_seconds

MARK = re.compile(r"\[(?:(\d{1,3}):)?(\d{1,3}):(\d{2})(?:[.,](\d{1,3}))?\]")


def has_marks(text: str) -> bool:
    """Whether a text carries any time mark."""
    return MARK.search(text) is not None


def read_marked(text: str) -> list[Cue]:
    """One cue from each mark to the next; the last lasts as long as its words take to say."""
    marks = list(MARK.finditer(text))
    cues: list[Cue] = []
    for place, mark in enumerate(marks):
        until = marks[place + 1].start() if place + 1 < len(marks) else len(text)
        body = text[mark.end() : until]
        start = clock_seconds(mark[1], mark[2], mark[3], mark[4] or "0")
        if place + 1 < len(marks):
            following = marks[place + 1]
            end = clock_seconds(following[1], following[2], following[3], following[4] or "0")
        else:
            end = start + SECONDS_A_WORD * len(body.split())
        line = text.count("\n", 0, mark.start()) + 1
        cues.append(Cue(start, end if end > start else start + SECONDS_A_WORD * len(body.split()), body, line))
    return cues


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
