"""What the pages and the command line show of the practitioner's own words."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse, Visit
from haywisp.usecases.views.shared import Ref, VisitRow


@dataclass(frozen=True, slots=True)
class OwnWordRow:
    """One of the list: ``kind_name`` and ``meaning_name`` are to read; ``known`` is False when no table has it now."""

    id: str
    kind: str
    kind_name: str
    phrase: str
    meaning: str
    meaning_name: str
    misheard: bool
    day: date
    known: bool = True


@dataclass(frozen=True, slots=True)
class HeardAt:
    """A visit in whose narration words were said, and how often."""

    visit: Ref
    horse: str
    day: date
    times: int


@dataclass(frozen=True, slots=True)
class OwnWordOffer:
    """What may be kept after a correction: the words that were likely meant, and what they were corrected to.

    ``phrase`` is "" where the words are for the person to give. ``thread`` is the entry that was corrected.
    """

    thread: str
    kind: str
    kind_name: str
    phrase: str
    meaning: str
    meaning_name: str
    misheard: bool


@dataclass(frozen=True, slots=True)
class Rereading:
    """One thing that reading a narration again would change.

    ``what`` is ``new``, ``changed``, ``gone``, ``surer`` (asked about no more, or asked about now) or ``stays`` (heard
    otherwise now, but decided on).
    """

    what: str
    time: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class RereadPage:
    """What reading a visit's narration with today's own words would change, before anything is changed.

    ``heard`` are the own words said in it that are on the list now, ``added`` those of them that it was not
    understood with, and ``dropped`` those it was understood with that are on the list no more. ``mark`` says what was
    shown, so that nothing else is done than that.
    """

    visit: Visit
    row: VisitRow
    horse: Horse
    owner: Owner
    yard: Yard
    heard: Sequence[OwnWordRow]
    added: Sequence[str]
    dropped: Sequence[str]
    changes: Sequence[Rereading]
    mark: str
