from dataclasses import replace
from html import escape

from report_samples import ENTRIES, HORSE, OWNER, TABLES, VET, VISIT, WORK, YARD

from haywisp.report import OwnerReport, ReportLine, owner_html, owner_report, owner_text

REPORT = owner_report(VISIT, HORSE, OWNER, YARD, ENTRIES, WORK, TABLES)


def everything(report: OwnerReport) -> list[str]:
    lines = (*report.urgent, *report.done, *report.found, *report.answered, *report.homework, *report.cautions)
    told = [text for line in lines for text in (line.text, line.detail) if text]
    return [report.horse, report.owner, report.yard, report.practitioner, report.summary, report.diagnosis_note, *told]


def test_the_page_and_the_text_say_all_of_the_report() -> None:
    vet = owner_report(VISIT, HORSE, OWNER, YARD, ENTRIES, VET, TABLES)
    page, text = owner_html(vet), " ".join(owner_text(vet).split())
    for says in everything(vet):
        assert escape(says) in page
        assert says in text
    assert page.index("please call your vet") < page.index("What was done")


def test_the_text_fits_a_terminal() -> None:
    wide = replace(REPORT, summary="A long summary of the visit. " * 9, horse="W" * 200)
    assert max(map(len, owner_text(wide).splitlines())) <= 80


def test_the_page_escapes_what_a_person_typed() -> None:
    hostile = '<script>alert(1)</script> & "{{ 7 * 7 }}" {horse}'
    page = owner_html(replace(REPORT, horse=hostile, done=(ReportLine(hostile, hostile),)))
    assert "<script" not in page
    assert page.count("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &#34;{{ 7 * 7 }}&#34; {horse}") == 5


def test_an_empty_report_says_so_in_both() -> None:
    empty = owner_report(VISIT, HORSE, OWNER, YARD, (), WORK, TABLES)
    for says in (owner_html(empty), owner_text(empty)):
        assert "No hands-on work is recorded for this visit." in says
        assert "Nothing was set for you to do." in says
        assert "Nothing is recorded of this visit." in says and "out of the ordinary" not in says
