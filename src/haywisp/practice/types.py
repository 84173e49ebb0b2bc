"""Who the practice works for and where."""

from dataclasses import dataclass
from datetime import date

from haywisp.record.types import Entry, Visit

#: What an owner or a vet can agree to, and how it was given; common practice, no source.
SCOPES = (
    "massage",
    "stretches",
    "warmth-and-cold",
    "photographs",
    "recordings",
    "sharing-with-vet",
    "sharing-with-others",
)
HANDS_ON = frozenset({"massage", "stretches", "warmth-and-cold"})
HOW_GIVEN = ("in writing", "by message", "by telephone", "by word of mouth")


@dataclass(frozen=True, slots=True)
class Owner:
    """A client."""

    id: str
    name: str
    phone: str = ""
    email: str = ""
    invented: bool = False


@dataclass(frozen=True, slots=True)
class Yard:
    """A place where horses are kept; an ``isolation`` yard is visited last."""

    id: str
    name: str
    address: str = ""
    isolation: bool = False
    invented: bool = False


@dataclass(frozen=True, slots=True)
class Stop:
    """One yard of a round with its visits, and the minutes booked there; ``yard`` is None where it isn't known."""

    yard: Yard | None
    visits: tuple[Visit, ...]
    minutes: int


@dataclass(frozen=True, slots=True)
class Round:
    """The yards of one day in order, and what to think of on the way."""

    stops: tuple[Stop, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Due:
    """A horse that a return was decided for and that has none booked.

    ``visit`` is where it was decided, ``entry`` the decision.
    """

    horse_id: str
    visit: Visit
    entry: Entry
    days_ago: int


@dataclass(frozen=True, slots=True)
class Agreed:
    """An owner's consent or a vet's agreement: who gave it, on which day, to what, until when and how.

    ``scope`` is of :data:`SCOPES`; ``until`` is the last day on which it holds, None for no end that was named; ``how``
    is one of :data:`HOW_GIVEN`.
    """

    who: str
    day: date
    scope: frozenset[str]
    how: str
    until: date | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class PlaceRule:
    """What a practice wrote down of the law of one place, in its own words, with its source and the day of looking.

    ``wants_vet`` is what the practice reads from it: whether a vet has to agree, None where it isn't clear. ``covers``
    are the things of :data:`SCOPES` that this is about. Haywisp itself holds no such rule.
    """

    place: str
    text: str
    source: str
    looked_up: date
    wants_vet: bool | None = None
    covers: frozenset[str] = HANDS_ON


@dataclass(frozen=True, slots=True)
class Gap:
    """One thing that is missing or over on a day.

    ``kind`` is ``consent-missing``, ``consent-over``, ``agreement-missing``, ``agreement-over``, ``rule-missing``,
    ``rule-old`` or ``rule-unclear``; ``thing`` is what it is about ("" for a rule), ``since`` the day that it was over
    or looked up.
    """

    kind: str
    thing: str
    sentence: str
    since: date | None = None

    @property
    def flag(self) -> str:
        """The red flag that this is to the screening gate; "" where it is none."""
        return "vet-agreement-missing" if self.kind in {"agreement-missing", "agreement-over"} else ""
