import xml.etree.ElementTree as ET
from dataclasses import replace

from report_samples import ENTRIES, TABLES, bout, entry

from haywisp.narration.types import Bout, Narration, Response, Span, Transcript
from haywisp.report.timeline import narration_svg, timeline_svg

SVG = "{http://www.w3.org/2000/svg}"


def shapes(svg: str) -> dict[str, ET.Element]:
    found = [one for one in ET.fromstring(svg).iter() if "data-thread" in one.attrib]
    by_thread = {one.attrib["data-thread"]: one for one in found}
    assert len(by_thread) == len(found), "a thread is drawn once"
    return by_thread


def test_one_shape_for_each_bout_and_answer_each_with_a_title() -> None:
    drawn = shapes(timeline_svg(ENTRIES, TABLES))
    assert sorted(drawn) == ["b1", "b2", "b3", "r1", "r2", "r3"]
    titles = {thread: one.findtext(f"{SVG}title") for thread, one in drawn.items()}
    assert titles["b1"] == "0:00 to 4:00 Effleurage along the left neck, 5 passes, light"
    assert titles["r3"] == "10:10 Flinched (guarded)"


def test_settling_and_guarding_differ_in_shape_and_place() -> None:
    drawn = shapes(timeline_svg(ENTRIES, TABLES))
    assert (drawn["r1"].tag, drawn["r3"].tag) == (f"{SVG}circle", f"{SVG}path")
    assert float(drawn["r1"].attrib["cy"]) < 38 < float(drawn["r3"].attrib["d"].split()[0].split(",")[1])


def test_sides_differ_in_pattern_and_pressure_in_height() -> None:
    drawn = shapes(timeline_svg(ENTRIES, TABLES, prefix="clover"))
    assert drawn["b3"].attrib["fill"] == "url(#clover-right)"
    assert not drawn["b1"].attrib["fill"].startswith("url")
    assert float(drawn["b1"].attrib["height"]) < float(drawn["b2"].attrib["height"])


def test_bars_lie_where_their_times_say() -> None:
    drawn = shapes(timeline_svg(ENTRIES, TABLES))
    left = {thread: float(drawn[thread].attrib["x"]) for thread in ("b1", "b2", "b3")}
    width = {thread: float(drawn[thread].attrib["width"]) for thread in ("b1", "b2")}
    assert abs(left["b1"] + width["b1"] - left["b2"]) < 0.02
    assert abs(width["b2"] / width["b1"] - 300 / 240) < 0.01
    assert left["b3"] > left["b2"] + width["b2"]


def test_nothing_in_it_breaks_a_strict_content_policy() -> None:
    svg = timeline_svg(ENTRIES, TABLES, href="#entry-{thread}")
    for element in ET.fromstring(svg).iter():
        assert element.tag.removeprefix(SVG) not in {"script", "style", "foreignObject", "image"}
        assert not [key for key in element.attrib if key == "style" or key.startswith("on")]
    assert '<a href="#entry-b1">' in svg


def test_rejected_entries_are_left_out_and_proposed_ones_have_a_broken_outline() -> None:
    entries = [bout("b1", "kneading", "neck", "left", 0, 60, status="proposed")]
    assert "stroke-dasharray" in shapes(timeline_svg(entries, TABLES))["b1"].attrib
    assert shapes(timeline_svg([replace(entries[0], status="rejected")], TABLES)) == {}


def test_hostile_words_stay_text() -> None:
    entries = [
        bout("b1", "<script>alert(1)</script>", '"neck" & <back>', "left", 0, 60),
        entry("r1", "response", {"sign": "a\x00b\ud800"}, 5),
    ]
    svg = timeline_svg(entries, TABLES)
    assert len(shapes(svg)) == 2
    assert "<script" not in svg


def test_an_empty_visit_and_a_bout_of_no_length_are_drawn() -> None:
    assert shapes(timeline_svg([], TABLES)) == {}
    assert float(shapes(timeline_svg([bout("b1", "kneading", "neck", None, 0, 0)], TABLES))["b1"].attrib["width"]) >= 3


def test_a_narration_is_drawn_before_it_is_in_a_record() -> None:
    heard = Bout("kneading", ("back",), "left", 3.0, 9.0, None, None, Span(0, 2), 0.9)
    sighed = Response("sigh", 8.0, Span(2, 3), 0.9)
    narration = Narration(Transcript((), "vtt"), (heard,), (), (sighed,), (), ())
    assert sorted(shapes(narration_svg(narration, TABLES))) == ["bout-0", "response-0"]
