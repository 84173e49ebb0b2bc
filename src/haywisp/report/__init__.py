"""Say it to a person: sentences, the owner's report as a page and a PDF, a narration as text and HTML, figures."""

from haywisp.report.html_pages import narration_html, owner_html
from haywisp.report.narrated_text import narration_text
from haywisp.report.owner import owner_report
from haywisp.report.owner_pdf import pdf
from haywisp.report.owner_text import owner_text
from haywisp.report.timeline import narration_svg
from haywisp.report.types import OwnerReport, ReportLine
from haywisp.report.wording import entry_sentence, mmss, side_words, structure_name

__all__ = [
    "OwnerReport",
    "ReportLine",
    "entry_sentence",
    "mmss",
    "narration_html",
    "narration_svg",
    "narration_text",
    "owner_html",
    "owner_report",
    "owner_text",
    "pdf",
    "side_words",
    "structure_name",
]
