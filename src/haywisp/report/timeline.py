"""A session drawn over time: bouts by part of the body, with the horse's answers above."""

import xml.etree.ElementTree as ET
from collections.abc import Sequence

from haywisp.knowledge.types import Tables
from haywisp.narration.types import Narration
from haywisp.report.marks import AnswerMark, BoutMark, Marks, marks_of_narration
from haywisp.report.phrases import Phrases, table
from haywisp.report.svg import child, legal
from haywisp.report.wording import mmss

WIDTH = 520.0
GUTTER = 112.0
RIGHT = 14.0
LANE = 30.0
TOP = 8.0
FONT = "13"
# Okabe and Ito's blue, orange and grey keep apart in all common kinds of colour blindness (from memory); shape, place
# and hatching say the same again.
COLOURS = {"settling": "#0072B2", "guarding": "#D55E00", "bout": "#8FA3AD", "line": "#7A7A7A"}
HEIGHTS = {"light": 9.0, "moderate": 15.0, "firm": 21.0}
UNTOLD_HEIGHT = 12.0
STEPS_S = (30, 60, 120, 300, 600, 900, 1800, 3600)


def narration_svg(narration: Narration, tables: Tables, *, prefix: str = "timeline") -> str:
    """The drawing of what was understood as SVG text.

    Each shape carries ``data-thread``, such as ``bout-0`` or ``response-3``. ``prefix`` keeps the ids apart where a
    page holds several drawings. No style attribute, style element or script is in it.
    """
    marks = marks_of_narration(narration, tables)
    words = table("figure", tables.language.code)
    rows = marks.rows
    height = TOP + LANE * (2 + max(1, len(rows))) + 80
    scale = _Scale(max(marks.end_s, 30.0))
    svg = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"0 0 {WIDTH:g} {height:g}",
            "width": "100%",
            "class": "timeline",
            "role": "group",
            "aria-labelledby": f"{prefix}-title {prefix}-desc",
            "font-family": "DejaVu Sans, Verdana, sans-serif",
            "font-size": FONT,
            "fill": "currentColor",
        },
    )
    child(svg, "title", words["title"], id=f"{prefix}-title")
    child(svg, "desc", _described(marks, words), id=f"{prefix}-desc")
    svg.append(_patterns(prefix))
    lanes = [words["settling"], words["guarding"], *[name for _, name in rows]]
    _lanes(svg, lanes, scale)
    for answer in marks.answers:
        svg.append(_answer(answer, scale, prefix, words))
    order = {row: number for number, (row, _) in enumerate(rows)}
    for bout in marks.bouts:
        svg.append(_bout(bout, order[bout.row], scale, prefix))
    if not marks.bouts:
        child(svg, "text", words["none"], x=f"{GUTTER:g}", y=f"{_middle(2) + 4:g}")
    _axis(svg, scale, _middle(len(lanes) - 1) + LANE / 2)
    _legend(svg, words, prefix, height - 28)
    return ET.tostring(svg, encoding="unicode")


class _Scale:
    """Seconds to the drawing's units."""

    def __init__(self, end_s: float) -> None:
        self.end_s = end_s
        self.per_s = (WIDTH - GUTTER - RIGHT) / end_s

    def x(self, seconds: float) -> float:
        return round(GUTTER + min(max(seconds, 0.0), self.end_s) * self.per_s, 2)

    def ticks(self) -> list[int]:
        step = next((step for step in STEPS_S if self.end_s / step <= 6), 7200)
        return list(range(0, int(self.end_s) + 1, step))


def _middle(lane: int) -> float:
    return TOP + LANE * lane + LANE / 2


def _described(marks: Marks, words: Phrases) -> str:
    settled = sum(answer.direction == "settling" for answer in marks.answers)
    guarded = len(marks.answers) - settled
    return str(words["desc"].format(bouts=len(marks.bouts), end=mmss(marks.end_s), settled=settled, guarded=guarded))


def _patterns(prefix: str) -> ET.Element:
    """Hatching for the right side and for both; the left side is plain."""
    defs = ET.Element("defs")
    for side, path in {"right": "M-1,1 l2,-2 M0,6 l6,-6 M5,7 l2,-2", "both": "M0,3 h6 M3,0 v6"}.items():
        size = {"width": "6", "height": "6", "patternUnits": "userSpaceOnUse"}
        pattern = ET.SubElement(defs, "pattern", {"id": f"{prefix}-{side}", **size})
        ET.SubElement(pattern, "rect", {"width": "6", "height": "6", "fill": COLOURS["bout"]})
        ET.SubElement(pattern, "path", {"d": path, "stroke": "#1F2D33", "stroke-width": "1.2", "fill": "none"})
    return defs


