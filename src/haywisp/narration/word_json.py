"""Word-time JSON, as speech recognisers write it: a list of words, or an object that holds one."""

import json
import math
from collections.abc import Mapping

from haywisp.narration.cues import Cue, spread
from haywisp.narration.decoding import Unreadable, clean
from haywisp.narration.types import Problem, Word

TEXT_KEYS = ("text", "word", "w")
CHANCE_KEYS = ("prob", "probability", "confidence")
NEEDED = 'Each word needs "text", "start" and "end".'
PAUSE_OF_A_NEW_CUE_S = 1.2
WORD_S = 0.2
LATEST_S = 1e7


def read_words(text: str, file_name: str) -> tuple[list[Word], list[Problem]]:
    """Words in order of time; words without usable times are placed after the one before and told of."""
    try:
        data = json.loads(text)
    except json.JSONDecodeError as fault:
        place = f"line {fault.lineno}, column {fault.colno}"
        raise Unreadable(
            file_name, f"the JSON breaks off or is malformed at {place}", "Export the transcript again."
        ) from fault
    except RecursionError as fault:
        raise Unreadable(file_name, "the JSON is nested too deeply", NEEDED) from fault
    except ValueError as fault:
        raise Unreadable(
            file_name, "the JSON holds a number with thousands of digits", "Export the transcript again."
        ) from fault
    rows = _rows(data)
    if rows is None:
        raise Unreadable(file_name, "the JSON holds no list of words", NEEDED)
    problems: list[Problem] = []
    words: list[Word] = []
    at = 0.0
    for number, row in enumerate(rows, start=1):
        word = _word(row, at)
        if word is None:
            problems.append(Problem(f"word {number}", "This entry has no text; it was left out."))
            continue
        told = _mended(row)
        if told:
            problems.append(Problem(f"word {number}", told))
        if word.start < at - 0.05 and words and word.start < words[-1].start:
            problems.append(
                Problem(f"word {number}", "The times go backwards here; the words were put in order of time.")
            )
        at = max(at, word.end)
        words.append(word)
    words.sort(key=lambda word: word.start)
    return numbered(words), problems


def _rows(data: object) -> list[object] | None:
    if isinstance(data, list):
        return data
    if isinstance(data, dict):
        if isinstance(data.get("words"), list):
            return list(data["words"])
        segments = data.get("segments")
        if isinstance(segments, list):
            return [row for segment in segments if isinstance(segment, dict) for row in _segment_rows(segment)]
    return None


def _segment_rows(segment: dict[str, object]) -> list[object]:
    """The words of a segment; where it has but a text and its times, these are shared out."""
    words = segment.get("words")
    if isinstance(words, list) and words:
        return words
    text, start, end = segment.get("text"), _number(segment.get("start")), _number(segment.get("end"))
    if not isinstance(text, str) or start is None or end is None or end < start:
        return [segment]
    return [
        {"text": word.text, "start": word.start, "end": word.end} for word in spread([Cue(start, end, clean(text), 0)])
    ]


def _number(value: object) -> float | None:
    """A usable number of seconds or a share; recognisers also write it as text."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        return None
    try:
        number = float(value)
    except (ValueError, OverflowError):
        return None
    return number if math.isfinite(number) and 0 <= number < LATEST_S else None


def _mended(row: object) -> str:
    """What had to be guessed of a word's times, or nothing."""
    if not isinstance(row, dict):
        return ""
    start, end = _number(row.get("start")), _number(row.get("end"))
    if start is None:
        return "This word has no usable times; it was placed after the one before."
    if end is None and row.get("end") is not None:
        return "The end of this word is no usable time; it was estimated."
    return "This word ends before it starts; its end was estimated." if end is not None and end < start else ""


def _word(row: object, at: float) -> Word | None:
    if not isinstance(row, dict):
        return None
    written = next((row[key] for key in TEXT_KEYS if isinstance(row.get(key), str)), "")
    text = " ".join(clean(written).split())
    if not text:
        return None
    start, end = _number(row.get("start")), _number(row.get("end"))
    begin = at if start is None else start
    return Word(text, begin, end if end is not None and end >= begin else begin + WORD_S, _chance(row))


def _chance(row: Mapping[str, object]) -> float | None:
    numbers = [_number(row.get(key)) for key in CHANCE_KEYS]
    return next((number for number in numbers if number is not None and number <= 1), None)


def numbered(words: list[Word]) -> list[Word]:
    """Words with ends that run into no next word, and a new cue after each pause."""
    placed: list[Word] = []
    cue = 0
    for place, word in enumerate(words):
        end = word.end
        if place + 1 < len(words):
            end = max(word.start, min(end, words[place + 1].start)) if end > words[place + 1].start else end
        if place and word.start - words[place - 1].end > PAUSE_OF_A_NEW_CUE_S:
            cue += 1
        placed.append(Word(word.text, word.start, end, word.probability, cue))
    return placed
