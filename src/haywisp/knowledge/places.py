"""What lies inside a region that the trade names, and which values of an aspect can be true of one place at once."""

from collections.abc import Mapping

from haywisp.knowledge.types import Tables

# Regions that the trade names as a whole and also in parts; common practice, no source.
REGION_PARTS: Mapping[str, tuple[str, ...]] = {
    "hindquarters": ("croup", "hamstrings", "sacroiliac", "stifle"),
    "hindlimb": ("stifle", "gaskin"),
    "topline": ("withers", "back", "loin", "croup"),
}
# Different values of these aspects can be true of one place at once: a later one does not take an earlier one back.
TOGETHER = frozenset(("skin", "texture"))


def inside(structure: str, tables: Tables) -> tuple[str, ...]:
    """The structure itself, the regions that are part of it and the muscles that lie in any of these."""
    regions = [structure]
    for region in regions:
        regions += [part for part in REGION_PARTS.get(region, ()) if part not in regions]
    held = [row.id for row in tables.structures.values() if row.region in regions and row.id not in regions]
    return (*regions, *held)


def is_usual(aspect: str, value: str, tables: Tables) -> bool:
    """Whether a value says that a place is as usual."""
    row = tables.aspects.get(aspect)
    return row is not None and row.usual == value
