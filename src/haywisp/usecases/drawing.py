"""The horse as it is drawn for a visit: shaded by what was found, and a muscle at a time felt and written down."""

from collections.abc import Callable, Sequence
from functools import cache

from haywisp.knowledge import Figure
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry
from haywisp.report.figure import LAYERS, VIEWS, FigureMark
from haywisp.report.wording import entry_sentence
from haywisp.usecases.app import App
from haywisp.usecases.conclusions import standing
from haywisp.usecases.errors import Refused
from haywisp.usecases.lookup import visit_of
from haywisp.usecases.said import add, correct
from haywisp.usecases.views import FeelChoice, FeelColumn, FeelPanel, FeltPlace, Option
from haywisp.usecases.wording import label, sentence_case, structure_label

#: What is felt and seen of a muscle, in the order in which the hand asks.
FELT = ("development", "tone", "tenderness", "mobility", "warmth", "texture")
SIDED = (("left", "Left"), ("right", "Right"))
MIDLINE = (("", "On the midline"),)
OTHER_SIDE = {"left": "right", "right": "left"}


@cache
def figure() -> Figure:
    """The drawn horse, read once."""
    from haywisp.knowledge import load_figure

    return load_figure()


def drawn(
    app: App,
    visit_id: str,
    view: str = "left",
    layer: str = "superficial",
    *,
    link: Callable[[str, str], str] | None = None,
    choosable: bool = True,
) -> str:
    """The horse as SVG with what was found at a visit; ``link`` gives the address of a structure and its side."""
    from haywisp.report.figure_svg import figure_svg

    tables = app.tables()
    marks = marks_of(findings_of(app, visit_id), tables)
    return figure_svg(view, layer, figure(), tables, marks, choosable=choosable, link=link)


def findings_of(app: App, visit_id: str) -> tuple[Entry, ...]:
    """The findings of a visit that stand, the newest last."""
    with app.units() as unit:
        visit_of(unit, visit_id)
        return tuple(one for one in standing(unit.entries_of(visit_id)) if one.part == "finding")


def marks_of(findings: Sequence[Entry], tables: Tables) -> tuple[FigureMark, ...]:
    """A mark for each finding that is out of the usual; how much of it there is was not said."""
    marks = []
    for entry in findings:
        structure, kind = str(entry.body["structure"]), str(entry.body["aspect"])
        aspect = tables.aspects.get(kind)
        if structure not in tables.structures or aspect is None or entry.body["value"] == aspect.usual:
            continue
        side = entry.body.get("side")
        words = entry_sentence("finding", entry.body, tables)
        marks.append(FigureMark(structure, None if side is None else str(side), kind, None, words))
    return tuple(marks)


def out_of_usual(app: App, visit_id: str) -> tuple[FeltPlace, ...]:
    """What a visit found out of the usual, in words, each with the view and layer of the drawing that show it."""
    places = []
    for mark in marks_of(findings_of(app, visit_id), app.tables()):
        side = "right" if mark.side == "right" else "left"
        shape, view = figure().shape(mark.structure, "side"), side
        if shape is None:
            shape, view = figure().shape(mark.structure, "above"), "above"
        if shape is not None:
            places.append(FeltPlace(mark.label, mark.structure, view, shape.layer))
    return tuple(places)


def panel(app: App, visit_id: str, structure: str) -> FeelPanel:
    """One structure to be felt: for each side and aspect what can be found, and what is recorded."""
    tables = app.tables()
    row = tables.structures.get(structure)
    if row is None:
        raise Refused(f"There is no structure “{structure[:40]}”. Choose one on the drawn horse or from the list.")
    found = {
        (str(entry.body.get("side") or ""), str(entry.body["aspect"])): str(entry.body["value"])
        for entry in findings_of(app, visit_id)
        if entry.body["structure"] == structure
    }
    columns = tuple(
        FeelColumn(name, tuple(_choice(side, aspect, found, tables) for aspect in FELT if aspect in tables.aspects))
        for side, name in (SIDED if row.paired else MIDLINE)
    )
    return FeelPanel(structure, structure_label(structure, tables), row.lies, columns)


def _choice(side: str, aspect: str, found: dict[tuple[str, str], str], tables: Tables) -> FeelChoice:
    recorded = found.get((side, aspect)) or found.get(("both", aspect)) or ""
    values = tuple(Option(f"{side}|{aspect}|{value}", sentence_case(value)) for value in tables.aspects[aspect].values)
    return FeelChoice(label(tables.aspects, aspect), values, f"{side}|{aspect}|{recorded}" if recorded else "")


def keep_felt(app: App, visit_id: str, structure: str, found: str) -> None:
    """Keep one finding of the panel, ``side|aspect|value`` as it gives it.

    What the panel shows as recorded of that side and aspect is corrected, its version before staying in the record.
    Where both sides were recorded at once, the other side keeps what was found.
    """
    side, _, rest = found.partition("|")
    aspect, _, value = rest.partition("|")
    if not aspect or not value:
        raise Refused("Nothing was chosen; choose what was found on one side.")
    known = {
        str(one.body.get("side") or ""): one
        for one in findings_of(app, visit_id)
        if one.body["structure"] == structure and one.body["aspect"] == aspect
    }
    before = known.get(side) or (known.get("both") if side in OTHER_SIDE else None)
    if before is not None and before.body["value"] == value:
        return
    if side in known:
        correct(app, known[side].thread, known[side].version, {"value": value})
        return
    add(app, visit_id, "finding", {"structure": structure, "side": side or None, "aspect": aspect, "value": value})
    if before is not None:
        correct(app, before.thread, before.version, {"side": OTHER_SIDE[side]})


def structures(app: App) -> tuple[Option, ...]:
    """Every structure by name, for who would rather choose from a list."""
    tables = app.tables()
    named = (Option(key, structure_label(key, tables)) for key in tables.structures)
    return tuple(sorted(named, key=lambda option: option.label.casefold()))


def seen(view: str, layer: str) -> tuple[str, str]:
    """A view and layer that there are, the first of each for others."""
    return (view if view in VIEWS else VIEWS[0]), (layer if layer in LAYERS else LAYERS[0])
