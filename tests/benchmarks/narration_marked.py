"""Narrations written with marks of time, and the tables, for the tests of the measures."""

from functools import cache

from haywisp.knowledge import Tables, load_tables
from haywisp.narration import Transcript, read_bytes


@cache
def tables() -> Tables:
    return load_tables()


def transcript(text: str) -> Transcript:
    return read_bytes(text.encode(), "narration.txt")
