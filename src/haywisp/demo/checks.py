"""What must hold between the records of the invented practice."""

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import pairwise

from haywisp.demo.types import DemoBooking, DemoError, DemoHorse, DemoOwner, DemoPractice, DemoVisit, DemoYard


def check(practice: DemoPractice) -> None:
    """Raise :class:`DemoError` for the first thing that does not hold."""
    appointments: list[DemoVisit | DemoBooking] = [*practice.visits, *practice.bookings]
    _marked(practice, appointments)
    _unique("yard", [yard.id for yard in practice.yards])
    _unique("owner", [owner.id for owner in practice.owners])
    _unique("horse", [horse.id for horse in practice.horses])
    _unique("visit", [row.id for row in appointments])
    _unique("own word", [word.id for word in practice.own_words])
    _unique("narration", [visit.narration_file for visit in practice.visits])
    yards, owners = {yard.id for yard in practice.yards}, {owner.id for owner in practice.owners}
    horses = {horse.id for horse in practice.horses}
    for horse in practice.horses:
        _known(f"horse {horse.id}", "yard", horse.yard, yards)
        _known(f"horse {horse.id}", "owner", horse.owner, owners)
    for row in appointments:
        _known(f"visit {row.id}", "horse", row.horse, horses)
        if row.minutes < 1:
            raise DemoError(f"visit {row.id}", f"is booked for {row.minutes} minutes", "Book at least one.")
    for visit in practice.visits:
        if visit.day_offset > 0:
            raise DemoError(f"visit {visit.id}", "has a narration and lies ahead of today", "Use a day of 0 or less.")
    _in_order(practice.visits)
    _in_order(practice.bookings)


def _marked(practice: DemoPractice, appointments: Sequence[DemoVisit | DemoBooking]) -> None:
    people: list[DemoYard | DemoOwner | DemoHorse] = [*practice.yards, *practice.owners, *practice.horses]
    words = ((word.id, word.invented) for word in practice.own_words)
    rows = [*words, *((row.id, row.invented) for row in people), *((row.id, row.invented) for row in appointments)]
    for what, invented in [("practice.toml", practice.invented), *rows]:
        if not invented:
            raise DemoError(what, "is not marked as invented", "Only invented records may be in the demo.")


def _unique(what: str, values: Iterable[str]) -> None:
    for value, times in Counter(values).items():
        if times > 1:
            raise DemoError(f"{what} {value}", f"is used {times} times", "Give each its own.")


def _known(where: str, what: str, value: str, known: Iterable[str]) -> None:
    if value not in known:
        choices = ", ".join(sorted(known))
        raise DemoError(where, f"names the {what} {value!r}, which is not there", f"Use one of {choices}.")


def _in_order(rows: Sequence[DemoVisit | DemoBooking]) -> None:
    for before, after in pairwise(rows):
        if after.day_offset < before.day_offset:
            raise DemoError(f"visit {after.id}", f"comes after {before.id} and is earlier", "Put the oldest first.")
