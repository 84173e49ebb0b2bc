"""The drawn horse as SVG: what can be chosen, what is said of it, and how findings shade it."""

import re
import xml.etree.ElementTree as ET
from collections import Counter

import pytest
from figure_shapes import FIGURE, LAYERS, STRUCTURES, TABLES, VIEWS

from haywisp.report import FigureMark, NotDrawn, figure_svg, legend_svg, placed_shapes
from haywisp.report.figure_inks import HATCHES, INK, PAPER, RAMP, UNSAID, line_on

SVG = "{http://www.w3.org/2000/svg}"
TIGHT = FigureMark("splenius", "left", "tone", 0.3, "tight")
SORE = FigureMark("splenius", "left", "tenderness", 0.9, "tender")
EVERY = [(view, layer) for view in VIEWS for layer in LAYERS]


def drawn(view: str, layer: str, *marks: FigureMark, **options: object) -> ET.Element:
    return ET.fromstring(figure_svg(view, layer, FIGURE, TABLES, marks, **options))  # type: ignore[arg-type]


def chosen(svg: ET.Element) -> dict[tuple[str, str], ET.Element]:
    return {
        (one.attrib["data-structure"], one.attrib["data-side"]): one
        for one in svg.iter()
        if "data-structure" in one.attrib
    }


@pytest.mark.parametrize(("view", "layer"), EVERY)
def test_each_structure_of_the_layer_can_be_reached_and_is_named(view: str, layer: str) -> None:
    shapes = chosen(drawn(view, layer))
    assert list(shapes) == [(one.structure, one.side) for one in placed_shapes(view, layer, FIGURE, TABLES)]
    for (structure, side), one in shapes.items():
        assert (STRUCTURES[structure].layer or "regions") == layer
        assert one.attrib["id"] == f"horse-{structure}-{side}"
        assert (one.attrib["role"], one.attrib["tabindex"]) == ("button", "0")
        said = one.attrib["aria-label"]
        assert said.startswith(f"{STRUCTURES[structure].name}, {side}")
        assert one.findtext(f"{SVG}title") == said
        path = one.find(f"{SVG}path")
        assert path is not None
        assert re.fullmatch(r"M[-\d ]+(C[-\d ]+)+Z", path.attrib["d"])


@pytest.mark.parametrize(("view", "layer"), EVERY)
def test_nothing_in_it_breaks_a_strict_content_policy_and_ids_are_unique(view: str, layer: str) -> None:
    marks = [FigureMark(key, None, kind, 0.5) for key in STRUCTURES for kind in ("tone", "skin")]
    svg = drawn(view, layer, *marks)
    for element in svg.iter():
        assert element.tag.removeprefix(SVG) not in {"script", "style", "foreignObject", "image", "use"}
        assert not [key for key in element.attrib if key == "style" or key.startswith("on")]
    ids = Counter(one.attrib["id"] for one in svg.iter() if "id" in one.attrib)
    assert [key for key, count in ids.items() if count > 1] == []
    used = set(re.findall(r"url\(#([^)]+)\)", ET.tostring(svg, encoding="unicode")))
    assert used <= set(ids)


def test_two_on_one_page_share_no_id() -> None:
    ids = [
        {one.attrib["id"] for one in drawn(view, "deep", prefix=view).iter() if "id" in one.attrib}
        for view in ("left", "right")
    ]
    assert not ids[0] & ids[1]


def test_shapes_follow_one_another_from_head_to_tail() -> None:
    order = [structure for structure, _ in chosen(drawn("left", "superficial"))]
    for ahead, behind in (
        ("masseter", "splenius"),
        ("splenius", "triceps-brachii"),
        ("triceps-brachii", "biceps-femoris"),
    ):
        assert order.index(ahead) < order.index(behind)


def test_a_region_stands_before_those_that_are_part_of_it() -> None:
    """So that the parts are drawn over it and can be chosen."""
    order = [structure for structure, _ in chosen(drawn("left", "regions"))]
    for whole, parts in {
        "hindquarters": ("croup", "hamstrings", "sacroiliac", "stifle"),
        "hindlimb": ("stifle", "gaskin"),
    }.items():
        assert all(order.index(whole) < order.index(part) for part in parts)


