"""Chunks that were heard to one transcript, as if it had been read from a word-time file."""

from collections.abc import Iterable

from haywisp.narration.sound.types import Again, ChunkHeard
from haywisp.narration.types import Problem, Transcript
from haywisp.narration.word_json import numbered

FORM = "sound"


def assemble(heard: Iterable[ChunkHeard], problems: Iterable[Problem] = ()) -> tuple[Transcript, tuple[Again, ...]]:
    """Words in order of time and the passages to listen to again; a chunk that was heard twice counts once."""
    by_start = {one.chunk.start: one for one in heard}
    ordered = [by_start[start] for start in sorted(by_start)]
    words = sorted((word for one in ordered for word in one.words), key=lambda word: word.start)
    again = sorted((passage for one in ordered for passage in one.again), key=lambda passage: passage.start)
    return Transcript(tuple(numbered(words)), FORM, tuple(problems)), tuple(again)
