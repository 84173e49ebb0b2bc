import io
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from report_samples import ENTRIES, HORSE, OWNER, TABLES, VET, VISIT, WORK, YARD

from haywisp.report.glyphs import printable, unprintable
from haywisp.report.owner import owner_report
from haywisp.report.owner_pdf import characters_lacking, pdf
from haywisp.report.types import OwnerReport, ReportLine

REPORT = owner_report(VISIT, HORSE, OWNER, YARD, ENTRIES, WORK, TABLES)
SNAPSHOT = Path(__file__).parent / "owner_report.txt"


def reader(report: OwnerReport) -> PdfReader:
    return PdfReader(io.BytesIO(pdf(report)))


def text(report: OwnerReport) -> str:
    return "\n".join(page.extract_text() for page in reader(report).pages)


def run_together(says: str) -> str:
    return "".join(says.split())


def test_the_words_of_the_whole_report() -> None:
    assert text(REPORT).strip() == SNAPSHOT.read_text(encoding="utf-8").strip()


@pytest.mark.parametrize(
    "hostile",
    [
        "#panic()",
        "$x$",
        "<script>alert(1)</script>",
        "*bold* _slanted_ `raw`",
        "\\",
        "= Heading",
        "@reference <label>",
        "// no comment /* nor this */",
        "#{sys.inputs}",
        "http://example.org/a_b*c",
        "{horse} %s",
        'She said "no"',
        "Zoë Łuczak-Ødegård",
        "Ω Д ع א ½ € ♥",
        "W" * 200,
    ],
)
def test_what_a_person_typed_is_printed_as_it_stands(hostile: str) -> None:
    report = replace(REPORT, horse=hostile, summary=hostile, done=(ReportLine(hostile, hostile),))
    says = run_together(text(report))
    whole = run_together(hostile)
    if not any(char in hostile for char in "عא"):
        assert says.count(whole) >= 4
    else:
        assert all(char in says for char in whole)


def test_a_long_word_breaks_inside_the_page() -> None:
    """Each line of the word is one that fits the text block: 170 mm hold fewer than 100 of the letter."""
    lines = text(replace(REPORT, summary="W" * 300)).splitlines()
    assert max(line.count("W") for line in lines) < 60


def test_a_character_the_typeface_lacks_is_named_and_told() -> None:
    report = replace(REPORT, horse="Clover 🐎", yard="山田")
    says = " ".join(text(report).split())
    assert "Clover [horse]" in says
    assert "each is written out by its name in square brackets" in says
    assert characters_lacking(report) == ("🐎", "山", "田")
    assert characters_lacking(REPORT) == ()


def test_invisible_and_control_characters_do_no_harm() -> None:
    assert printable("a\x00b\u200d\ufe0fc\ud800") == "a bc[u+d800]"
    assert unprintable("\x07\u200d\n") == ()
    assert printable("e\u0301") == "é"
    pdf(replace(REPORT, summary="bell \x07, half a pair \ud800, joiner \u200d"))


def test_the_same_report_gives_the_same_bytes() -> None:
    assert pdf(REPORT) == pdf(REPORT)


def test_the_pdf_is_tagged_titled_and_says_its_language() -> None:
    document = reader(REPORT)
    root = document.trailer["/Root"]
    assert "/StructTreeRoot" in root
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert document.metadata is not None
    assert document.metadata.title == "Clover: Bodywork report"
    assert b"pdfuaid:part" in document.xmp_metadata.stream.get_data()  # type: ignore[union-attr]


def test_the_pdf_is_dated_by_the_visit() -> None:
    assert reader(REPORT).metadata.creation_date.date() == VISIT.day  # type: ignore[union-attr]


def test_a_long_report_breaks_over_pages_with_heads_and_feet() -> None:
    lines = tuple(ReportLine(f"Place {n}", "Long gliding strokes and kneading. " * 3) for n in range(40))
    pages = [page.extract_text() for page in reader(replace(REPORT, done=lines)).pages]
    assert len(pages) > 2
    for number, page in enumerate(pages, start=1):
        assert f"Page {number} of {len(pages)}" in page
        assert "This report is not a diagnosis" in page
        assert "Clover" in page
    assert sorted(n for n in range(40) if f"Place {n}\n" in "\n".join(pages) or f"Place {n} " in "\n".join(pages)) == [
        *range(40)
    ]
    assert all("Part of the body" in page for page in pages[:2])


def test_the_vet_stands_before_all_else() -> None:
    says = text(owner_report(VISIT, HORSE, OWNER, YARD, ENTRIES, VET, TABLES))
    assert says.index("please call your vet") < says.index("What was done")


def test_an_invented_example_is_marked_and_a_real_one_is_not() -> None:
    assert "Invented example" in text(REPORT)
    assert "Invented example" not in text(replace(REPORT, invented=False))


def test_an_empty_report_says_so() -> None:
    says = text(owner_report(VISIT, HORSE, OWNER, YARD, (), WORK, TABLES))
    assert "No hands-on work is recorded for this visit." in says


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=40), st.text(max_size=200))
def test_no_text_at_all_stops_the_typesetter(short: str, long: str) -> None:
    lines = (ReportLine(short, long), ReportLine(long, short))
    report = replace(REPORT, horse=short, owner=short, yard=long, practitioner=short, summary=long)
    assert pdf(replace(report, urgent=lines, done=lines, found=lines, homework=lines, title=short)).startswith(b"%PDF")
