"""Who the practice works for and where."""

from dataclasses import dataclass

from haywisp.record.types import Entry, Visit


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
