"""Records of the invented practice; days count from the day that the demo is made, and every record is invented."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, timedelta

from haywisp.errors import HaywispError


class DemoError(HaywispError):
    """The demo's own files disagree."""

    def __init__(self, where: str, what: str, remedy: str) -> None:
        super().__init__(f"The demo practice can't be used: {where} {what}. {remedy}")


@dataclass(frozen=True, slots=True)
class DemoYard:
    """A yard; ``id`` is unique in the file only."""

    id: str
    name: str
    address: str
    isolation: bool
    invented: bool


@dataclass(frozen=True, slots=True)
class DemoOwner:
    """An owner of one or more of the horses."""

    id: str
    name: str
    phone: str
    email: str
    invented: bool


@dataclass(frozen=True, slots=True)
class DemoHorse:
    """A horse; ``owner`` and ``yard`` are ids in the file, ``flags`` are those that the screening gate reads."""

    id: str
    name: str
    owner: str
    yard: str
    breed: str
    sex: str
    born: int
    height_cm: float
    work: str
    notes: str
    flags: tuple[str, ...]
    invented: bool


@dataclass(frozen=True, slots=True)
class DemoVisit:
    """A visit with its narration; ``day_offset`` is 0 for today and negative before, ``minutes`` the time booked.

    ``reviewed`` is False for a visit whose narration is to be left waiting for review. ``not_so`` are red flags that
    were spoken of and are not so of this horse, and ``vet_said`` is what a vet answered afterwards, "" for nothing.
    """

    id: str
    horse: str
    day_offset: int
    minutes: int
    practitioner: str
    narration_file: str
    reviewed: bool
    invented: bool
    read: Callable[[str], bytes] = field(repr=False, compare=False)
    not_so: tuple[str, ...] = ()
    vet_said: str = ""

    def day(self, today: date) -> date:
        """The day of the visit when the demo is made on ``today``."""
        return today + timedelta(days=self.day_offset)

    def content(self) -> bytes:
        """The narration as the file holds it, read each time it is asked for."""
        return self.read(self.narration_file)


@dataclass(frozen=True, slots=True)
class DemoOwnWord:
    """Words of the practitioner's own; visits on later days are understood with them."""

    id: str
    kind: str
    phrase: str
    meaning: str
    misheard: bool
    day_offset: int
    invented: bool


@dataclass(frozen=True, slots=True)
class DemoBooking:
    """A visit that is booked and has no narration yet."""

    id: str
    horse: str
    day_offset: int
    minutes: int
    practitioner: str
    invented: bool

    def day(self, today: date) -> date:
        """The day of the booking when the demo is made on ``today``."""
        return today + timedelta(days=self.day_offset)


@dataclass(frozen=True, slots=True)
class DemoPractice:
    """The whole practice; visits and bookings are oldest first."""

    name: str
    yards: tuple[DemoYard, ...]
    owners: tuple[DemoOwner, ...]
    horses: tuple[DemoHorse, ...]
    visits: tuple[DemoVisit, ...]
    bookings: tuple[DemoBooking, ...]
    invented: bool
    own_words: tuple[DemoOwnWord, ...] = ()
