"""Subtitle cues to timed words: WebVTT (W3C) and SubRip, whose cues have the same parts."""

import re
from dataclasses import dataclass

from haywisp.narration.types import Problem, Word

TIMES = re.compile(
    r"^\s*(?:(\d+):)?(\d{1,2}):(\d{1,2})[.,](\d{1,3})\s*-->\s*(?:(\d+):)?(\d{1,2}):(\d{1,2})[.,](\d{1,3})"
)
TAG = re.compile(r"<[^<>]*>")
ENTITIES = {"&amp;": "&", "&lt;": "<", "&gt;": ">", "&nbsp;": " ", "&lrm;": "", "&rlm;": ""}
SECONDS_A_WORD = 0.4


@dataclass(frozen=True, slots=True)
class Cue:
    """A piece of text with its times in seconds, and the line of the file that it began on."""

    start: float
    end: float
    text: str
    line: int


def clock_seconds(hours: str | None, minutes: str, seconds: str, fraction: str = "0") -> float:
    """Seconds of a clock reading."""
    return int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds) + float(f"0.{fraction}")


def read_cues(text: str) -> list[Cue]:
    """Cues of a WebVTT or SubRip text in file order; headers, notes, styles and cue names are passed over."""
    cues: list[Cue] = []
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    place = 0
    while place < len(lines):
        times = TIMES.match(lines[place])
        if not times:
            place += 1
            continue
        start, end = clock_seconds(*times.groups()[:4]), clock_seconds(*times.groups()[4:])
        body: list[str] = []
        line = place + 1
        place += 1
        while place < len(lines) and lines[place].strip() and not TIMES.match(lines[place]):
            body.append(lines[place])
            place += 1
        # A SubRip number that follows at once belongs to the next cue, not to this one's text.
        if body and body[-1].strip().isdigit() and place < len(lines) and TIMES.match(lines[place]):
            body.pop()
        cues.append(Cue(start, end, plain(" ".join(body)), line))
    return cues


def plain(text: str) -> str:
    """A cue's text without tags and character entities."""
    bare = TAG.sub(" ", text)
    for entity, letter in ENTITIES.items():
        bare = bare.replace(entity, letter)
    return bare


def in_order(cues: list[Cue]) -> tuple[list[Cue], list[Problem]]:
    """Cues by time, with overlaps trimmed and impossible ends mended; what was done is told."""
    problems: list[Problem] = []
    for before, after in zip(cues, cues[1:], strict=False):
        if after.start < before.start:
            problems.append(
                Problem(f"line {after.line}", "The times go backwards here; the pieces were put in order of time.")
            )
    ordered = sorted(cues, key=lambda cue: cue.start)
    mended: list[Cue] = []
    for place, cue in enumerate(ordered):
        end = cue.end
        if end < cue.start:
            end = cue.start + SECONDS_A_WORD * max(1, len(cue.text.split()))
            problems.append(Problem(f"line {cue.line}", "This piece ends before it starts; its end was estimated."))
        if place + 1 < len(ordered) and end > ordered[place + 1].start:
            if end > ordered[place + 1].start + 0.05:
                problems.append(
                    Problem(f"line {cue.line}", "This piece overlaps the next; it was cut where the next begins.")
                )
            end = ordered[place + 1].start
        mended.append(Cue(cue.start, end, cue.text, cue.line))
    return mended, problems


def spread(cues: list[Cue]) -> list[Word]:
    """Words of cues, each cue's time shared out by the letters of its words."""
    words: list[Word] = []
    for number, cue in enumerate(cues):
        parts = cue.text.split()
        total = sum(len(part) + 1 for part in parts)
        at = cue.start
        for part in parts:
            length = (cue.end - cue.start) * (len(part) + 1) / total
            words.append(Word(part, round(at, 3), round(at + length, 3), None, number))
            at += length
    return words
