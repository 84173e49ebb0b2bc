"""Where a technique may be given: the one reading of the id lists in the tables."""

from collections.abc import Iterable

from haywisp.knowledge.types import Structure, Technique


def covers(ids: Iterable[str], structure: Structure) -> bool:
    """Whether a list of ids of structures, regions or groups takes in this structure."""
    return not {structure.id, structure.region, structure.group}.isdisjoint(ids)


def fits(technique: Technique, structure: Structure) -> bool:
    """Whether a technique may be given on a structure: it is suited there, and ``never`` does not forbid it.

    ``never`` wins over ``suits``; an empty ``suits`` means anywhere.
    """
    suited = not technique.suits or covers(technique.suits, structure)
    return suited and not covers(technique.never, structure)
