"""The drawn horse as SVG: for pages, where each shape can be chosen, and for print."""

import xml.etree.ElementTree as ET
from collections.abc import Callable, Sequence
from dataclasses import replace

from haywisp.knowledge import Figure, Part, Stroke, Tables
from haywisp.knowledge.curves import Bend, smooth
from haywisp.report.figure import FigureMark, Placed, placed_shapes, unseen
from haywisp.report.figure_inks import colour_of, line_on, pattern
from haywisp.report.figure_legend import legend, legend_height
from haywisp.report.phrases import joined, table
from haywisp.report.svg import child, legal
from haywisp.report.wording import Reader, structure_name

#: Left, top, width and height of what is seen, in the units of the figure.
FRAMES = {
    "left": (-590.0, -420.0, 1690.0, 1440.0),
    "right": (-1100.0, -420.0, 1690.0, 1440.0),
    "above": (-330.0, -560.0, 660.0, 1720.0),
}
LEGEND_WIDTH = 620.0
EDGE = "#54402F"
#: Fill, edge and width of the edge of each kind of part.
PARTS = {
    "far": ("#DCCFBC", "#A8967F", 3.0),
    "far-hoof": ("#B9AB99", "#A8967F", 2.0),
    "hair": ("#6E5A49", EDGE, 2.0),
    "body": ("#F1E7D6", EDGE, 5.0),
    "hoof": ("#85735F", EDGE, 3.0),
    "ear": ("#F1E7D6", EDGE, 4.0),
    "eye": ("#33271E", EDGE, 1.0),
    "line": ("none", EDGE, 3.5),
    "fine-line": ("none", "#A38D76", 2.5),
    "skin-line": ("none", "#A38D76", 2.5),
    "bone": ("#FBF7EC", "#B5A78F", 2.5),
    "bone-line": ("none", "#CFC2AA", 7.0),
}
#: Fill of a shape that is not marked, by the kind of structure; muscle is the fall-back.
FLESH = {"muscle": "#E3C2AF", "ligament": "#F6F0E0", "fascia": "#F4EEDF", "tissue": "#EADFC8"}
#: Neighbouring regions are told apart by these.
TINTS = ("#E8DCC3", "#D3DBC6", "#E6CFBD", "#CFD9DC", "#DDD0DC")
SEAM = "#8A5F4A"
FIBRE = "#C29A84"


def figure_svg(
    view: str,
    layer: str,
    figure: Figure,
    tables: Tables,
    marks: Sequence[FigureMark] = (),
    *,
    prefix: str = "horse",
    choosable: bool = True,
    link: Callable[[str, str], str] | None = None,
    with_legend: bool = True,
    reader: Reader = "practitioner",
) -> str:
    """The horse in a view (``left``, ``right``, ``above``) and layer (``superficial``, ``deep``, ``regions``) as SVG.

    Each structure is an element with ``id``, ``data-structure`` and ``data-side``, reached by the keyboard in reading
    order; ``link`` gives the address that structure and side lead to; ``choosable=False`` makes a picture for print.
    ``prefix`` keeps the ids apart where a page holds several. No style attribute, style element or script is in it.
    Raises NotDrawn for an unknown view or layer.
    """
    shapes = placed_shapes(view, layer, figure, tables, marks, reader)
    left, top, width, height = FRAMES[view]
    scale = width / LEGEND_WIDTH if view != "above" else width / (LEGEND_WIDTH / 2)
    room = legend_height(marks, width / scale) * scale if with_legend and marks else 0.0
    svg = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"{left:g} {top:g} {width:g} {height + room:.0f}",
            "width": "100%",
            "class": f"figure figure-{view}",
            "role": "group" if choosable else "img",
            "aria-labelledby": f"{prefix}-title {prefix}-desc",
            "stroke-linejoin": "round",
            "stroke-linecap": "round",
        },
    )
    words = table("horse", tables.language.code)
    child(svg, "title", words[view], id=f"{prefix}-title")
    child(svg, "desc", _described(view, layer, shapes, marks, tables), id=f"{prefix}-desc")
    _patterns(svg, shapes, prefix, 1.6 if view == "above" else 2.2)
    parts = [part for part in figure.parts if part.view == ("above" if view == "above" else "side")]
    behind = next(index for index, part in enumerate(parts) if part.kind == "body") + 1
    bones = [part for part in parts if part.kind.startswith("bone")] if layer == "deep" else []
    hidden = ("bone", "bone-line", "skin-line") if layer == "deep" else ("bone", "bone-line")
    over = [part for part in parts[behind:] if part.kind not in hidden]
    _parts(svg, [*parts[:behind], *bones], view)
    holder = ET.SubElement(svg, "g", {"class": "figure-shapes"})
    for shape in shapes:
        holder.append(_shape(shape, layer, tables, prefix, choosable, link))
    _parts(svg, [replace(parts[behind - 1], kind="line"), *over], view)
    if room:
        key = legend(marks, tables, width / scale, prefix)
        key.set("transform", f"translate({left:g} {top + height:g}) scale({scale:.3f})")
        svg.append(key)
    return ET.tostring(svg, encoding="unicode")


