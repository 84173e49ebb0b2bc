"""Where on the horse a fact is: sides that overlap, and what lies inside a region that was named."""

from haywisp.findings.types import REGION_PARTS, Fact
from haywisp.knowledge.types import Tables

Site = tuple[str, str | None]


def sides(side: str | None) -> frozenset[str]:
    """The sides that a recorded side may mean: both where it was not said."""
    return frozenset((side,)) if side in ("left", "right") else frozenset(("left", "right"))


def inside(structure: str, tables: Tables) -> tuple[str, ...]:
    """The structure itself, the regions that are part of it and the muscles that lie in any of these."""
    regions = [structure]
    for region in regions:
        regions += [part for part in REGION_PARTS.get(region, ()) if part not in regions]
    held = [row.id for row in tables.structures.values() if row.region in regions and row.id not in regions]
    return (*regions, *held)


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
