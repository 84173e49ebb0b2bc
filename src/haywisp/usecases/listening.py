"""From the bytes of a file to a narration, and from a stored narration back to its words."""

from collections.abc import Callable
from functools import lru_cache

from haywisp.errors import HaywispError
from haywisp.knowledge.types import Tables
from haywisp.narration.types import Narration, OwnWord, Transcript
from haywisp.record.types import StoredNarration
from haywisp.usecases.errors import TooLarge

OwnWords = tuple[OwnWord, ...]
Listen = Callable[[bytes, str, Tables, OwnWords], Narration]

#: The most bytes that a narration's file may have, for the pages and the command line alike.
LARGEST_FILE = 10 * 1024 * 1024


def refuse_large(data: bytes, file_name: str) -> None:
    """Refuse a file that no transcript of a session is as large as, before anyone waits for it to be read."""
    if len(data) > LARGEST_FILE:
        raise TooLarge(file_name, LARGEST_FILE)


def listen(data: bytes, file_name: str, tables: Tables, own: OwnWords = ()) -> Narration:
    """Read and understand with own words; refused input raises :class:`haywisp.narration.reading.Unreadable`."""
    from haywisp.narration import understand
    from haywisp.narration.reading import read_bytes

    return understand(read_bytes(data, file_name), tables, own)


def text_of(data: bytes, file_name: str) -> str:
    """The text of a file as it is kept; reading it again gives the same words."""
    from haywisp.narration.decoding import decode

    return decode(data, file_name)[0]


def heard_again(
    listen: Listen,
    tables: Callable[[], Tables],
    stored: StoredNarration | None,
) -> Narration:
    """The narration that a visit keeps, read again with the own words that it was understood with.

    An empty one when there is none or it can't be read any more.
    """
    if stored is None:
        return EMPTY
    try:
        return heard_with(listen, tables, stored, stored.own_words)
    except HaywispError:
        return EMPTY


def heard_with(listen: Listen, tables: Callable[[], Tables], stored: StoredNarration, own: OwnWords) -> Narration:
    """The words of a stored narration, understood with these own words."""
    return _again(listen, tables, stored.content, stored.file_name, own)


# The page of what was said is asked for again after each answer; the words of a stored narration never change.
@lru_cache(maxsize=16)
def _again(listen: Listen, tables: Callable[[], Tables], content: str, file_name: str, own: OwnWords) -> Narration:
    return listen(content.encode("utf-8"), file_name, tables(), own)


EMPTY = Narration(
    transcript=Transcript(words=(), format=""), bouts=(), findings=(), responses=(), actions=(), questions=()
)
