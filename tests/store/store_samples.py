"""Invented rows for the store's tests."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

from sqlalchemy import Connection, event
from sqlalchemy.engine import Engine

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Entry, Horse, StoredNarration, StoredQuestion, Visit
from haywisp.store import Store

NOW = datetime(2031, 5, 4, 9, 30, 15, 123456, tzinfo=UTC)
OWNER = Owner("owner-1", "Ida Fell", "0100 1", "ida@example.org", invented=True)
YARD = Yard("yard-1", "Low Meadow", "1 Lane", isolation=True, invented=True)
HORSE = Horse(
    "horse-1",
    "Bramble",
    "owner-1",
    "yard-1",
    breed="cob",
    sex="mare",
    born=2019,
    height_cm=148.5,
    work="hacking",
    notes="likes the left rein",
    flags=("head-shy", "old-injury"),
    invented=True,
)
VISIT = Visit("visit-1", "horse-1", date(2031, 5, 4), 60, "heard", 1, "Nan Reed", "windy")
NARRATION = StoredNarration("narration-1", "visit-1", "a.vtt", "vtt", "WEBVTT\n\nleft shoulder", NOW)
ENTRY = Entry(
    id="entry-1",
    thread="thread-1",
    version=1,
    visit_id="visit-1",
    part="bout",
    body={"technique": "kneading", "structures": ["neck", "poll"], "side": None, "passes": 3, "pressure": "light"},
    time_s=12.5,
    end_s=40.25,
    first_word=4,
    last_word=19,
    confidence=0.75,
    status="proposed",
    source="narration",
    reason="",
    made_at=NOW,
)
QUESTION = StoredQuestion(
    "question-1", "visit-1", "thread-1", "side", "Which side?", (("Left", "left"), ("Right", "right")), 12.5, 4, 6
)


def version(number: int, thread: str = "thread-1") -> Entry:
    """A version of a thread."""
    return replace(ENTRY, id=f"{thread}-v{number}", thread=thread, version=number)


def fill(store: Store) -> None:
    """One owner, yard, horse and visit."""
    with store.unit() as unit:
        unit.add_owner(OWNER)
        unit.add_yard(YARD)
        unit.add_horse(HORSE)
        unit.add_visit(VISIT)


def add_visits(store: Store, horses: int, each: int) -> list[str]:
    """Many horses with some visits a day apart; the ids of the visits."""
    made = [
        Visit(f"visit-{horse}-{number}", f"h-{horse}", VISIT.day + timedelta(days=number), 45, "reviewed", number)
        for horse in range(horses)
        for number in range(1, each + 1)
    ]
    with store.unit() as unit:
        unit.add_owner(OWNER)
        unit.add_yard(YARD)
        for horse in range(horses):
            unit.add_horse(Horse(f"h-{horse}", f"Horse {horse}", OWNER.id, YARD.id))
        for visit in made:
            unit.add_visit(visit)
    return [visit.id for visit in made]


@contextmanager
def statements() -> Iterator[list[str]]:
    """The SQL that runs inside the block, on any engine."""
    seen: list[str] = []

    def note(_connection: Connection, _cursor: object, statement: str, *_rest: object) -> None:
        seen.append(statement)

    event.listen(Engine, "before_cursor_execute", note)
    try:
        yield seen
    finally:
        event.remove(Engine, "before_cursor_execute", note)
