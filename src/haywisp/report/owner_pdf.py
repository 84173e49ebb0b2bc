"""The owner's report as a tagged PDF (PDF/UA-1) on A4."""

import json
from collections.abc import Sequence
from dataclasses import fields
from datetime import UTC, datetime, time
from importlib.resources import files
from typing import Literal

from haywisp.errors import HaywispError
from haywisp.report.glyphs import printable, unprintable
from haywisp.report.phrases import joined, table
from haywisp.report.types import OwnerReport, ReportLine

STANDARD: Literal["ua-1"] = "ua-1"


class Unprintable(HaywispError):
    """The typesetter refused the report."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"The report could not be set as a PDF: {said}. The report as a page or as text still works; "
            "nothing that was entered is changed."
        )


def pdf(report: OwnerReport, language: str = "en") -> bytes:
    """The report as PDF; the same report gives the same bytes.

    Texts go in as data and are printed as they stand. A character that the packaged typeface lacks is written by its
    name, and a line at the end says so; :func:`characters_lacking` tells beforehand.
    """
    import typst

    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(files("haywisp.report") / "fonts")]
    )
    made = datetime.combine(report.day, time(12), UTC)
    try:
        result = typst.compile(
            (files("haywisp.report") / "templates" / "owner.typ").read_bytes(),
            font_paths=fonts,
            ignore_system_fonts=True,
            format="pdf",
            sys_inputs={"report": json.dumps(_data(report, language))},
            pdf_standards=[STANDARD],
            timestamp=made,
        )
    except typst.TypstError as fault:
        raise Unprintable(str(fault).splitlines()[0]) from fault
    return bytes(result)


def characters_lacking(report: OwnerReport) -> tuple[str, ...]:
    """The characters of a report that its typeface cannot print."""
    return unprintable("\n".join(_texts(report)))


def _texts(report: OwnerReport) -> list[str]:
    texts = []
    for one in fields(report):
        value = getattr(report, one.name)
        if isinstance(value, str):
            texts.append(value)
        elif isinstance(value, tuple):
            texts += [text for line in value for text in (line.text, line.detail)]
    return texts


def _data(report: OwnerReport, language: str) -> dict[str, object]:
    """What the template reads: plain JSON values only."""
    words = table("owner", language)
    headings = {key: printable(text.format(horse=report.horse)) for key, text in words["headings"].items()}
    date = day_words(report, language)
    head = [
        (headings["day"], date),
        (headings["owner"], report.owner),
        (headings["yard"], report.yard),
        (headings["practitioner"], report.practitioner),
    ]
    lacking = [f"“{printable(char)[1:-1]}”" for char in characters_lacking(report)]
    substituted = words["page"]["substituted"].format(characters=joined(lacking)) if lacking else ""
    return {
        "lang": language,
        "title": printable(report.title or words["title"]),
        "horse": printable(report.horse).strip() or "—",
        "practitioner": printable(report.practitioner),
        "date": date,
        "day": {"year": report.day.year, "month": report.day.month, "day": report.day.day},
        "head": [(label, printable(text)) for label, text in head if text.strip()],
        "summary": printable(report.summary),
        "urgent": _lines(report.urgent),
        "done": _lines(report.done),
        "found": _lines(report.found),
        "answered": _lines(report.answered),
        "homework": _lines(report.homework),
        "cautions": _lines(report.cautions),
        "diagnosis_note": printable(report.diagnosis_note or words["diagnosis_note"]),
        "invented": report.invented,
        "substituted": substituted,
        "words": headings
        | {
            "columns": words["columns"],
            "empty": words["empty"],
            "invented": words["invented"],
            "page": words["page"]["page"],
        },
    }


def day_words(report: OwnerReport, language: str = "en") -> str:
    """The day of the visit, written out."""
    page = table("owner", language)["page"]
    day = report.day
    return str(page["date"].format(day=day.day, month=page["months"][day.month - 1], year=day.year))


def _lines(lines: Sequence[ReportLine]) -> list[dict[str, str]]:
    return [{"text": printable(line.text), "detail": printable(line.detail)} for line in lines]
