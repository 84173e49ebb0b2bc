"""The pages of today, of the people and of the horses."""

from dataclasses import dataclass
from datetime import date

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse, Visit
from haywisp.usecases.views.shared import Option, PatternView, Ref, VerdictView, VisitRow


@dataclass(frozen=True, slots=True)
class PeoplePage:
    """Owners and yards by name, and the flags that stay with a horse, for the horse's form."""

    owners: tuple[Owner, ...]
    yards: tuple[Yard, ...]
    flags: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class HorseRow:
    """One line of the list of horses; ``waiting`` counts visits heard but not yet reviewed."""

    id: str
    name: str
    owner: Ref
    yard: Ref
    breed: str
    work: str
    last_day: date | None
    open_questions: int
    waiting: int
    invented: bool


@dataclass(frozen=True, slots=True)
class StrandView:
    """What one structure was found to be at each visit, oldest first."""

    structure: Ref
    side: str | None
    aspect: Ref
    title: str
    values: tuple[tuple[date, str], ...]
    change: str


@dataclass(frozen=True, slots=True)
class HorsePage:
    """Everything on one horse; ``height`` is in centimetres and hands.

    ``numbers`` are its life number and its chip's, ``told`` what the owner told of it, each with its heading.

    The verdict and the patterns are of ``verdict_visit``, the newest visit with entries.
    """

    horse: Horse
    owner: Owner
    yard: Yard
    height: str
    numbers: tuple[tuple[str, str], ...]
    told: tuple[tuple[str, str], ...]
    flags: tuple[Option, ...]
    visits: tuple[VisitRow, ...]
    strands: tuple[StrandView, ...]
    patterns: tuple[PatternView, ...]
    verdict: VerdictView
    verdict_visit: Visit | None


@dataclass(frozen=True, slots=True)
class DueRow:
    """A horse that is to be seen again: what was decided, when, and at which visit."""

    horse: Ref
    owner: Ref
    yard: Ref
    visit_id: str
    decided: date
    days_ago: int
    wording: str


@dataclass(frozen=True, slots=True)
class StopView:
    """One yard of a round with its visits, and the minutes booked there."""

    name: str
    address: str
    isolation: bool
    minutes: int
    visits: tuple[VisitRow, ...]


@dataclass(frozen=True, slots=True)
class RoundPage:
    """A day's visits by yard in the order to drive, and what to think of on the way."""

    day: date
    stops: tuple[StopView, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TodayPage:
    """The day at a glance; ``round`` has its visits by yard.

    ``recent`` are visits of the last two weeks, newest first, that are not today's.
    """

    day: date
    visits: tuple[VisitRow, ...]
    waiting: tuple[VisitRow, ...]
    due: tuple[DueRow, ...]
    recent: tuple[VisitRow, ...]
    horses: int
    round: RoundPage
