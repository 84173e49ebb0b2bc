"""The checks that a set of tables must pass before anything reads it."""

from collections.abc import Iterator
from dataclasses import dataclass

from haywisp.knowledge.types import Tables


@dataclass(frozen=True, slots=True)
class Flaw:
    """One mistake: the file and row to mend, and what is wrong as a sentence."""

    file: str
    row: str
    wrong: str


def flaws_of(tables: Tables) -> tuple[Flaw, ...]:
    """Every mistake in the tables, in the order of the files; none for tables that can be used."""
    return tuple(_sources(tables))


def _sources(tables: Tables) -> Iterator[Flaw]:
    for key, row in tables.structures.items():
        if not row.source.strip():
            yield Flaw("structures.toml", key, "it names no source.")
