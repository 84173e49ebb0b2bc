"""The key to the marks on the drawn horse: hatching for what was found, shade for how much."""

import xml.etree.ElementTree as ET
from collections.abc import Iterator, Sequence

from haywisp.knowledge import Tables
from haywisp.report.figure import FigureMark
from haywisp.report.figure_inks import HATCHES, RAMP, UNSAID, pattern
from haywisp.report.phrases import cap, table
from haywisp.report.svg import child

ROW = 26.0
SWATCH = 34.0
CELL = 200.0
SIZE = 13.0
LETTER = 7.5


def legend_svg(marks: Sequence[FigureMark], tables: Tables, *, width: float = 340.0, prefix: str = "key") -> str:
    """The key alone as SVG, ``width`` wide in units of which its letters are 13 high: for narrow screens."""
    height = legend_height(marks, width)
    box = {"viewBox": f"0 0 {width:g} {height:g}", "width": "100%", "role": "group", "class": "figure-key"}
    svg = ET.Element("svg", {"xmlns": "http://www.w3.org/2000/svg", **box})
    svg.append(legend(marks, tables, width, prefix))
    return ET.tostring(svg, encoding="unicode")


def legend_height(marks: Sequence[FigureMark], width: float) -> float:
    """How high the key is at this width."""
    return ROW * (_rows(marks, width) + (3.7 if _unsaid(marks) else 2.7)) + 8


def _rows(marks: Sequence[FigureMark], width: float) -> int:
    return -(-len(_kinds(marks)) // _across(width))


def _unsaid(marks: Sequence[FigureMark]) -> bool:
    return any(mark.amount is None for mark in marks)


def legend(marks: Sequence[FigureMark], tables: Tables, width: float, prefix: str) -> ET.Element:
    """The key as a group, from (0, 0) down."""
    words = table("horse", tables.language.code)
    key = ET.Element(
        "g", {"font-family": "DejaVu Sans Condensed, DejaVu Sans, Verdana, sans-serif", "font-size": f"{SIZE:g}"}
    )
    key.set("fill", "currentColor")
    defs = ET.SubElement(key, "defs")
    child(key, "text", words["kind"], x="12", y=f"{ROW * 0.8:g}", font_weight="bold")
    for kind, x, y in _cells(marks, width):
        defs.append(pattern(kind, "ink", f"{prefix}-key"))
        _swatch(key, x, y, RAMP[0])
        _swatch(key, x, y, f"url(#{prefix}-key-{kind}-ink)")
        child(key, "text", _named(kind, tables, words["other"]), x=f"{x + SWATCH + 8:g}", y=f"{y + 14:g}")
    below = ROW * (_rows(marks, width) + 1.5)
    child(key, "text", words["amount"], x="12", y=f"{below + 8:g}", font_weight="bold")
    first = 12 + len(words["least"]) * LETTER
    for number, shade in enumerate(RAMP):
        _swatch(key, first + (SWATCH + 3) * number, below + 18, shade)
    child(key, "text", words["least"], x="12", y=f"{below + 32:g}")
    child(key, "text", words["most"], x=f"{first + (SWATCH + 3) * len(RAMP) + 5:g}", y=f"{below + 32:g}")
    if _unsaid(marks):
        _swatch(key, 12, below + 18 + ROW, UNSAID)
        child(key, "text", words["unsaid"], x=f"{12 + SWATCH + 8:g}", y=f"{below + 32 + ROW:g}")
    return key


def _kinds(marks: Sequence[FigureMark]) -> list[str]:
    """The kinds that are marked, in the order of the hatchings, those without one of their own last."""
    order = list(HATCHES)
    found = {mark.kind for mark in marks}
    return sorted(found, key=lambda kind: (order.index(kind) if kind in order else len(order), kind))


def _across(width: float) -> int:
    return max(1, int((width - 12) // CELL))


def _cells(marks: Sequence[FigureMark], width: float) -> Iterator[tuple[str, float, float]]:
    for number, kind in enumerate(_kinds(marks)):
        row, column = divmod(number, _across(width))
        yield kind, 12 + CELL * column, ROW * (row + 1.1)


def _named(kind: str, tables: Tables, other: str) -> str:
    return cap(tables.aspects[kind].name if kind in tables.aspects else other)


def _swatch(key: ET.Element, x: float, y: float, fill: str) -> None:
    place = {"x": f"{x:g}", "y": f"{y:g}", "width": f"{SWATCH:g}", "height": "18", "rx": "3"}
    ET.SubElement(key, "rect", {**place, "fill": fill, "stroke": "currentColor", "stroke-width": "1"})
