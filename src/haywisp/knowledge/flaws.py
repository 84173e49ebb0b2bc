"""A mistake in a table, and the checks that many tables share."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from haywisp.knowledge.types import Tables

PRESSURES = ("light", "moderate", "firm")


@dataclass(frozen=True, slots=True)
class Flaw:
    """One mistake: the file and row to mend, and what is wrong as a sentence."""

    file: str
    row: str
    wrong: str


def blank(row: object, *names: str) -> Iterator[str]:
    """A sentence for each of the named text fields that is empty."""
    for name in names:
        if not str(getattr(row, name)).strip():
            yield f"{name} is empty."


def among(name: str, value: str, allowed: Iterable[str]) -> Iterator[str]:
    """A sentence unless the value is one of those allowed."""
    choices = tuple(allowed)
    if value not in choices:
        yield f"{name} is {value!r} and must be one of: {', '.join(choice or 'empty' for choice in choices)}."


def within(name: str, value: float, low: float, high: float) -> Iterator[str]:
    """A sentence unless the value lies between the limits, both included."""
    if not low <= value <= high:
        yield f"{name} is {value:g} and must be from {low:g} to {high:g}."


def known(name: str, ids: Iterable[str], allowed: Iterable[str]) -> Iterator[str]:
    """A sentence for each id that is not among those allowed."""
    for unknown in sorted(set(ids) - set(allowed)):
        yield f"{name} names {unknown!r}, which is not known."


def places(tables: Tables) -> set[str]:
    """Every id that a list of structures, regions or groups may hold."""
    return tables.structures.keys() | {row.group for row in tables.structures.values()}


def value_known(name: str, aspect: str, value: str, tables: Tables) -> Iterator[str]:
    """A sentence unless the aspect is known and can take the value; an empty one matches anything."""
    if aspect and aspect not in tables.aspects:
        yield f"{name} names the aspect {aspect!r}, which is not known."
    elif aspect and value and value not in tables.aspects[aspect].values:
        yield f"{name} names the value {value!r}, which {aspect} can't take."
