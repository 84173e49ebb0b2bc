"""What a report says, before it is set as a page or a PDF."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class ReportLine:
    """One sentence, and what it belongs to."""

    text: str
    detail: str = ""


@dataclass(frozen=True, slots=True)
class OwnerReport:
    """The owner's report of one visit in plain words; every text is data and never markup.

    ``urgent`` is what has to be read first (a vet is asked for); the same stands in ``homework`` or ``cautions`` too.
    ``title`` and ``diagnosis_note`` are the heading and the sentence at the foot of every page.
    """

    horse: str
    owner: str
    yard: str
    practitioner: str
    day: date
    summary: str
    done: tuple[ReportLine, ...]
    found: tuple[ReportLine, ...]
    answered: tuple[ReportLine, ...]
    homework: tuple[ReportLine, ...]
    cautions: tuple[ReportLine, ...]
    unreviewed: int
    invented: bool
    urgent: tuple[ReportLine, ...] = ()
    title: str = ""
    diagnosis_note: str = ""
