"""Names as they are sorted and searched: without regard to case, accents or width."""

import unicodedata

from haywisp.store.storable import sound

#: PostgreSQL refuses index rows above about 2700 bytes; 200 characters of at most 4 bytes stay far below.
KEY_LENGTH = 200


def name_key(text: str) -> str:
    """The name folded for sorting and searching: "Zoë" and "ZOE" give the same key."""
    decomposed = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    kept = "".join(character for character in decomposed if not unicodedata.combining(character))
    return " ".join(kept.split())[:KEY_LENGTH]


def search_words(text: str) -> list[str]:
    """The words to look for; more than eight would narrow nothing and only cost time."""
    return name_key(sound(text)).split()[:8]
