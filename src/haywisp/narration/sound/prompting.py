"""The trade's words as a prompt: what a recogniser should expect to hear, from the tables and one's own."""

from collections import Counter
from collections.abc import Iterable, Iterator

from haywisp.knowledge.types import Tables

#: A recogniser of this family reads 223 tokens of prompt at most, 3.4 letters of trade names to each; more than this
#: brought no more trade words and cost more time (benchmarks/sound).
MOST_LETTERS = 450


def trade_prompt(tables: Tables, own_words: Iterable[str] = (), letters: int = MOST_LETTERS) -> str:
    """Names with commas between: the practitioner's own, those that are known to be misheard, then those talked about.

    How much a muscle is talked about is taken from the patterns that name it. Regions ("neck") are everyday words.
    """
    chosen: list[str] = []
    left = letters
    for name in (*own_words, *_names(tables)):
        if name and name not in chosen and len(name) + 2 <= left:
            chosen.append(name)
            left -= len(name) + 2
    return f"{', '.join(chosen)}." if chosen else ""


def _names(tables: Tables) -> Iterator[str]:
    misheard = _misheard(tables)
    talked_about = Counter(
        name for pattern in tables.patterns.values() for evidence in pattern.evidence for name in evidence.structures
    )
    muscles = sorted(
        (row for row in tables.structures.values() if row.kind != "region"), key=lambda row: -talked_about[row.id]
    )
    techniques = [spelt(row.spoken, row.name) for row in tables.techniques.values()]
    names = [spelt(row.spoken, row.name) for row in muscles]
    yield from sorted((name for name in (*techniques, *names) if name in misheard), key=lambda name: -misheard[name])
    # Techniques of more words are made of everyday ones.
    yield from (name for name in techniques if len(name.split()) == 1)
    yield from names


def _misheard(tables: Tables) -> Counter[str]:
    """In how many ways each name was misheard."""
    listed = tables.language.tables.get("misheard", {})
    return Counter(str(value) for part in listed.values() if isinstance(part, dict) for value in part.values())


def spelt(forms: tuple[str, ...], name: str) -> str:
    """The first spoken form, or the name where the form is a phrase with signs in it."""
    first = forms[0] if forms else name
    return (name if set(first) & set("+?|~{}") else first).lower()