def test_a_finding_shades_its_shape_by_amount_and_hatches_it_by_kind() -> None:
    splenius = chosen(drawn("left", "superficial", TIGHT, SORE))[("splenius", "left")]
    fills = [path.attrib["fill"] for path in splenius.iter(f"{SVG}path")]
    assert fills == [RAMP[3], "url(#horse-tone-paper)", "url(#horse-tenderness-paper)"]
    assert splenius.attrib["aria-label"] == "Splenius, left: tight; tender"
    assert "marked" in splenius.attrib["class"].split()


@pytest.mark.parametrize(
    ("side", "view", "marked"),
    [
        ("left", "left", ["left"]),
        ("left", "right", []),
        ("right", "right", ["right"]),
        ("both", "right", ["right"]),
        (None, "left", ["left"]),
        ("left", "above", ["left"]),
        ("right", "above", ["right"]),
        ("both", "above", ["left", "right"]),
    ],
)
def test_a_finding_is_shown_on_its_own_side(side: str | None, view: str, marked: list[str]) -> None:
    mark = FigureMark("gluteus-medius", side, "tone", 0.5)
    shapes = placed_shapes(view, "superficial", FIGURE, TABLES, [mark])
    assert [one.side for one in shapes if one.marks] == marked


@pytest.mark.parametrize("view", VIEWS)
def test_a_finding_of_the_midline_is_shown_once_in_every_view(view: str) -> None:
    shapes = placed_shapes(view, "superficial", FIGURE, TABLES, [FigureMark("crest", "left", "swelling", None)])
    assert [(one.structure, one.side) for one in shapes if one.marks] == [("crest", "midline")]


def test_the_description_says_what_is_marked_and_what_is_not_on_this_drawing() -> None:
    said = drawn("left", "superficial", TIGHT, FigureMark("iliopsoas", "left", "tone")).findtext(f"{SVG}desc")
    assert said == (
        "The horse from its left, superficial layer. One place is marked: Splenius, left: tight. "
        "Not on this drawing: iliopsoas."
    )
    assert drawn("right", "deep").findtext(f"{SVG}desc") == "The horse from its right, deep layer. Nothing is marked."


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2 (from memory)."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def as_seen(colour: str, kind: str) -> tuple[float, float, float]:
    """CIELAB of a colour as someone without red (protan) or green (deutan) cones sees it.

    Viénot, Brettel & Mollon 1999, Color Research & Application 24:243-252 (matrices from memory).
    """
    import numpy as np
    from skimage.color import rgb2lab

    rgb = np.array([int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)])
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    to_lms = np.array([[17.8824, 43.5161, 4.11935], [3.45565, 27.1554, 3.86714], [0.0299566, 0.184309, 1.46709]])
    lms = to_lms @ linear
    if kind == "protan":
        lms[0] = 2.02344 * lms[1] - 2.52581 * lms[2]
    elif kind == "deutan":
        lms[1] = 0.494207 * lms[0] + 1.24827 * lms[2]
    seen = np.clip(np.linalg.inv(to_lms) @ lms, 0, 1)
    encoded = np.where(seen <= 0.0031308, seen * 12.92, 1.055 * seen ** (1 / 2.4) - 0.055)
    light, a, b = rgb2lab(encoded.reshape(1, 1, 3))[0, 0]
    return float(light), float(a), float(b)


@pytest.mark.parametrize("eye", ["usual", "protan", "deutan"])
def test_the_ramp_darkens_in_steps_that_every_eye_can_tell(eye: str) -> None:
    shades = [as_seen(colour, eye) for colour in RAMP]
    steps = [one[0] - other[0] for one, other in zip(shades, shades[1:], strict=False)]
    assert min(steps) > 10
    flesh = as_seen("#E3C2AF", eye)
    for shade in shades:
        assert sum((one - other) ** 2 for one, other in zip(shade, flesh, strict=True)) ** 0.5 > 12


@pytest.mark.parametrize("amount", [None, 0.0, 0.3, 0.6, 1.0])
def test_hatching_stands_out_from_what_it_lies_on(amount: float | None) -> None:
    ground = UNSAID if amount is None else RAMP[min(3, int(amount * 4))]
    assert contrast(INK if line_on(amount) == "ink" else PAPER, ground) >= 3


