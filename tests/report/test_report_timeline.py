import xml.etree.ElementTree as ET

from report_samples import TABLES

from haywisp.narration.types import Bout, Narration, Response, Span, Transcript
from haywisp.report.timeline import narration_svg

SVG = "{http://www.w3.org/2000/svg}"


def bout(technique: str, place: str, side: str | None, start: float, end: float, pressure: str | None = None) -> Bout:
    return Bout(technique, (place,), side, start, end, None, pressure, Span(0, 1), 0.9)


def narrated(*bouts: Bout, responses: tuple[Response, ...] = ()) -> Narration:
    return Narration(Transcript((), "vtt"), bouts, (), responses, (), ())


SESSION = narrated(
    bout("effleurage", "neck", "left", 0, 240, "light"),
    bout("kneading", "brachiocephalicus", "left", 240, 540, "moderate"),
    bout("kneading", "brachiocephalicus", "right", 600, 720, "moderate"),
    responses=(Response("lick-and-chew", 250.0, Span(0, 1), 0.9), Response("flinch", 610.0, Span(0, 1), 0.9)),
)


def shapes(svg: str) -> dict[str, ET.Element]:
    found = [one for one in ET.fromstring(svg).iter() if "data-thread" in one.attrib]
    by_thread = {one.attrib["data-thread"]: one for one in found}
    assert len(by_thread) == len(found), "a thread is drawn once"
    return by_thread


def test_one_shape_for_each_bout_and_answer_each_with_a_title() -> None:
    drawn = shapes(narration_svg(SESSION, TABLES))
    assert sorted(drawn) == ["bout-0", "bout-1", "bout-2", "response-0", "response-1"]
    titles = {thread: one.findtext(f"{SVG}title") for thread, one in drawn.items()}
    assert titles["bout-0"] == "0:00 to 4:00 Effleurage along the left neck, light"
    assert titles["response-1"] == "10:10 Flinched (guarded)"


def test_settling_and_guarding_differ_in_shape_and_place() -> None:
    drawn = shapes(narration_svg(SESSION, TABLES))
    settled, guarded = drawn["response-0"], drawn["response-1"]
    assert (settled.tag, guarded.tag) == (f"{SVG}circle", f"{SVG}path")
    assert float(settled.attrib["cy"]) < 38 < float(guarded.attrib["d"].split()[0].split(",")[1])


def test_sides_differ_in_pattern_and_pressure_in_height() -> None:
    drawn = shapes(narration_svg(SESSION, TABLES, prefix="clover"))
    assert drawn["bout-2"].attrib["fill"] == "url(#clover-right)"
    assert not drawn["bout-0"].attrib["fill"].startswith("url")
    assert float(drawn["bout-0"].attrib["height"]) < float(drawn["bout-1"].attrib["height"])


def test_bars_lie_where_their_times_say() -> None:
    bars = [shapes(narration_svg(SESSION, TABLES))[f"bout-{number}"].attrib for number in range(3)]
    left, width = [float(bar["x"]) for bar in bars], [float(bar["width"]) for bar in bars]
    assert abs(left[0] + width[0] - left[1]) < 0.02
    assert abs(width[1] / width[0] - 300 / 240) < 0.01
    assert left[2] > left[1] + width[1]


def test_nothing_in_it_breaks_a_strict_content_policy() -> None:
    for element in ET.fromstring(narration_svg(SESSION, TABLES)).iter():
        assert element.tag.removeprefix(SVG) not in {"script", "style", "foreignObject", "image"}
        assert not [key for key in element.attrib if key == "style" or key.startswith("on")]


def test_hostile_words_stay_text() -> None:
    hostile = bout("<script>alert(1)</script>", '"neck" & <back>', "left", 0, 60)
    svg = narration_svg(narrated(hostile, responses=(Response("a\x00b\ud800", 5.0, Span(0, 1), 0.9),)), TABLES)
    assert len(shapes(svg)) == 2
    assert "<script" not in svg


def test_an_empty_narration_and_a_bout_of_no_length_are_drawn() -> None:
    assert shapes(narration_svg(narrated(), TABLES)) == {}
    drawn = shapes(narration_svg(narrated(bout("kneading", "neck", None, 0, 0)), TABLES))
    assert float(drawn["bout-0"].attrib["width"]) >= 3
