"""Words cut into the tokens that the grammar reads: lower case, clitics apart, with the pause and stop after each."""

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from haywisp.narration.types import Word

CLITIC = re.compile(r"(?<=[a-z])(n't|'(?:s|re|ll|m|d|ve))$")
ACRONYM = re.compile(r"(?:[A-Za-z]\.){2,}")
STOPS = (".", "?", "!", "…", ";", ":")


@dataclass(frozen=True, slots=True)
class Token:
    """One token: its text, the word it is part of, its times, the pause after it in seconds, and the mark after it.

    ``mark`` is ``stop`` (end of a sentence), ``comma`` or empty.
    """

    text: str
    word: int
    start: float
    end: float
    pause: float
    mark: str
    asks: bool = False


def unaccented(text: str) -> str:
    """Letters without their accents, as the tables spell words."""
    return text if text.isascii() else unicodedata.normalize("NFKD", text).lower()


def pieces(text: str, spellings: Mapping[str, Sequence[str]]) -> list[str]:
    """The tokens of one written word: hyphens part it, clitics stand alone, and run-together spellings are opened."""
    flat = text.lower().replace("’", "'").replace("‘", "'").replace("-", " ").replace("/", " ").replace(".", " ")
    flat = flat.strip("\"'“”()[]{}.,;:!?…–— ")
    found: list[str] = []
    for part in flat.split():
        bare = part.strip('"“”()[]{}.,;:!?…–—').strip("'") if part != "'em" else part
        if bare in spellings:
            found.extend(spellings[bare])
            continue
        clitic = CLITIC.search(bare)
        stem = bare[: clitic.start()] if clitic else bare
        stem = re.sub(r"[^a-z0-9]", "", unaccented(stem))
        found.extend([stem] if stem else [])
        found.extend([clitic.group()] if clitic else [])
    return found


def mark_of(text: str) -> str:
    """The punctuation that closes a written word, as ``stop``, ``comma`` or nothing; "F.E." closes no sentence."""
    if ACRONYM.fullmatch(text):
        return ""
    tail = text.rstrip("\"'”’)")
    if tail.endswith(STOPS):
        return "stop"
    return "comma" if tail.endswith((",", "–", "—")) else ""


def tokenise(words: Sequence[Word], spellings: Mapping[str, Sequence[str]]) -> list[Token]:
    """Tokens of a transcript in order."""
    tokens: list[Token] = []
    for index, word in enumerate(words):
        parts = pieces(word.text, spellings)
        following = words[index + 1].start if index + 1 < len(words) else word.end
        pause = max(0.0, following - word.end)
        mark = mark_of(word.text)
        if not parts and tokens and mark == "stop":
            last = tokens[-1]
            tokens[-1] = Token(last.text, last.word, last.start, last.end, max(last.pause, pause), mark)
        for place, part in enumerate(parts):
            final = place == len(parts) - 1
            tokens.append(
                Token(
                    part,
                    index,
                    word.start,
                    word.end,
                    pause if final else 0.0,
                    mark if final else "",
                    final and "?" in word.text,
                )
            )
    return tokens
