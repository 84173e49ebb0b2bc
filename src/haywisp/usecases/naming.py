"""What a person types for something that is kept: its id, the start of its id, or its name."""

from collections.abc import Callable, Sequence
from datetime import date
from typing import TypeVar

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import RECORDING_STATES, Horse, Recording, Visit
from haywisp.usecases.app import App
from haywisp.usecases.errors import NotFound, Refused

Row = TypeVar("Row", Horse, Owner, Yard, Visit, Recording)

SHORT_ID = 8
MOST_CHOICES = 6
EVERYTHING = 1_000_000


def horse_named(app: App, text: str) -> Horse:
    with app.units() as unit:
        found = unit.horse(text)
        return found or _chosen("horse", text, unit.horses(limit=EVERYTHING), lambda horse: horse.name)


def owner_named(app: App, text: str) -> Owner:
    with app.units() as unit:
        return unit.owner(text) or _chosen("owner", text, unit.owners(), lambda owner: owner.name)


def yard_named(app: App, text: str) -> Yard:
    with app.units() as unit:
        return unit.yard(text) or _chosen("yard", text, unit.yards(), lambda yard: yard.name)


def visit_named(app: App, text: str) -> Visit:
    """A visit by its id or the start of it, or a horse's newest visit up to today by the horse's name or its start."""
    with app.units() as unit:
        found = unit.visit(text)
        if found is not None:
            return found
        begins = [visit for visit in unit.visits_between(date.min, date.max) if _begins(visit.id, text)]
        if begins:
            return _chosen("visit", text, begins, lambda visit: f"{visit.day}")
        try:
            horse = _chosen("horse", text, unit.horses(limit=EVERYTHING), lambda horse: horse.name)
        except NotFound:
            hint = "Give a visit's id (or the start of it), or a horse's name for its newest."
            raise NotFound("visit", text, hint) from None
        visits = unit.visits_of(horse.id)
    past = [visit for visit in visits if visit.day <= app.clock().date()]
    newest = next(iter(past or visits), None)
    if newest is None:
        raise NotFound("visit", text, f"{horse.name} has no visit yet: open one first.")
    return newest


def recording_named(app: App, text: str) -> Recording:
    """A recording by its id or the start of it."""
    with app.units() as unit:
        kept = unit.recordings_in(RECORDING_STATES)
        return unit.recording(text) or _chosen("recording", text, kept, lambda one: one.file_name or one.id)


def numbered(what: str, text: str, ids: Sequence[str]) -> str:
    """One of ``ids`` by its number in the list (from 1), by itself or by its start."""
    if text.isdecimal() and 1 <= int(text) <= len(ids):
        return ids[int(text) - 1]
    begins = [one for one in ids if one == text] or [one for one in ids if _begins(one, text)]
    if len(begins) == 1:
        return begins[0]
    if begins:
        raise Refused(f"“{text}” is the start of {len(begins)} ids: give more of it.")
    raise NotFound(what, text, f"The list of this visit has {len(ids)}; give a number of it or the start of an id.")


def _chosen(what: str, text: str, rows: Sequence[Row], name: Callable[[Row], str]) -> Row:
    found = [row for row in rows if _called(name(row), text)]
    found = found or [row for row in rows if _begins(row.id, text)]
    found = found or [row for row in rows if text.strip() and name(row).casefold().startswith(text.strip().casefold())]
    if len(found) == 1:
        return found[0]
    if not found:
        raise NotFound(what, text, "Give its name, its id or the start of its id.")
    choices = ", ".join(f"{name(row)} ({row.id[:SHORT_ID]})" for row in found[:MOST_CHOICES])
    more = f" and {len(found) - MOST_CHOICES} more" if len(found) > MOST_CHOICES else ""
    raise Refused(f"“{text}” could be {choices}{more}. Give the id in brackets, or more of it.")


def _called(name: str, text: str) -> bool:
    return bool(text.strip()) and name.casefold() == " ".join(text.split()).casefold()


def _begins(row_id: str, text: str) -> bool:
    return len(text) >= 4 and row_id.startswith(text.lower())
