"""Fill an empty database with the invented practice, through the same use cases a person goes through."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from haywisp.demo import DemoPractice, DemoVisit, load
from haywisp.findings.facts import TOLD
from haywisp.narration.types import OwnWord
from haywisp.usecases.app import App
from haywisp.usecases.entry_views import DROPPED
from haywisp.usecases.errors import Refused
from haywisp.usecases.own_words import teach
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.said import accept_all, answer, finish
from haywisp.usecases.vet import vet_said
from haywisp.usecases.visits import hear, open_visit


@dataclass(frozen=True, slots=True)
class DemoSeed:
    """What is in the demo's database; ``seeded`` is False when it was there already.

    ``show`` is the visit to show first: the newest that waits for review.
    """

    seeded: bool
    horses: int
    visits: int
    heard: int
    show: str


def seed_demo(app: App, today: date, practice: DemoPractice | None = None) -> DemoSeed:
    """The invented practice with days counted from ``today``; does nothing when it is there already.

    Refused where a horse is kept that is not invented: a real record is no place for a demo.
    """
    with app.units() as unit:
        kept = unit.horses(limit=10_000)
        if any(not horse.invented for horse in kept):
            raise Refused("This database holds real horses. The demo needs a database of its own.")
        if kept:
            waiting = unit.visits_by_status("heard")
            visits = [visit for horse in kept for visit in unit.visits_of(horse.id)]
            heard = sum(visit.status != "planned" for visit in visits)
            newest = max(waiting or visits, key=lambda visit: visit.day, default=None)
            return DemoSeed(False, len(kept), len(visits), heard, newest.id if newest else "")
    practice = practice or load()
    horses = _people(app, practice)
    show = ""
    untaught = sorted(practice.own_words, key=lambda word: word.day_offset)
    for visit in practice.visits:
        while untaught and untaught[0].day_offset < visit.day_offset:
            word = untaught.pop(0)
            teach(app, OwnWord(word.kind, word.phrase, word.meaning, word.misheard), anyway=True)
        opened = open_visit(app, horses[visit.horse], visit.day(today), visit.minutes, visit.practitioner)
        _heard(app, opened.id, visit)
        if not visit.reviewed or not show:
            show = opened.id
    for booking in practice.bookings:
        open_visit(app, horses[booking.horse], booking.day(today), booking.minutes, booking.practitioner)
    total = len(practice.visits) + len(practice.bookings)
    return DemoSeed(True, len(practice.horses), total, len(practice.visits), show)


def _people(app: App, practice: DemoPractice) -> Mapping[str, str]:
    """Owners, yards and horses added; the id in the database of each horse's id in the file."""
    yards = {yard.id: add_yard(app, yard.name, yard.address, yard.isolation, invented=True) for yard in practice.yards}
    owners = {
        owner.id: add_owner(app, owner.name, owner.phone, owner.email, invented=True) for owner in practice.owners
    }
    return {
        horse.id: add_horse(
            app,
            horse.name,
            owners[horse.owner].id,
            yards[horse.yard].id,
            breed=horse.breed,
            sex=horse.sex,
            born=horse.born,
            height_cm=horse.height_cm,
            work=horse.work,
            notes=horse.notes,
            flags=horse.flags,
            invented=True,
        ).id
        for horse in practice.horses
    }


def _heard(app: App, visit_id: str, visit: DemoVisit) -> None:
    """The visit heard and, when it is a reviewed one, reviewed: each doubt settled with the likeliest answer.

    A red flag that was only spoken of is not so, and the others are unless the practice says otherwise.
    """
    hear(app, visit_id, visit.narration_file, visit.content())
    if not visit.reviewed:
        return
    with app.units() as unit:
        questions = [question for question in unit.questions_of(visit_id) if question.choices]
        flags = {entry.thread: entry for entry in unit.entries_of(visit_id) if entry.part == "flag"}
    for question in questions:
        _label, value = question.choices[0]
        flag = flags.get(question.thread)
        if flag is not None and (flag.confidence < TOLD or flag.body["flag"] in visit.not_so):
            value = DROPPED
        answer(app, question.id, value)
    accept_all(app, visit_id)
    finish(app, visit_id, force=True)
    if visit.vet_said:
        vet_said(app, visit_id, visit.vet_said)
