"""What is drawn of the horse: the shapes of a view and layer in their reading order, and the marks that shade them."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.errors import HaywispError
from haywisp.knowledge import Figure, Shape, Stroke, Structure, Tables
from haywisp.report.phrases import cap, table
from haywisp.report.wording import Reader, structure_name

VIEWS = ("left", "right", "above")
LAYERS = ("superficial", "deep", "regions")


class NotDrawn(HaywispError):
    """A view or layer that the drawn horse does not have."""

    def __init__(self, what: str, asked: str, there_are: Sequence[str]) -> None:
        super().__init__(f"The horse is not drawn with the {what} {asked!r}; choose one of: {', '.join(there_are)}.")


@dataclass(frozen=True, slots=True)
class FigureMark:
    """Something found, to be shown on the horse.

    ``side`` is ``left``, ``right``, ``both`` or None (both sides of a paired structure); ``kind`` is an aspect of the
    tables; ``amount`` is 0 (least) to 1 (most), None where it was not said; ``label`` is the finding in words.
    """

    structure: str
    side: str | None
    kind: str
    amount: float | None = None
    label: str = ""


@dataclass(frozen=True, slots=True)
class Placed:
    """One shape as it is drawn: ``side`` is ``left``, ``right`` or ``midline``; ``name`` says structure and side."""

    structure: str
    side: str
    name: str
    stroke: Stroke
    inner: bool
    marks: tuple[FigureMark, ...] = ()

    @property
    def amount(self) -> float | None:
        """The greatest amount among its marks, None where none was said."""
        return max((mark.amount for mark in self.marks if mark.amount is not None), default=None)

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds among its marks, each once, in the order in which they came."""
        return tuple(dict.fromkeys(mark.kind for mark in self.marks))


def placed_shapes(
    view: str,
    layer: str,
    figure: Figure,
    tables: Tables,
    marks: Sequence[FigureMark] = (),
    reader: Reader = "practitioner",
) -> tuple[Placed, ...]:
    """The shapes of a layer in a view (``left``, ``right`` or ``above``), each with the marks that belong to it.

    Raises NotDrawn for an unknown view or layer.
    """
    if view not in VIEWS:
        raise NotDrawn("view", view, VIEWS)
    if layer not in LAYERS:
        raise NotDrawn("layer", layer, LAYERS)
    seen = "above" if view == "above" else "side"
    return tuple(
        _placed(shape, side, view, marks, shape_name(shape, side, tables, reader))
        for shape in figure.shapes
        if (shape.layer, shape.view) == (layer, seen) and shape.structure in tables.structures
        for side in _sides(tables.structures[shape.structure], view)
    )


def _sides(structure: Structure, view: str) -> tuple[str, ...]:
    if not structure.paired:
        return ("midline",)
    return ("left", "right") if view == "above" else (view,)


def _placed(shape: Shape, side: str, view: str, marks: Sequence[FigureMark], name: str) -> Placed:
    # From above the head is at the top and the horse's left on the left, to which a landmark's ``out`` grows.
    across = (-1 if side != "right" else 1) if view == "above" else (-1 if view == "right" else 1)
    mine = tuple(mark for mark in marks if mark.structure == shape.structure and _meant(mark.side, side))
    return Placed(shape.structure, side, name, shape.stroke.moved(across), shape.inner, mine)


def _meant(said: str | None, side: str) -> bool:
    return side == "midline" or said in (side, "both", None)


def shape_name(shape: Shape, side: str, tables: Tables, reader: Reader = "practitioner") -> str:
    """What a shape is called: the structure, its side, and whether it lies on the inner side of a limb."""
    words = table("horse", tables.language.code)
    name = cap(structure_name(shape.structure, tables, reader))
    return f"{name}, {words['sides'][side]}" + (f", {words['inner']}" if shape.inner else "")


def unseen(marks: Sequence[FigureMark], placed: Sequence[Placed]) -> tuple[FigureMark, ...]:
    """The marks that no shape of this drawing shows."""
    shown = {id(mark) for shape in placed for mark in shape.marks}
    return tuple(mark for mark in marks if id(mark) not in shown)
