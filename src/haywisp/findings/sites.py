"""Where on the horse a fact is: sides that overlap, and places that are one or lie in one another."""

from haywisp.findings.types import Fact
from haywisp.knowledge import inside
from haywisp.knowledge.types import Tables

Site = tuple[str, str | None]


def sides(side: str | None) -> frozenset[str]:
    """The sides that a recorded side may mean: both where it was not said."""
    return frozenset((side,)) if side in ("left", "right") else frozenset(("left", "right"))


def site_of(structure: str, side: str | None, tables: Tables) -> Site:
    """A structure and side as limits name them: side None for both, unknown, and on the midline."""
    row = tables.structures.get(structure)
    if row is not None and not row.paired:
        return structure, None
    return structure, side if side in ("left", "right") else None


def same_place(one: Fact, other: Fact, tables: Tables) -> bool:
    """Whether two findings may be of one place: sides overlap, and the structures are one or one lies in the other."""
    if sides(one.side).isdisjoint(sides(other.side)):
        return False
    return other.structure in inside(one.structure, tables) or one.structure in inside(other.structure, tables)
