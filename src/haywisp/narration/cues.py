"""Subtitle cues to timed words: WebVTT (W3C) and SubRip, whose cues have the same parts."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from html import unescape

from haywisp.narration.decoding import clean
from haywisp.narration.types import Problem, Word

# Hours have at most four digits: more are no time that a person recorded.
CLOCK = r"(?:(\d{1,4}):)?(\d{1,2}):(\d{1,2})(?:[.,](\d{1,9}))?"
TIMES = re.compile(rf"^\s*{CLOCK}\s*-->\s*{CLOCK}(?![\d:.,])")
BROKEN_TIMES = re.compile(r"^\s*[\d:.,\s-]*-->")
NO_SPEECH = ("NOTE", "STYLE", "REGION")
BREAK = re.compile(r"<br\s*/?>", re.IGNORECASE)
# Tags begin with a letter, or are the time of the next word; "<5 and >3" is text. Braces are how players place a cue.
TAG = re.compile(r"</?[A-Za-z][^<>]*>|</>|<[\d:.,]+>|\{\\[^{}]*\}")
SECONDS_A_WORD = 0.4
BEFORE_TIMES = -1.0


@dataclass(frozen=True, slots=True)
class Cue:
    """A piece of text with its times in seconds, and the line of the file that it began on."""

    start: float
    end: float
    text: str
    line: int


def is_webvtt(text: str) -> bool:
    """Whether a text begins as a WebVTT file has to."""
    return text.lstrip("\ufeff \t\r\n").startswith("WEBVTT")


def read_cues(text: str) -> tuple[list[Cue], list[Problem]]:
    """Cues of a WebVTT or SubRip text in file order, and what stood outside them.

    Headers, notes, styles and cue names are passed over. Other text outside a cue is left out of a WebVTT file, as the
    standard has it, and put with the cue before in SubRip, where a blank line in a cue is a common slip.
    """
    found: list[tuple[float, float, list[str], int]] = []
    problems: list[Problem] = []
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    webvtt = is_webvtt(text)
    place = 0
    while place < len(lines):
        if not lines[place].strip():
            place += 1
            continue
        line = place + 1
        times = TIMES.match(lines[place])
        place += 1 if times else 0
        block: list[str] = []
        while place < len(lines) and lines[place].strip() and not TIMES.match(lines[place]):
            block.append(lines[place])
            place += 1
        # The line before the times of the next cue is that cue's number or name, not this one's text.
        named = place < len(lines) and TIMES.match(lines[place]) is not None
        if block and named and (not times or block[-1].strip().isdigit()):
            block.pop()
        body, told = _without_broken_times(block, line + 1 if times else line)
        if times:
            problems += told
            found.append((clock_seconds(*times.groups()[:4]), clock_seconds(*times.groups()[4:]), body, line))
        elif body and (told or (not webvtt and not _is_number(body))):
            problems += told or [_outside(line, bool(found))]
            if found:
                found[-1][2].extend(body)
            else:
                found.append((0.0, BEFORE_TIMES, body, line))
        elif body and found and not body[0].startswith(NO_SPEECH) and not _is_number(body):
            problems.append(Problem(f"line {line}", "No times stand above this text; it was left out."))
    return _opened([Cue(start, end, plain(" ".join(body)), line) for start, end, body, line in found]), problems


def clock_seconds(hours: str | None, minutes: str, seconds: str, fraction: str | None = None) -> float:
    """Seconds of a clock reading."""
    return int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds) + float(f"0.{fraction or 0}")


def _without_broken_times(block: Sequence[str], line: int) -> tuple[list[str], list[Problem]]:
    """Lines of speech, without times that can't be read and the cue's number above them."""
    body: list[str] = []
    problems: list[Problem] = []
    for place, text in enumerate(block):
        if not BROKEN_TIMES.match(text) or not text.strip(" \t->"):
            body.append(text)
            continue
        if body and body[-1].strip().isdigit():
            body.pop()
        problems.append(
            Problem(f"line {line + place}", "The times of this piece can't be read; its words follow the piece before.")
        )
    return body, problems


def _is_number(body: Sequence[str]) -> bool:
    return len(body) == 1 and body[0].strip().isdigit()


def _outside(line: int, after_cue: bool) -> Problem:
    where = "put with the piece before" if after_cue else "placed at the start"
    return Problem(f"line {line}", f"No times stand above this text; it was {where}.")


def _opened(cues: list[Cue]) -> list[Cue]:
    """Cues where text before all times lasts until the first of them; none where there are no times at all."""
    if not cues or cues[0].end != BEFORE_TIMES:
        return cues
    if len(cues) == 1:
        return []
    return [Cue(0.0, cues[1].start, cues[0].text, cues[0].line), *cues[1:]]


def plain(text: str) -> str:
    """A cue's text without tags and character references."""
    return clean(unescape(TAG.sub("", BREAK.sub(" ", text))))


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
