"""The owner's report as plain text of 80 columns."""

from haywisp.report.console_text import heading, underlined, wrapped
from haywisp.report.owner_pdf import day_words
from haywisp.report.phrases import table
from haywisp.report.types import OwnerReport, ReportLine


def owner_text(report: OwnerReport, language: str = "en") -> str:
    """The report with the words of the PDF."""
    words = table("owner", language)
    heads = words["headings"]
    people = {
        "day": day_words(report, language),
        "owner": report.owner,
        "yard": report.yard,
        "practitioner": report.practitioner,
    }
    title = f"{report.title or words['title']}: {report.horse}"
    lines = [underlined(title, "=")]
    lines += [wrapped(words["invented"])] if report.invented else []
    lines += [wrapped(f"{heads[key]}: {text}") for key, text in people.items() if text]
    if report.urgent:
        lines += [heading(heads["urgent"].upper()), *_lines(report.urgent)]
    lines += ["", wrapped(report.summary)]
    for key in ("done", "found", "answered", "homework"):
        told: tuple[ReportLine, ...] = getattr(report, key)
        lines += [heading(heads[key].format(horse=report.horse)), *(_lines(told) or [words["empty"][key]])]
    lines += [heading(heads["cautions"]), *_lines(report.cautions)]
    return "\n".join([*lines, "", wrapped(report.diagnosis_note or words["diagnosis_note"])]) + "\n"


def _lines(lines: tuple[ReportLine, ...]) -> list[str]:
    joints = [": " if line.text[-1:] not in (".", "!", "?") else " " for line in lines]
    return [
        wrapped(f"{line.text}{joint}{line.detail}" if line.detail else line.text, "- ", "  ")
        for line, joint in zip(lines, joints, strict=True)
    ]