def path_of(bends: Sequence[Bend], *, closed: bool) -> str:
    """The ``d`` of an SVG path, to whole units."""
    start = bends[0].start
    pieces = [f"M{start[0]:.0f} {start[1]:.0f}"]
    for bend in bends:
        pieces.append("C" + " ".join(f"{x:.0f} {y:.0f}" for x, y in (bend.out, bend.into, bend.end)))
    return "".join(pieces).replace("-0 ", "0 ") + ("Z" if closed else "")


def _described(view: str, layer: str, shapes: Sequence[Placed], marks: Sequence[FigureMark], tables: Tables) -> str:
    words = table("horse", tables.language.code)
    places = [_spoken(shape) for shape in shapes if shape.marks]
    said = words["no_marks"]
    if places:
        said = words["one_mark" if len(places) == 1 else "marks"].format(count=len(places), places=joined(places))
    gone = [structure_name(mark.structure, tables) for mark in unseen(marks, shapes)]
    if gone:
        said += " " + words["elsewhere"].format(places=joined(list(dict.fromkeys(gone))))
    return str(words["desc"].format(view=words[view], layer=words[layer], marks=said))


def _spoken(shape: Placed) -> str:
    """Name and side, with what was found."""
    labels = list(dict.fromkeys(mark.label for mark in shape.marks if mark.label))
    return f"{shape.name}: {'; '.join(labels)}" if labels else shape.name


def _patterns(svg: ET.Element, shapes: Sequence[Placed], prefix: str, scale: float) -> None:
    used = {(kind, line_on(shape.amount)) for shape in shapes for kind in shape.kinds}
    if used:
        defs = ET.SubElement(svg, "defs")
        for kind, line in sorted(used):
            defs.append(pattern(kind, line, prefix, scale))


def _parts(svg: ET.Element, parts: Sequence[Part], view: str) -> None:
    group = ET.SubElement(svg, "g", {"aria-hidden": "true", "pointer-events": "none"})
    for part in parts:
        turned = -1.0 if view == "right" else 1.0
        for across in (turned, -turned) if part.paired else (turned,):
            fill, edge, width = PARTS[part.kind]
            ET.SubElement(
                group,
                "path",
                {
                    "d": path_of(part.stroke.moved(across).bends(), closed=part.stroke.closed),
                    "fill": fill,
                    "stroke": edge,
                    "stroke-width": f"{width:g}",
                },
            )


def _shape(
    shape: Placed,
    layer: str,
    tables: Tables,
    prefix: str,
    choosable: bool,
    link: Callable[[str, str], str] | None,
) -> ET.Element:
    """One structure: its flesh and fibres, or its shade and hatching."""
    label = legal(_spoken(shape))
    around = {
        "id": f"{prefix}-{shape.structure}-{shape.side}",
        "class": "figure-shape marked" if shape.marks else "figure-shape",
        "data-structure": shape.structure,
        "data-side": shape.side,
        "aria-label": label,
    }
    if choosable and link:
        around |= {"href": link(shape.structure, shape.side), "role": "link", "tabindex": "0"}
    elif choosable:
        around |= {"role": "button", "tabindex": "0"}
    else:
        around |= {"role": "img"}
    group = ET.Element("a" if choosable and link else "g", around)
    child(group, "title", label)
    edge = {"stroke-dasharray": "9 7"} if shape.inner else {}
    outline = path_of(shape.stroke.bends(), closed=True)
    if shape.marks:
        drawn = {"d": outline, "fill": colour_of(shape.amount), "stroke": "#16242E", "stroke-width": "4", **edge}
        ET.SubElement(group, "path", drawn)
        line = line_on(shape.amount)
        for kind in shape.kinds:
            ET.SubElement(
                group, "path", {"d": outline, "fill": f"url(#{prefix}-{kind}-{line})", "pointer-events": "none"}
            )
        return group
    row = tables.structures[shape.structure]
    see_through = {"superficial": "1", "deep": "0.8", "regions": "0.8"}[layer]
    flesh = _tint(row.id, tables) if layer == "regions" else FLESH.get(row.kind, FLESH["muscle"])
    fill = {"fill": flesh, "fill-opacity": see_through}
    ET.SubElement(group, "path", {"d": outline, **fill, "stroke": SEAM, "stroke-width": "2.5", **edge})
    lines = _fibres(shape.stroke)
    if lines and layer != "regions":
        ET.SubElement(
            group,
            "path",
            {"d": lines, "fill": "none", "stroke": FIBRE, "stroke-width": "2", "pointer-events": "none"},
        )
    return group


def _tint(region: str, tables: Tables) -> str:
    """A tint that no neighbour of the region has, where there are enough of them."""
    given: dict[str, int] = {}
    for row in tables.structures.values():
        if row.kind == "region":
            taken = {given[key] for key in row.neighbours if key in given}
            free = [number for number in range(len(TINTS)) if number not in taken]
            given[row.id] = free[0] if free else len(given) % len(TINTS)
    return TINTS[given.get(region, 0)]


def _fibres(stroke: Stroke) -> str:
    """The fibres of a muscle as one path."""
    lines = (line[:: max(1, len(line) // 5)] for line in stroke.fibres())
    return "".join(path_of(smooth(line, closed=False), closed=False) for line in lines)