def test_every_aspect_has_a_hatching_of_its_own() -> None:
    assert set(HATCHES) == set(TABLES.aspects)
    assert len({path for _, path, _ in HATCHES.values()}) == len(HATCHES)


def test_the_legend_names_the_kinds_that_are_marked_and_no_other() -> None:
    key = ET.fromstring(legend_svg([TIGHT, SORE, FigureMark("neck", None, "humming")], TABLES))
    texts = [one.text for one in key.iter(f"{SVG}text")]
    assert texts == [
        "What was found",
        "Muscle tone",
        "Tenderness",
        "Something else",
        "How much",
        "less",
        "more",
        "not said",
    ]
    assert "not said" not in ET.tostring(ET.fromstring(legend_svg([TIGHT], TABLES)), encoding="unicode")


@pytest.mark.parametrize("width", [250.0, 340.0, 620.0])
def test_the_legend_stays_inside_its_frame(width: float) -> None:
    marks = [FigureMark("neck", None, kind, None) for kind in HATCHES]
    key = ET.fromstring(legend_svg(marks, TABLES, width=width))
    height = float(key.attrib["viewBox"].split()[3])
    for one in key.iter(f"{SVG}rect"):
        assert 0 <= float(one.attrib["y"]) < height - 18
        assert 0 <= float(one.attrib["x"]) < width - 34
    for one in key.iter(f"{SVG}text"):
        assert float(one.attrib["x"]) + len(one.text or "") * 7 < width
    assert len({(one.attrib["x"], one.attrib["y"]) for one in key.iter(f"{SVG}text")}) == len(HATCHES) + 5


def test_no_legend_without_marks() -> None:
    assert not list(drawn("left", "deep").iter(f"{SVG}text"))
    assert list(drawn("left", "superficial", TIGHT).iter(f"{SVG}text"))
    assert not list(drawn("left", "superficial", TIGHT, with_legend=False).iter(f"{SVG}text"))


def test_shapes_can_be_links_and_a_picture_for_print_has_nothing_to_choose() -> None:
    linked = chosen(drawn("left", "deep", link=lambda structure, side: f"/horses/clover?at={structure}&side={side}"))
    scalenus = linked[("scalenus", "left")]
    assert (scalenus.tag, scalenus.attrib["role"]) == (f"{SVG}a", "link")
    assert scalenus.attrib["href"] == "/horses/clover?at=scalenus&side=left"
    for one in chosen(drawn("left", "deep", choosable=False)).values():
        assert "tabindex" not in one.attrib
        assert one.attrib["role"] == "img"


def test_an_owner_reads_plain_words() -> None:
    named = chosen(drawn("left", "superficial", reader="owner"))[("masseter", "left")].attrib["aria-label"]
    assert "(masseter)" in named.lower()


def test_hostile_words_stay_text() -> None:
    mark = FigureMark("splenius", "left", "<b>", 0.2, 'x" onload="alert(1)\x00<script>')
    text = figure_svg("left", "superficial", FIGURE, TABLES, [mark])
    assert "<script" not in text
    assert not [one for one in ET.fromstring(text).iter() if "onload" in one.attrib]


def test_an_unknown_view_or_layer_is_refused_in_one_sentence() -> None:
    with pytest.raises(NotDrawn, match="view 'behind'; choose one of: left, right, above"):
        figure_svg("behind", "deep", FIGURE, TABLES)
    with pytest.raises(NotDrawn, match="layer 'skin'; choose one of: superficial, deep, regions"):
        figure_svg("left", "skin", FIGURE, TABLES)


@pytest.mark.parametrize("view", VIEWS)
def test_the_typesetter_takes_it(view: str) -> None:
    import typst

    svg = figure_svg(view, "superficial", FIGURE, TABLES, [TIGHT, SORE], choosable=False)
    page = b'#set page(width: 150mm, height: auto)\n#image(bytes(sys.inputs.horse), format: "svg")'
    result = typst.compile(page, format="pdf", sys_inputs={"horse": svg})
    assert isinstance(result, bytes)
    assert result.startswith(b"%PDF")
