"""What every decision on an entry shares: the version it was made on, the check of its body, its questions."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime

from haywisp.findings import may_be_set_aside
from haywisp.knowledge.types import Tables
from haywisp.record.bodies import Allowed, problems_of
from haywisp.record.types import Entry, StoredQuestion
from haywisp.store.errors import Stale
from haywisp.store.types import Unit
from haywisp.usecases.entry_views import REPLACED
from haywisp.usecases.errors import Changed, Refused
from haywisp.usecases.lookup import newest_of


def current(unit: Unit, thread: str, version: int) -> Entry:
    """The newest version of a thread, when that is the one that the person saw."""
    entry = newest_of(unit, thread)
    if entry.version != version:
        raise Changed(thread, version)
    return entry


def append(unit: Unit, entries: Sequence[Entry]) -> None:
    """Keep new versions; someone who was quicker is a :class:`Changed`, as it is when noticed before."""
    try:
        unit.append(entries)
    except Stale as stale:
        raise Changed(stale.thread, stale.version - 1) from stale


def allowed_of(tables: Tables) -> Allowed:
    """The ids that a body may name."""
    return Allowed(
        structures=frozenset(tables.structures),
        techniques=frozenset(tables.techniques),
        signs=frozenset(tables.signs),
        aspects={key: frozenset(aspect.values) for key, aspect in tables.aspects.items()},
        actions=frozenset(tables.actions),
        flags=frozenset(tables.flags),
        readings=frozenset({*tables.scales, *tables.vital_signs}),
        overridable=frozenset(key for key, caution in tables.cautions.items() if may_be_set_aside(caution)),
    )


def check(part: str, body: Mapping[str, object], allowed: Allowed) -> None:
    """Refuse a body that the tables do not know."""
    problems = tuple(problems_of(part, body, allowed))
    if problems:
        raise Refused(" ".join(problems) + " Nothing was saved.", problems)


def close_questions(unit: Unit, entries: Sequence[Entry], answer: str, now: datetime) -> None:
    """Close the open questions about entries that were decided on themselves."""
    threads = {entry.thread for entry in entries}
    for visit_id in {entry.visit_id for entry in entries}:
        for question in unit.questions_of(visit_id):
            if question.thread in threads and question.answer is None:
                unit.save_answer(replace(question, answer=answer, answered_at=now))


def offers_anew(unit: Unit, visit_id: str, asked: Sequence[StoredQuestion], now: datetime) -> list[StoredQuestion]:
    """What is asked as a narration is read anew, without offers that were answered before; open ones are closed."""
    known = [question for question in unit.questions_of(visit_id) if question.offer is not None]
    for question in known:
        if question.answer is None:
            unit.save_answer(replace(question, answer=REPLACED, answered_at=now))
    answered = [_offered(question) for question in known if question.answer not in {None, REPLACED}]
    return [question for question in asked if question.offer is None or _offered(question) not in answered]


def _offered(question: StoredQuestion) -> tuple[object, object, int]:
    """What tells that the same is offered: its part and body, and the second that it was said in."""
    offer = question.offer or {}
    return offer.get("part"), offer.get("body"), round(question.time_s)


def reopen_questions(unit: Unit, entry: Entry) -> None:
    """Ask again what was asked about an entry; the questions of a narration that was replaced stay closed."""
    for question in unit.questions_of(entry.visit_id):
        if question.thread == entry.thread and question.answer not in {None, REPLACED}:
            unit.save_answer(replace(question, answer=None, answered_at=None))
