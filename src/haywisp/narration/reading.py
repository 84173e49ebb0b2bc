"""A transcript file of any known form to timed words."""

import re

from haywisp.narration import cues, marked, word_json
from haywisp.narration.decoding import Unreadable, decode
from haywisp.narration.types import Problem, Transcript, Word

LONG_S = 3 * 3600
TOLD_AT_MOST = 20
# Eleven hours without a breath: more is another kind of file, and would keep the person waiting for nothing.
MOST_WORDS = 100_000
MOST_LETTERS = 80 * MOST_WORDS
# "[laughs] so the neck" and "{laughs}" are speech.
JSON = re.compile(r"\s*(?:\{\s*(?:[\"}]|$)|\[\s*(?:[\[{\"\]]|$|(?:-?\d[\d.eE+-]*|true|false|null)\s*[,\]]))")

__all__ = ["Unreadable", "read_bytes"]


def read_bytes(data: bytes, file_name: str) -> Transcript:
    """Timed words of a WebVTT, SubRip, ``[m:ss]`` text, plain text or word-time JSON file.

    The form is told from the content, not from the name. What can be mended is mended and told in ``problems``;
    raises :class:`Unreadable` for what is empty, binary, malformed or holds no word.
    """
    text, mended = decode(data, file_name)
    form = form_of(text)
    problems = list(mended)
    if form != "word-json" and len(text) > MOST_LETTERS:
        raise _too_long(file_name)
    if form == "word-json":
        words, told = word_json.read_words(text, file_name)
        problems += told
    else:
        words, told = _from_cues(text, form)
        problems += told
    if not words:
        raise Unreadable(file_name, "there are no spoken words in it", "Choose a transcript that has words and times.")
    if len(words) > MOST_WORDS:
        raise _too_long(file_name)
    if words[-1].end > LONG_S:
        hours = words[-1].end / 3600
        problems.append(Problem("whole file", f"This runs for {hours:.1f} hours. Check that it is one visit."))
    return Transcript(tuple(words), form, tuple(_shortened(problems)))


def _too_long(file_name: str) -> Unreadable:
    return Unreadable(
        file_name, f"it holds more than {MOST_WORDS:,} words, more than a day's talk", "Give one visit at a time."
    )


def form_of(text: str) -> str:
    """``vtt``, ``srt``, ``word-json``, ``marked`` or ``untimed``, by the look of the text."""
    if cues.is_webvtt(text):
        return "vtt"
    if JSON.match(text) and not marked.MARK.match(text.lstrip()):
        return "word-json"
    if cues.read_cues(text)[0]:
        return "srt"
    return "marked" if marked.has_marks(text) else "untimed"


def _from_cues(text: str, form: str) -> tuple[list[Word], list[Problem]]:
    told: list[Problem] = []
    if form == "marked":
        found, told = marked.read_marked(text)
    elif form == "untimed":
        found = marked.read_untimed(text)
        told = [Problem("whole file", "There are no times in this text; they were estimated from an ordinary pace.")]
    else:
        found, told = cues.read_cues(text)
    ordered, mended = cues.in_order([cue for cue in found if cue.text.split()])
    return cues.spread(ordered), [*told, *mended]


def _shortened(problems: list[Problem]) -> list[Problem]:
    if len(problems) <= TOLD_AT_MOST:
        return problems
    more = len(problems) - TOLD_AT_MOST
    return [*problems[:TOLD_AT_MOST], Problem("whole file", f"{more} more places were mended in the same way.")]
