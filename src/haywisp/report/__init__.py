"""Say it to a person: sentences, the owner's report as a page and a PDF, a narration as text and HTML, figures."""

from haywisp.report.owner import owner_report
from haywisp.report.owner_pdf import pdf
from haywisp.report.timeline import timeline_svg
from haywisp.report.types import OwnerReport, ReportLine
from haywisp.report.wording import entry_sentence, mmss, side_words, structure_name

__all__ = [
    "OwnerReport",
    "ReportLine",
    "entry_sentence",
    "mmss",
    "owner_report",
    "pdf",
    "side_words",
    "structure_name",
    "timeline_svg",
]
