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
    """The owner's report of one visit in plain words; every text is data and never markup."""

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
