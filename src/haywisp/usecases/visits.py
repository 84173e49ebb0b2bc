"""A visit: opened, heard, looked at."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from haywisp import record
from haywisp.narration.types import Narration
from haywisp.record.types import Entry, StoredNarration, Visit
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.basis import basis_of, earlier, known_before, recorded, vet_answers
from haywisp.usecases.conclusions import held_of, verdict_view
from haywisp.usecases.days import day_words
from haywisp.usecases.deciding import append, close_questions, offers_anew
from haywisp.usecases.entry_views import REPLACED
from haywisp.usecases.errors import Refused
from haywisp.usecases.hearing_own import own_words_kept, said_in
from haywisp.usecases.listening import refuse_large, text_of
from haywisp.usecases.lookup import horse_of, owner_of, visit_of, yard_of
from haywisp.usecases.overriding import overrides_for
from haywisp.usecases.views import Heard, Ref, VisitPage
from haywisp.usecases.visit_rows import counts_of, visit_row

MINUTES = (5, 240)
# Wide enough for old records and far bookings, narrow enough to catch a year that was mistyped.
LONGEST_BACK = timedelta(days=50 * 365)
LONGEST_AHEAD = timedelta(days=3 * 365)
# Two tellings of the same thing are the same entry when they begin this close together.
SAME_TIME_S = 5.0
AGAIN_REASON = "the narration was given again"


def open_visit(app: App, horse_id: str, day: date, minutes: int = 60, practitioner: str = "") -> Visit:
    """A new visit to a horse, numbered after its last."""
    check_booking(day, minutes, app.clock().date())
    with app.units() as unit:
        horse = horse_of(unit, horse_id)
        number = 1 + max((visit.number for visit in unit.visits_of(horse_id)), default=0)
        visit = Visit(
            id=app.new_id(),
            horse_id=horse.id,
            day=day,
            minutes=minutes,
            status="planned",
            number=number,
            practitioner=practitioner.strip(),
        )
        unit.add_visit(visit)
    return visit


def check_booking(day: date, minutes: int, today: date) -> None:
    """Refuse a day or a length that no visit can have."""
    least, most = MINUTES
    if not least <= minutes <= most:
        raise Refused(f"{minutes} minutes can't be booked: from {least} to {most}.")
    if not today - LONGEST_BACK <= day <= today + LONGEST_AHEAD:
        raise Refused(f"{day} is too far from today ({today}) for a visit. Check the year.")


def visit_page(app: App, visit_id: str) -> VisitPage:
    """Where a visit stands, and what the gate says of what was recorded in it or, before that, at an earlier one."""
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        owner, yard = owner_of(unit, horse.owner_id), yard_of(unit, horse.yard_id)
        visits = unit.visits_of(horse.id)
        previous = next(iter(earlier(visits, visit)), None)
        entries = unit.entries_of(visit_id)
        basis = basis_of(unit, visit, visits, horse, tables)
        start = known_before(unit, visit, visits, horse, tables)
        vet = vet_answers(unit, visits, tables).words
        questions = unit.questions_of(visit_id)
        stored = unit.narration_of(visit_id)
        next_time = overrides_for(unit, visit, basis.entries, basis.before, next_time=True)
        now = overrides_for(unit, visit, start.entries, start.before)
    verdict, at_start = (
        held_of(known.entries, horse, tables, first_visit=known.first, before=known.before, overrides=aside).verdict
        for known, aside in ((basis, next_time), (start, now))
    )
    counts = counts_of(entries, questions)
    return VisitPage(
        row=visit_row(
            visit, horse, Ref(owner.id, owner.name), Ref(yard.id, yard.name), entries, counts.open_questions, tables
        ),
        visit=visit,
        horse=horse,
        owner=owner,
        yard=yard,
        counts=counts,
        file_name=stored.file_name if stored is not None else "",
        previous=Ref(previous.id, day_words(previous.day)) if previous is not None else None,
        verdict=verdict_view(verdict, tables, next_time),
        verdict_from=_other(basis.visit, visit),
        vet_said=vet[::-1],
        at_start=verdict_view(at_start, tables, now),
        at_start_from=_other(start.visit, visit),
        recorded=recorded(entries),
    )


def _other(basis: Visit, visit: Visit) -> Ref | None:
    """A visit that speaks for another one; None where it is that visit itself."""
    return None if basis.id == visit.id else Ref(basis.id, day_words(basis.day))


def hear(app: App, visit_id: str, file_name: str, data: bytes, *, again: bool = False) -> Heard:
    """Read a narration, keep it whole and propose an entry for each statement.

    A second narration is refused unless ``again``: then it takes the place of the entries that nobody has decided on
    yet, and a statement that someone stood by already is not proposed a second time.
    """
    refuse_large(data, file_name)
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        _refuse_second(unit, visit, again)
        own = own_words_kept(unit)
    # Understanding takes a while: no transaction is held open meanwhile.
    narration = app.listen(data, file_name, app.tables(), own)
    content = text_of(data, file_name)
    now = app.clock()
    stored = StoredNarration(
        id=app.new_id(),
        visit_id=visit_id,
        file_name=file_name,
        format=narration.transcript.format,
        content=content,
        added_at=now,
        own_words=said_in(narration, own, app.tables()),
    )
    with app.units() as unit:
        return take_in(app, unit, stored, narration, again=again)


def take_in(
    app: App,
    unit: Unit,
    stored: StoredNarration,
    narration: Narration,
    *,
    again: bool = False,
    places: Mapping[int, int] | None = None,
) -> Heard:
    """Keep a narration that was understood, and its entries, in a unit that is open.

    ``places`` has where words of the narration before are in this one, for entries that are not heard again.
    """
    visit = visit_of(unit, stored.visit_id)
    _refuse_second(unit, visit, again)
    proposed, questions = record.from_narration(narration, visit.id, app.new_id, stored.added_at)
    if again:
        old = unit.entries_of(visit.id)
        proposed = _take_the_place(app, unit, old, proposed, stored.added_at, places or {})
        questions = offers_anew(unit, visit.id, questions, stored.added_at)
    threads = {entry.thread for entry in proposed}
    unit.add_narration(stored)
    append(unit, proposed)
    unit.add_questions([question for question in questions if question.thread in threads or not question.thread])
    heard = replace(visit, status="heard")
    unit.save_visit(heard)
    counts = counts_of(unit.entries_of(visit.id), unit.questions_of(visit.id))
    return Heard(visit=heard, counts=counts, words=len(narration.transcript.words), problems=_problems(narration))


def _refuse_second(unit: Unit, visit: Visit, again: bool) -> None:
    stored = unit.narration_of(visit.id)
    if stored is not None and not again:
        raise Refused(
            f"This visit already has a narration ({stored.file_name}). Give it again on purpose to replace the entries "
            "that are still to be reviewed; what was accepted or corrected stays."
        )


def _take_the_place(
    app: App,
    unit: Unit,
    old: Sequence[Entry],
    proposed: Sequence[Entry],
    now: datetime,
    places: Mapping[int, int],
) -> list[Entry]:
    """Reject what was still proposed, and let each entry that someone stood by take over the words that say it again.

    Returns the new entries that say something new. An entry that was corrected is known by what was heard at first;
    one that isn't said again keeps the words it had where ``places`` has all of them, and loses its place otherwise.
    """
    undecided = [entry for entry in old if entry.status == "proposed"]
    append(unit, [record.reject(entry, AGAIN_REASON, app.new_id, now) for entry in undecided])
    close_questions(unit, old, REPLACED, now)
    fresh = list(proposed)
    moved = []
    for entry in old:
        if entry.status == "proposed" or entry.first_word < 0:
            continue
        heard = unit.thread(entry.thread)[0] if entry.status == "corrected" else entry
        twins = [one for one in fresh if _same(entry, one) or _same(heard, one)]
        twin = min(twins, key=lambda one: abs(one.time_s - entry.time_s), default=None)
        if twin is not None:
            fresh.remove(twin)
        first, last = (twin.first_word, twin.last_word) if twin is not None else _moved(entry, places)
        moved.append(
            replace(
                entry,
                id=app.new_id(),
                version=entry.version + 1,
                first_word=first,
                last_word=last,
                reason=AGAIN_REASON,
                made_at=now,
            )
        )
    append(unit, moved)
    return fresh


def _moved(entry: Entry, places: Mapping[int, int]) -> tuple[int, int]:
    words = range(entry.first_word, entry.last_word)
    if not words or any(word not in places for word in words):
        return -1, -1
    return places[words[0]], places[words[-1]] + 1


def _same(entry: Entry, other: Entry) -> bool:
    return (
        entry.part == other.part
        and dict(entry.body) == dict(other.body)
        and abs(entry.time_s - other.time_s) <= SAME_TIME_S
    )


def _problems(narration: Narration) -> tuple[str, ...]:
    return tuple(f"{problem.where}: {problem.text}" for problem in narration.transcript.problems)
