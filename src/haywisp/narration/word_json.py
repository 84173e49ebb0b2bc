"""Word-time JSON, as speech recognisers write it: a list of words, or an object that holds one."""

import json
import math

from haywisp.narration.decoding import Unreadable
from haywisp.narration.types import Problem, Word

TEXT_KEYS = ("text", "word", "w")
PAUSE_OF_A_NEW_CUE_S = 1.2


def read_words(text: str, file_name: str) -> tuple[list[Word], list[Problem]]:
    """Words in order of time; words without usable times are placed after the one before and told of."""
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as fault:
        raise Unreadable(
            file_name, f"the JSON breaks off or is malformed ({fault})", "Export the transcript again."
        ) from fault
    rows = _rows(data)
    if rows is None:
        raise Unreadable(file_name, "the JSON holds no list of words", 'Each word needs "text", "start" and "end".')
    problems: list[Problem] = []
    words: list[Word] = []
    at = 0.0
    for number, row in enumerate(rows, start=1):
        word = _word(row, at)
        if word is None:
            problems.append(Problem(f"word {number}", "This entry has no text; it was left out."))
            continue
        if not _has_times(row):
            problems.append(
                Problem(f"word {number}", "This word has no usable times; it was placed after the one before.")
            )
        if word.start < at - 0.05 and words and word.start < words[-1].start:
            problems.append(
                Problem(f"word {number}", "The times go backwards here; the words were put in order of time.")
            )
        at = max(at, word.end)
        words.append(word)
    words.sort(key=lambda word: word.start)
    return _numbered(words), problems


def _rows(data: object) -> list[object] | None:
    if isinstance(data, list):
        return data
    if isinstance(data, dict):
        if isinstance(data.get("words"), list):
            return list(data["words"])
        segments = data.get("segments")
        if isinstance(segments, list):
            nested = [part.get("words") for part in segments if isinstance(part, dict)]
            return [word for words in nested if isinstance(words, list) for word in words]
    return None


def _number(value: object) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value) if math.isfinite(value) and 0 <= value < 1e7 else None


def _has_times(row: object) -> bool:
    return isinstance(row, dict) and _number(row.get("start")) is not None


def _word(row: object, at: float) -> Word | None:
    if not isinstance(row, dict):
        return None
    text = next((row[key] for key in TEXT_KEYS if isinstance(row.get(key), str)), "").strip()
    if not text:
        return None
    start = _number(row.get("start"))
    begin = at if start is None else start
    end = _number(row.get("end"))
    chance = _number(row.get("prob", row.get("probability", row.get("confidence"))))
    return Word(" ".join(text.split()), begin, end if end is not None and end >= begin else begin + 0.2, chance)


def _numbered(words: list[Word]) -> list[Word]:
    numbered: list[Word] = []
    cue = 0
    for place, word in enumerate(words):
        end = word.end
        if place + 1 < len(words):
            end = max(word.start, min(end, words[place + 1].start)) if end > words[place + 1].start else end
        if place and word.start - words[place - 1].end > PAUSE_OF_A_NEW_CUE_S:
            cue += 1
        numbered.append(Word(word.text, word.start, end, word.probability, cue))
    return numbered
