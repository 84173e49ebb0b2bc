"""Say it to a person: sentences, the owner's report as a page and a PDF, a narration as text and HTML, figures."""

from haywisp.report.figure import FigureMark, NotDrawn, Placed, placed_shapes
from haywisp.report.figure_legend import legend_svg
from haywisp.report.figure_svg import figure_svg
from haywisp.report.html_pages import narration_html, owner_html
from haywisp.report.narrated_text import narration_text
from haywisp.report.owner import owner_report
from haywisp.report.owner_pdf import pdf
from haywisp.report.owner_text import owner_text
from haywisp.report.timeline import narration_svg
from haywisp.report.types import OwnerReport, ReportLine
from haywisp.report.wording import entry_sentence, mmss, side_words, structure_name

__all__ = [
    "FigureMark",
    "NotDrawn",
    "OwnerReport",
    "Placed",
    "ReportLine",
    "entry_sentence",
    "figure_svg",
    "legend_svg",
    "mmss",
    "narration_html",
    "narration_svg",
    "narration_text",
    "owner_html",
    "owner_report",
    "owner_text",
    "pdf",
    "placed_shapes",
    "side_words",
    "structure_name",
]
