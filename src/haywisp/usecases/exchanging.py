"""A whole visit as a file of its own, and back."""

from collections.abc import Callable, Collection
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from haywisp.practice.types import Owner
from haywisp.record.bodies import shape_problems
from haywisp.record.types import Entry, StoredQuestion, Visit
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.errors import AlreadyKept, Refused
from haywisp.usecases.horse_details import IDENTIFIERS, TEXTS, checked
from haywisp.usecases.lookup import horse_of, owner_of, visit_of, yard_of
from haywisp.usecases.namesakes import horses_called, owners_called, yards_called
from haywisp.usecases.people import checked_email, checked_name
from haywisp.usecases.visits import check_booking

if TYPE_CHECKING:
    from haywisp.exchange.visit_json import VisitDocument

T = TypeVar("T")


def export_visit(app: App, visit_id: str) -> str:
    """The visit with its horse, narration, questions and every version of every entry, as JSON text."""
    from haywisp.exchange import visit_json

    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        document = visit_json.VisitDocument(
            horse=horse,
            owner=owner_of(unit, horse.owner_id),
            yard=yard_of(unit, horse.yard_id),
            visit=visit,
            narration=unit.narration_of(visit_id),
            entries=tuple(old for entry in unit.entries_of(visit_id) for old in unit.thread(entry.thread)),
            questions=tuple(unit.questions_of(visit_id)),
        )
    return visit_json.write(document)


def import_visit(app: App, text: str, *, another: bool = False) -> Visit:
    """Keep the visit of a file, and its horse, owner and yard where they are not kept yet.

    What is kept already under the same id stays as it is. A visit that is kept already is refused, and so are names
    that are kept under another id unless ``another`` says that they are other ones. What no form would keep isn't kept
    from a file either: :class:`haywisp.exchange.BadFile` names the place.
    """
    from haywisp.exchange import visit_json

    document = _fit_to_keep(app, visit_json.read(text))
    with app.units() as unit:
        if unit.visit(document.visit.id) is not None:
            raise Refused(f"The visit of {document.horse.name} on {document.visit.day} is kept already.")
        _keep_whose(unit, document, another)
        unit.add_visit(document.visit)
        if document.narration is not None:
            unit.add_narration(document.narration)
        for entry in sorted(document.entries, key=lambda one: one.version):
            if entry.version == 1 and unit.thread(entry.thread):
                raise Refused(f"An entry of this file ({entry.thread}) is kept already at another visit.")
            unit.append([entry])
        unit.add_questions(document.questions)
    return document.visit


def _fit_to_keep(app: App, document: "VisitDocument") -> "VisitDocument":
    """The document with owner, yard and horse as their forms would keep them."""
    from haywisp.exchange import BadFile, visit_json

    horse, owner, yard, visit = document.horse, document.owner, document.yard, document.visit
    problems: list[str] = []

    def tried(place: str, attempt: Callable[[], T]) -> T | None:
        try:
            return attempt()
        except Refused as refusal:
            problems.append(f"{place}: {str(refusal).rstrip('.')}")
            return None

    details = {name: getattr(horse, name) for name in (*TEXTS, *IDENTIFIERS, "born", "height_cm", "flags")}
    owned = tried("owner", lambda: _owner(owner))
    stabled = tried("yard", lambda: replace(yard, name=checked_name(yard.name, "The yard")))
    known = tried("horse", lambda: {"name": checked_name(horse.name, "The horse"), **checked(app, details)})
    tried("visit", lambda: check_booking(visit.day, visit.minutes, app.clock().date()))
    flags = app.tables().flags
    problems += [
        f"entries {number}: {problem.rstrip('.')}"
        for number, entry in enumerate(document.entries, start=1)
        for problem in _body_problems(entry, flags)
    ]
    problems += [
        f"questions {number}: {problem.rstrip('.')}"
        for number, question in enumerate(document.questions, start=1)
        for problem in _offer_problems(question)
    ]
    if problems or owned is None or stabled is None or known is None:
        raise BadFile(visit_json.KIND, tuple(problems))
    return replace(document, owner=owned, yard=stabled, horse=replace(horse, **known))  # type: ignore[arg-type]


def _owner(owner: Owner) -> Owner:
    return replace(owner, name=checked_name(owner.name, "The owner"), email=checked_email(owner.email))


def _body_problems(entry: Entry, flags: Collection[str]) -> tuple[str, ...]:
    wrong = shape_problems(entry.part, entry.body)
    if not wrong and entry.part == "flag" and str(entry.body["flag"]) not in flags:
        return (f"“{entry.body['flag']}” is no red flag that Haywisp knows",)
    return wrong


def _offer_problems(question: StoredQuestion) -> tuple[str, ...]:
    if question.offer is None:
        return ()
    part, body = question.offer.get("part"), question.offer.get("body")
    if not isinstance(part, str) or not isinstance(body, dict):
        return ("what it offers has no part and body",)
    return shape_problems(part, body)


def _keep_whose(unit: Unit, document: "VisitDocument", another: bool) -> None:
    horse, owner, yard = document.horse, document.owner, document.yard
    new_owner, new_yard, new_horse = (
        unit.owner(owner.id) is None,
        unit.yard(yard.id) is None,
        unit.horse(horse.id) is None,
    )
    same = [
        *([owners_called(unit, owner.name)] if new_owner else []),
        *([yards_called(unit, yard.name)] if new_yard else []),
        *([horses_called(unit, horse.name)] if new_horse else []),
    ]
    if any(one.found for one in same) and not another:
        raise AlreadyKept([one for one in same if one.found])
    if new_owner:
        unit.add_owner(owner)
    if new_yard:
        unit.add_yard(yard)
    if new_horse:
        unit.add_horse(horse)
