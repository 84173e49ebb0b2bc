"""What each structure was found to be from visit to visit, in words that claim no more than was recorded."""

from collections.abc import Sequence
from datetime import date

from haywisp.knowledge import TOGETHER
from haywisp.knowledge.types import Tables
from haywisp.progress.types import Strand
from haywisp.record.types import Entry, Visit, current

Key = tuple[str, str | None, str]


def strands(visits: Sequence[tuple[Visit, Sequence[Entry]]], tables: Tables) -> tuple[Strand, ...]:
    """One strand for each structure, side and aspect ever recorded, in the tables' order; visits in any order.

    Of several values of one aspect in a visit the last counts, but a wound and a rub, or knots and fibres, can be true
    of one place at once and are joined by "and". A "both sides" finding counts for each side. Rejected entries are left
    out. The eye's and hand's own error is not reckoned here.
    """
    ordered = sorted((pair for pair in visits), key=lambda pair: (pair[0].day, pair[0].number))
    seen: dict[Key, list[tuple[date, str]]] = {}
    looked: list[set[Key]] = []
    for visit, entries in ordered:
        found = _found(entries, tables)
        looked.append(set(found))
        for key, values in found.items():
            seen.setdefault(key, []).append((visit.day, " and ".join(values)))
    last = looked[-1] if looked else set()
    return tuple(
        Strand(*key, tuple(seen[key]), _change([value for _, value in seen[key]], key in last))
        for key in sorted(seen, key=lambda key: _place(key, tables))
    )


def _found(entries: Sequence[Entry], tables: Tables) -> dict[Key, list[str]]:
    found: dict[Key, list[str]] = {}
    for entry in current(entries):
        if entry.part != "finding" or entry.status == "rejected":
            continue
        body = entry.body
        for side in _sides(str(body["structure"]), body.get("side"), tables):
            values = found.setdefault((str(body["structure"]), side, str(body["aspect"])), [])
            values[:] = _known(values, str(body["aspect"]), str(body["value"]), tables)
    return found


def _known(values: Sequence[str], aspect: str, value: str, tables: Tables) -> list[str]:
    """What a visit holds of a place after one more value, in the table's order."""
    row = tables.aspects.get(aspect)
    if aspect not in TOGETHER or row is None or row.usual in (value, *values):
        return [value]
    return sorted({*values, value}, key=row.values.index)


def _sides(structure: str, side: object, tables: Tables) -> tuple[str | None, ...]:
    row = tables.structures.get(structure)
    if row is not None and not row.paired:
        return (None,)
    if side == "both":
        return ("left", "right")
    return (None if side is None else str(side),)


def _change(values: Sequence[str], at_last: bool) -> str:
    if not at_last:
        return "not looked at since"
    if len(values) == 1:
        return "first look"
    if values[-1] == values[-2]:
        return "same"
    return f"was {values[-2]}, now {values[-1]}"


def _place(key: Key, tables: Tables) -> tuple[int, int, str, str, str]:
    structures, aspects = list(tables.structures), list(tables.aspects)
    structure, side, aspect = key
    return (
        structures.index(structure) if structure in tables.structures else len(structures),
        aspects.index(aspect) if aspect in tables.aspects else len(aspects),
        structure,
        side or "",
        aspect,
    )
