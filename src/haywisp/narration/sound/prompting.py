"""The trade's words as a prompt: what a recogniser should expect to hear, from the tables and one's own."""

from collections import Counter
from collections.abc import Iterable, Iterator

from haywisp.knowledge.types import Tables

#: A recogniser of this family reads 223 tokens of prompt at most; of trade names 3.4 letters are a token, measured.
MOST_LETTERS = 700


def trade_prompt(tables: Tables, own_words: Iterable[str] = (), letters: int = MOST_LETTERS) -> str:
    """Names with commas between: the practitioner's own, then those that recognisers are known to mishear.

    After them come muscles and techniques in the order of their tables. Regions ("neck") are everyday words.
    """
    chosen: list[str] = []
    left = letters
    for name in (*own_words, *_misheard(tables), *_names(tables)):
        if name and name not in chosen and len(name) + 2 <= left:
            chosen.append(name)
            left -= len(name) + 2
    return f"{', '.join(chosen)}." if chosen else ""


def _misheard(tables: Tables) -> Iterator[str]:
    """Names by the number of ways in which they were misheard, the worst first."""
    listed = tables.language.tables.get("misheard", {})
    meant = Counter(str(value) for part in listed.values() if isinstance(part, dict) for value in part.values())
    known = set(_names(tables))
    yield from (name for name, _ in meant.most_common() if name in known)


def _names(tables: Tables) -> Iterator[str]:
    for structure in tables.structures.values():
        if structure.kind != "region":
            yield spelt(structure.spoken, structure.name)
    for technique in tables.techniques.values():
        yield spelt(technique.spoken, technique.name)


def spelt(forms: tuple[str, ...], name: str) -> str:
    """The first spoken form, or the name where the form is a phrase with signs in it."""
    first = forms[0] if forms else name
    return (name if set(first) & set("+?|~{}") else first).lower()
