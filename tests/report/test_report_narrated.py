import dataclasses
import xml.etree.ElementTree as ET
from html.parser import HTMLParser
from pathlib import Path

from narrated_samples import EMPTY, NARRATION
from report_samples import TABLES

from haywisp.narration.types import Alert, Bout, Question, Span
from haywisp.report import narration_html, narration_text

SNAPSHOT = Path(__file__).parent / "narration.txt"


class Tags(HTMLParser):
    """Collects tags with their attributes, and the text."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def test_the_text_as_a_whole() -> None:
    assert narration_text(NARRATION, TABLES) == SNAPSHOT.read_text(encoding="utf-8")


def test_no_line_of_the_text_is_longer_than_eighty() -> None:
    bout = Bout("kneading", ("splenius",) * 12, "both", 3600.0, 9999.0, 12, "moderate", Span(0, 8), 0.9)
    question = Question("bout", 0, None, "Is this right? " * 20, (), 3600.0, Span(0, 18))
    long = dataclasses.replace(NARRATION, bouts=(bout,) * 3, questions=(question,))
    assert max(map(len, narration_text(long, TABLES).splitlines())) <= 80


def test_words_of_the_speaker_are_no_markup_for_the_terminal() -> None:
    question = Question("bout", 0, None, "[bold red]tail[/] \x1b[31m?", (), 1.0, Span(0, 1))
    says = narration_text(dataclasses.replace(NARRATION, questions=(question,)), TABLES)
    assert "[bold red]tail[/] [31m?" in says
    assert "\x1b" not in says


def test_nothing_understood_still_reads() -> None:
    says = narration_text(EMPTY, TABLES)
    assert "Check that it is the transcript you meant." in " ".join(says.split())
    assert "Questions" not in says
    assert "Nothing in this was understood" in " ".join(Tags(narration_html(EMPTY, TABLES)).words)


def test_a_red_flag_alone_is_something() -> None:
    alone = dataclasses.replace(EMPTY, alerts=(Alert("fever", "she has a fever", 1.0, Span(0, 0), 0.9),))
    assert "No bouts, no findings" in narration_text(alone, TABLES)


def test_the_page_has_every_bout_question_and_what_was_heard() -> None:
    page = Tags(narration_html(NARRATION, TABLES))
    text = " ".join(" ".join(page.words).split())
    for says in ("Which side was kneaded?", "Left / Right", "after raj down the neck", "Left brachiocephalicus: tight"):
        assert says in text
    assert [tag for tag, _ in page.tags].count("tr") == 1 + len(NARRATION.bouts)


def test_the_page_escapes_what_was_heard_and_loads_nothing() -> None:
    page = Tags(narration_html(NARRATION, TABLES))
    tags = {tag for tag, _ in page.tags}
    assert tags.isdisjoint({"b", "script", "link", "img", "iframe"})
    assert not [attributes for _, attributes in page.tags if {"src", "href", "style", "onload"} & attributes.keys()]
    assert "knead <b>it</b>" in " ".join("".join(page.words).split())


def test_the_drawing_in_the_page_is_well_formed() -> None:
    page = narration_html(NARRATION, TABLES)
    drawing = ET.fromstring(page[page.index("<svg") : page.index("</svg>") + 6])
    threads = [one.attrib["data-thread"] for one in drawing.iter() if "data-thread" in one.attrib]
    assert threads == ["response-0", "bout-0", "bout-1"]


def test_red_flags_come_before_the_bouts_in_text_and_page() -> None:
    alarming = dataclasses.replace(NARRATION, alerts=(Alert("colic", "sigh", 70.0, Span(13, 14), 0.85),))
    text = narration_text(alarming, TABLES)
    page = " ".join(" ".join(Tags(narration_html(alarming, TABLES)).words).split())
    for says in (text, page):
        assert says.index("Red flags spoken of") < says.index("Bouts")
        assert "1:10" in says and "Colic" in says
    assert "«sigh»" in text
    assert "Red flags" not in narration_text(NARRATION, TABLES)