def _lanes(svg: ET.Element, names: Sequence[str], scale: _Scale) -> None:
    for lane, name in enumerate(names):
        y = _middle(lane)
        child(svg, "text", name, x=f"{GUTTER - 8:g}", y=f"{y + 4:g}", text_anchor="end", **_fitted(name))
        ends = {"x1": f"{GUTTER:g}", "x2": f"{WIDTH - RIGHT:g}", "y1": f"{y:g}", "y2": f"{y:g}"}
        child(svg, "line", "", **ends, stroke=COLOURS["line"], stroke_width="0.5", stroke_opacity="0.5")


def _fitted(name: str) -> dict[str, str]:
    """A long name is set smaller, so that it stays inside the gutter."""
    room = GUTTER - 12
    return {"textLength": f"{room:g}", "lengthAdjust": "spacingAndGlyphs"} if len(name) * 7.4 > room else {}


def _shape(tag: str, label: str, thread: str, prefix: str, css: str, **attributes: str) -> ET.Element:
    shape = ET.Element(tag, {key.replace("_", "-"): value for key, value in attributes.items()})
    shape.attrib |= {
        "id": f"{prefix}-{legal(thread)}",
        "data-thread": legal(thread),
        "class": css,
        "role": "img",
        "aria-label": legal(label),
    }
    child(shape, "title", label)
    return shape


def _answer(answer: AnswerMark, scale: _Scale, prefix: str, words: Phrases) -> ET.Element:
    """Settling is a disc in the upper lane, guarding a triangle on its point in the lane below."""
    x = scale.x(answer.time_s)
    label = f"{mmss(answer.time_s)} {answer.label} ({words[answer.direction].lower()})"
    css = f"answer {answer.direction}"
    colour = COLOURS[answer.direction]
    outline = {"stroke": "currentColor", "stroke_width": "1"}
    if answer.direction == "settling":
        place = {"cx": f"{x:g}", "cy": f"{_middle(0):g}", "r": "6.5"}
        return _shape("circle", label, answer.thread, prefix, css, fill=colour, **place, **outline)
    y = _middle(1)
    path = f"M{x - 8:g},{y - 7:g} h16 L{x:g},{y + 8:g} Z"
    return _shape("path", label, answer.thread, prefix, css, fill=colour, d=path, **outline)


def _bout(bout: BoutMark, row: int, scale: _Scale, prefix: str) -> ET.Element:
    """A bar as long as the bout and as high as its pressure; plain left, hatched right, squared both sides."""
    start, end = scale.x(bout.start_s), scale.x(bout.end_s)
    tall = HEIGHTS.get(bout.pressure or "", UNTOLD_HEIGHT)
    fill = f"url(#{prefix}-{bout.side})" if bout.side in ("right", "both") else COLOURS["bout"]
    return _shape(
        "rect",
        f"{mmss(bout.start_s)} to {mmss(bout.end_s)} {bout.label}",
        bout.thread,
        prefix,
        f"bout {bout.side or 'no-side'}",
        x=f"{min(start, WIDTH - RIGHT - 3):g}",
        y=f"{_middle(row + 2) - tall / 2:g}",
        width=f"{max(end - start, 3.0):g}",
        height=f"{tall:g}",
        rx="1.5",
        fill="none" if bout.side is None else fill,
        stroke="currentColor",
        stroke_width="1",
        pointer_events="all",
    )


def _axis(svg: ET.Element, scale: _Scale, y: float) -> None:
    line = {"x1": f"{GUTTER:g}", "x2": f"{WIDTH - RIGHT:g}", "y1": f"{y:g}", "y2": f"{y:g}"}
    child(svg, "line", "", **line, stroke="currentColor")
    for tick in scale.ticks():
        x = f"{scale.x(tick):g}"
        child(svg, "line", "", x1=x, x2=x, y1=f"{y:g}", y2=f"{y + 5:g}", stroke="currentColor")
        child(svg, "text", mmss(tick), x=x, y=f"{y + 18:g}", text_anchor="middle", font_size="12")


def _legend(svg: ET.Element, words: Phrases, prefix: str, y: float) -> None:
    """The key to sides; heights are named in words."""
    x = 8.0
    for key, fill in {
        "left": COLOURS["bout"],
        "right": f"url(#{prefix}-right)",
        "both": f"url(#{prefix}-both)",
        "no_side": "none",
    }.items():
        box = {"x": f"{x:g}", "y": f"{y - 9:g}", "width": "14", "height": "10", "fill": fill}
        child(svg, "rect", "", **box, stroke="currentColor")
        child(svg, "text", words[key], x=f"{x + 18:g}", y=f"{y:g}", font_size="12")
        x += 30 + len(words[key]) * 7.2
    child(svg, "text", words["reading"], x="8", y=f"{y + 20:g}", font_size="12")
