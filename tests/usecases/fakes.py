"""A unit of work in memory, and an app around it whose clock, ids and ear are given."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from itertools import count

from haywisp.knowledge import load_tables
from haywisp.knowledge.types import Tables
from haywisp.narration.types import (
    Action,
    Bout,
    Choice,
    Finding,
    Narration,
    OwnWord,
    Problem,
    Question,
    Repair,
    Response,
    Span,
    Transcript,
    Word,
)
from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Entry, Horse, StoredNarration, StoredOwnWord, StoredQuestion, Visit
from haywisp.store.errors import Conflict, Stale
from haywisp.usecases import App

NOW = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)


@dataclass
class Rows:
    """Everything that the fake keeps, in the order it was added."""

    owners: dict[str, Owner] = field(default_factory=dict)
    yards: dict[str, Yard] = field(default_factory=dict)
    horses: dict[str, Horse] = field(default_factory=dict)
    visits: dict[str, Visit] = field(default_factory=dict)
    narrations: list[StoredNarration] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)
    questions: dict[str, StoredQuestion] = field(default_factory=dict)
    own_words: dict[str, StoredOwnWord] = field(default_factory=dict)


class FakeUnit:
    """The protocol of :class:`haywisp.store.types.Unit` over :class:`Rows`."""

    def __init__(self, rows: Rows) -> None:
        self.rows = rows

    def add_owner(self, owner: Owner) -> None:
        self.rows.owners[owner.id] = owner

    def add_yard(self, yard: Yard) -> None:
        self.rows.yards[yard.id] = yard

    def add_horse(self, horse: Horse) -> None:
        self.rows.horses[horse.id] = horse

    save_horse = add_horse

    def owner(self, owner_id: str) -> Owner | None:
        return self.rows.owners.get(owner_id)

    def yard(self, yard_id: str) -> Yard | None:
        return self.rows.yards.get(yard_id)

    def horse(self, horse_id: str) -> Horse | None:
        return self.rows.horses.get(horse_id)

    def owners(self) -> Sequence[Owner]:
        return list(self.rows.owners.values())

    def yards(self) -> Sequence[Yard]:
        return list(self.rows.yards.values())

    def horses(self, text: str = "", after: str = "", limit: int = 200) -> Sequence[Horse]:
        rows = self.rows

        def searched(horse: Horse) -> str:
            return f"{horse.name} {rows.owners[horse.owner_id].name} {rows.yards[horse.yard_id].name}".casefold()

        found = [row for row in rows.horses.values() if all(word in searched(row) for word in text.casefold().split())]
        found.sort(key=lambda horse: (horse.name.casefold(), horse.id))
        ids = [horse.id for horse in found]
        start = ids.index(after) + 1 if after in ids else 0
        return found[start : start + limit]

    def count_horses(self) -> int:
        return len(self.rows.horses)

    def add_visit(self, visit: Visit) -> None:
        self.rows.visits[visit.id] = visit

    save_visit = add_visit

    def visit(self, visit_id: str) -> Visit | None:
        return self.rows.visits.get(visit_id)

    def _sorted(self) -> list[Visit]:
        return sorted(self.rows.visits.values(), key=lambda visit: (visit.day, visit.number))

    def visits_of(self, horse_id: str) -> Sequence[Visit]:
        return [visit for visit in reversed(self._sorted()) if visit.horse_id == horse_id]

    def visits_between(self, first: date, last: date) -> Sequence[Visit]:
        return [visit for visit in self._sorted() if first <= visit.day <= last]

    def visits_by_status(self, status: str, limit: int = 100) -> Sequence[Visit]:
        return [visit for visit in reversed(self._sorted()) if visit.status == status][:limit]

    def last_visit_days(self, horse_ids: Sequence[str]) -> dict[str, date]:
        return {
            visit.horse_id: visit.day
            for visit in self._sorted()
            if visit.horse_id in horse_ids and visit.status != "planned"
        }

    def add_narration(self, narration: StoredNarration) -> None:
        self.rows.narrations.append(narration)

    def narration_of(self, visit_id: str) -> StoredNarration | None:
        return next((row for row in reversed(self.rows.narrations) if row.visit_id == visit_id), None)

    def narrations_holding(self, words: Sequence[str], limit: int = 200) -> Sequence[StoredNarration]:
        newest = {row.visit_id: row for row in self.rows.narrations}
        found = [row for row in newest.values() if all(word.lower() in row.content.lower() for word in words)]
        return found[::-1][:limit]

    def add_own_word(self, word: StoredOwnWord) -> None:
        if any(word.key == kept.key for kept in self.rows.own_words.values()):
            raise Conflict("own word", "its id is in the record already")
        self.rows.own_words[word.id] = word

    def own_words(self) -> Sequence[StoredOwnWord]:
        return list(self.rows.own_words.values())

    def remove_own_word(self, word_id: str) -> None:
        if self.rows.own_words.pop(word_id, None) is None:
            raise Conflict("own word", "it isn't in the record")

    def append(self, entries: Sequence[Entry]) -> None:
        for entry in entries:
            newest = max((row.version for row in self.rows.entries if row.thread == entry.thread), default=0)
            if entry.version != newest + 1:
                raise Stale(entry.thread, entry.version, newest)
            self.rows.entries.append(entry)

    def entries_of(self, visit_id: str) -> Sequence[Entry]:
        newest = {entry.thread: entry for entry in self.rows.entries if entry.visit_id == visit_id}
        return sorted(newest.values(), key=lambda entry: (entry.time_s, entry.end_s, entry.first_word, entry.thread))

    def entries_of_many(self, visit_ids: Sequence[str]) -> Sequence[Entry]:
        return [entry for visit_id in sorted(visit_ids) for entry in self.entries_of(visit_id)]

    def thread(self, thread: str) -> Sequence[Entry]:
        return [entry for entry in self.rows.entries if entry.thread == thread]

    def add_questions(self, questions: Sequence[StoredQuestion]) -> None:
        self.rows.questions.update({question.id: question for question in questions})

    def questions_of(self, visit_id: str) -> Sequence[StoredQuestion]:
        return [row for row in self.rows.questions.values() if row.visit_id == visit_id]

    def question(self, question_id: str) -> StoredQuestion | None:
        return self.rows.questions.get(question_id)

    def save_answer(self, question: StoredQuestion) -> None:
        self.rows.questions[question.id] = question

    def open_questions(self, visit_ids: Sequence[str]) -> dict[str, int]:
        counts: dict[str, int] = {}
        for row in self.rows.questions.values():
            if row.visit_id in visit_ids and row.answer is None:
                counts[row.visit_id] = counts.get(row.visit_id, 0) + 1
        return counts


class FakeStore:
    """Units over one set of rows; a block that fails leaves them as they were."""

    def __init__(self) -> None:
        self.rows = Rows()

    @contextmanager
    def unit(self) -> Iterator[FakeUnit]:
        before = deepcopy(self.rows)
        try:
            yield FakeUnit(self.rows)
        except BaseException:
            self.rows = before
            raise


def fake_app(
    store: FakeStore | None = None,
    *,
    narration: Narration | None = None,
    clock: Callable[[], datetime] = lambda: NOW,
) -> App:
    """An app in memory that hears ``narration`` whatever it is given (the small one of this module unless told)."""
    numbers = count(1)
    told = narration or SMALL

    def listen(data: bytes, file_name: str, tables: Tables, own: tuple[OwnWord, ...] = ()) -> Narration:
        return told

    return App(
        units=(store or FakeStore()).unit,
        tables=load_tables,
        clock=clock,
        new_id=lambda: f"id-{next(numbers):04d}",
        listen=listen,
    )


def ticking_app() -> App:
    """An app in memory whose clock is a minute later each time that it is asked."""
    minutes = count(1)
    return fake_app(clock=lambda: NOW + timedelta(minutes=next(minutes)))


def words(text: str, *, seconds_each: float = 0.5, words_a_cue: int = 6) -> tuple[Word, ...]:
    """The words of a text, evenly spoken."""
    return tuple(
        Word(word, index * seconds_each, (index + 1) * seconds_each, None, index // words_a_cue)
        for index, word in enumerate(text.split())
    )


SMALL_TEXT = (
    "Long strokes on the left neck five passes nice and light and the splenius is tight there "
    "she licks and chews now the pole is tender get the vet to look"
)
# 0 Long 1 strokes 2 on 3 the 4 left 5 neck 6 five 7 passes 8 nice 9 and 10 light 11 and 12 the 13 splenius 14 is
# 15 tight 16 there 17 she 18 licks 19 and 20 chews 21 now 22 the 23 pole 24 is 25 tender 26 get 27 the 28 vet
SMALL = Narration(
    transcript=Transcript(words(SMALL_TEXT), "vtt", (Problem("line 3", "the time was mended"),)),
    bouts=(Bout("effleurage", ("neck",), "left", 0.0, 60.0, 5, "light", Span(0, 11), 0.95),),
    findings=(
        Finding("splenius", "left", "tone", "tight", 8.0, Span(12, 17), 0.9),
        Finding("poll", None, "tenderness", "present", 12.0, Span(22, 26), 0.6),
    ),
    responses=(Response("lick-and-chew", 10.0, Span(17, 22), 0.9),),
    actions=(Action("recheck", 14.0, Span(26, 29), 0.8),),
    questions=(
        Question(
            "finding",
            1,
            "side",
            "Which side of the poll?",
            (Choice("Left", "left"), Choice("Right", "right")),
            12.0,
            Span(22, 26),
        ),
        Question(
            "action",
            0,
            None,
            "Was a return decided?",
            (Choice("Yes", "keep"), Choice("No", "drop")),
            14.0,
            Span(26, 29),
        ),
    ),
    repairs=(Repair(Span(23, 24), "pole", "poll", 0.9),),
)


def with_visit(app: App, day: date = date(2031, 3, 14)) -> str:
    """An owner, a yard, a horse and a visit; gives the visit's id."""
    from haywisp.usecases.people import add_horse, add_owner, add_yard
    from haywisp.usecases.visits import open_visit

    owner, yard = add_owner(app, "Ann Example"), add_yard(app, "Example Farm")
    horse = add_horse(app, "Bramble", owner.id, yard.id)
    return open_visit(app, horse.id, day).id


def heard_visit(app: App, day: date = date(2031, 3, 14)) -> str:
    """The same with the small narration heard."""
    from haywisp.usecases.visits import hear

    visit_id = with_visit(app, day)
    hear(app, visit_id, "small.vtt", b"WEBVTT")
    return visit_id
