"""Say what a row of the tables holds, for the command line and the pages."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass

from haywisp.knowledge.fit import fits
from haywisp.knowledge.flaws import PRESSURES
from haywisp.knowledge.types import Evidence, Structure, Tables, Trigger

TABLES = (
    "structures",
    "techniques",
    "signs",
    "aspects",
    "actions",
    "cautions",
    "patterns",
    "exercises",
    "flags",
    "weight_formulas",
    "scales",
    "vital_signs",
)
LABELS = {
    "nerve": "nerve supply",
    "lies": "where it lies",
    "deepest": "heaviest pressure",
    "needs": "comes after",
    "half_life_s": "half-life in seconds",
    "hold_s": "hold in seconds",
    "asks": "question to the owner",
    "says": "what is seen",
    "more": "a higher score has",
    "reliability": "agreement between raters (ICC)",
    "spread": "what single pages print",
}
# Said elsewhere in the description, or (spoken) written for the narration's grammar rather than for a reader.
_UNSAID = {"id", "name", "source", "spoken"}
# Fields that hold ids of structures and techniques, printed by their names.
_IDS = {"region", "neighbours", "suits", "never", "structures", "techniques"}


@dataclass(frozen=True, slots=True)
class Description:
    """What is known under an id: the table it stands in, its name, labelled lines, and the source."""

    table: str
    id: str
    name: str
    lines: tuple[tuple[str, str], ...]
    source: str


def ids(tables: Tables, table: str) -> tuple[str, ...]:
    """The ids of one table, in the order of its file."""
    return tuple(_table(tables, table))


def find(tables: Tables, text: str) -> tuple[tuple[str, str], ...]:
    """The (table, id) pairs whose id, name, Latin name, trade name or spoken form holds the text; exact ones first."""
    wanted = " ".join(text.lower().split())
    if not wanted:
        return ()
    hits: list[tuple[bool, int, str, str]] = []
    for name in TABLES:
        for row_id, row in _table(tables, name).items():
            called = [form.lower() for form in _called(row_id, row)]
            if any(wanted in form for form in called):
                hits.append((wanted not in called, len(hits), name, row_id))
    return tuple((name, row_id) for _, _, name, row_id in sorted(hits))


def describe(tables: Tables, row_id: str) -> tuple[Description, ...]:
    """What each table says of an id; empty when none knows it, several when two do (``warmth``)."""
    found = ((name, _table(tables, name).get(row_id)) for name in TABLES)
    return tuple(_description(tables, name, row_id, row) for name, row in found if row is not None)


def _table(tables: Tables, name: str) -> Mapping[str, object]:
    table: Mapping[str, object] = getattr(tables, name)
    return table


def _called(row_id: str, row: object) -> tuple[str, ...]:
    spoken = row.spoken if isinstance(row, Structure) else ()
    more = (*getattr(row, "trade_names", ()), *spoken)
    return (row_id, row_id.replace("-", " "), getattr(row, "name", ""), getattr(row, "latin", ""), *more)


def _description(tables: Tables, table: str, row_id: str, row: object) -> Description:
    lines = [
        (LABELS.get(each.name, each.name.replace("_", " ")), text)
        for each in fields(row)  # type: ignore[arg-type]
        if each.name not in _UNSAID and (text := _text(tables, each.name, getattr(row, each.name)))
    ]
    if isinstance(row, Structure):
        lines += _worked_with(tables, row)
    name, source = str(getattr(row, "name", row_id)), str(getattr(row, "source", ""))
    return Description(table, row_id, name, tuple(lines), source)


def _worked_with(tables: Tables, row: Structure) -> list[tuple[str, str]]:
    fitting = [technique for technique in tables.techniques.values() if fits(technique, row)]
    if not fitting:
        return []
    deepest = max((technique.deepest for technique in fitting), key=PRESSURES.index)
    return [("worked with", ", ".join(technique.name for technique in fitting)), ("at most", deepest)]


def _text(tables: Tables, name: str, value: object) -> str:
    """A field in words; nothing for an empty one."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        return f"{value:g}"
    if isinstance(value, str):
        return _named(tables, value) if name in _IDS else value
    if isinstance(value, Mapping):
        return "; ".join(f"{key.replace(':', ' ')} {item:g}" for key, item in value.items())
    if isinstance(value, tuple):
        inside = [_part(tables, item) if is_dataclass(item) else _text(tables, name, item) for item in value]
        return ("; " if any(is_dataclass(item) for item in value) else ", ").join(inside)
    return "" if value is None else str(value)


def _part(tables: Tables, part: object) -> str:
    """A trigger or a piece of evidence: ``tone tight (Neck, Poll) +0.8``; a finding goes without saying."""
    if isinstance(part, Trigger):
        words = [part.aspect, part.value] if part.kind == "finding" else [part.kind, part.id]
        weight = ""
    elif isinstance(part, Evidence):
        words, weight = [part.aspect, part.value], f"{part.weight:+g}"
    else:
        return str(part)
    where = ", ".join(_named(tables, one) for one in part.structures)
    return " ".join(word for word in (*words, f"({where})" if where else "", weight) if word)


def _named(tables: Tables, text: str) -> str:
    row = tables.structures.get(text) or tables.techniques.get(text)
    return row.name if row else text
