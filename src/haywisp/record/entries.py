"""Entries from a narration or by hand, and each decision on one as a new version of it."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime

from haywisp.narration.types import Bout, Narration, Question, Statement
from haywisp.record.bodies import FIELDS, Allowed, problems_of, shape_problems
from haywisp.record.errors import BadBody
from haywisp.record.types import Entry, StoredQuestion

NewId = Callable[[], str]
NARRATED, BY_HAND = "narration", "by hand"


def from_narration(
    narration: Narration, visit_id: str, new_id: NewId, now: datetime
) -> tuple[list[Entry], list[StoredQuestion]]:
    """Every statement as a proposed entry, and every question tied to the entry that it is about.

    A question about something that isn't in the narration is kept with an empty thread.
    """
    parts: dict[str, tuple[Statement, ...]] = {
        "bout": narration.bouts,
        "finding": narration.findings,
        "response": narration.responses,
        "action": narration.actions,
        "flag": narration.alerts,
    }
    entries = {
        (part, index): _proposed(part, statement, visit_id, new_id, now)
        for part, statements in parts.items()
        for index, statement in enumerate(statements)
    }
    questions = [
        _asked(question, entries.get((question.part, question.index)), visit_id, new_id)
        for question in narration.questions
    ]
    return list(entries.values()), questions


def _proposed(part: str, statement: Statement, visit_id: str, new_id: NewId, now: datetime) -> Entry:
    start, end = (statement.start, statement.end) if isinstance(statement, Bout) else (statement.time, statement.time)
    return Entry(
        id=new_id(),
        thread=new_id(),
        version=1,
        visit_id=visit_id,
        part=part,
        body={name: _plain(getattr(statement, name)) for name in FIELDS[part]},
        time_s=start,
        end_s=end,
        first_word=statement.span.first,
        last_word=statement.span.last,
        confidence=statement.confidence,
        status="proposed",
        source=NARRATED,
        reason="",
        made_at=now,
    )


def _asked(question: Question, about: Entry | None, visit_id: str, new_id: NewId) -> StoredQuestion:
    return StoredQuestion(
        id=new_id(),
        visit_id=visit_id,
        thread=about.thread if about else "",
        field=question.field,
        text=question.text,
        choices=tuple((choice.label, choice.value) for choice in question.choices),
        time_s=question.time,
        first_word=question.span.first,
        last_word=question.span.last,
        offer=_offer(question),
    )


def _offer(question: Question) -> dict[str, object] | None:
    offered = question.offer
    if offered is None:
        return None
    return {
        "part": question.part,
        "body": {name: _plain(getattr(offered, name)) for name in FIELDS[question.part]},
        "end_s": offered.end if isinstance(offered, Bout) else offered.time,
        "confidence": offered.confidence,
    }


def offered(question: StoredQuestion, new_id: NewId, now: datetime) -> Entry:
    """What a question offers as an entry that stands, with its words and time, now that someone said yes.

    Raises :class:`haywisp.record.BadBody` for an offer that is none.
    """
    offer = question.offer or {}
    part, body = str(offer.get("part", "")), offer.get("body")
    whole = _checked(part, body if isinstance(body, Mapping) else {}, None)
    end, sure = offer.get("end_s"), offer.get("confidence")
    return Entry(
        id=new_id(),
        thread=new_id(),
        version=1,
        visit_id=question.visit_id,
        part=part,
        body=whole,
        time_s=question.time_s,
        end_s=max(question.time_s, float(end)) if isinstance(end, int | float) else question.time_s,
        first_word=question.first_word,
        last_word=question.last_word,
        confidence=float(sure) if isinstance(sure, int | float) else 0.0,
        status="accepted",
        source=NARRATED,
        reason=question.text,
        made_at=now,
    )


def accept(entry: Entry, new_id: NewId, now: datetime) -> Entry:
    """The next version: it stands as it is."""
    return _next(entry, new_id, now, status="accepted")


def correct(
    entry: Entry,
    changes: Mapping[str, object],
    new_id: NewId,
    now: datetime,
    *,
    allowed: Allowed | None = None,
    reason: str = "",
) -> Entry:
    """The next version with some fields of its body changed; raises :class:`haywisp.record.BadBody`.

    Without ``allowed`` only the names of the fields are checked.
    """
    body = _checked(entry.part, {**entry.body, **changes}, allowed)
    return replace(_next(entry, new_id, now, status="corrected", reason=reason), body=body)


def reject(entry: Entry, reason: str, new_id: NewId, now: datetime) -> Entry:
    """The next version: it doesn't stand, and the reason says why."""
    return _next(entry, new_id, now, status="rejected", reason=reason)


def by_hand(
    visit_id: str,
    part: str,
    body: Mapping[str, object],
    time_s: float,
    new_id: NewId,
    now: datetime,
    *,
    end_s: float | None = None,
    allowed: Allowed | None = None,
) -> Entry:
    """A new entry that the practitioner wrote down, and so stands by; raises :class:`haywisp.record.BadBody`.

    Fields that may stay open and weren't given are None. ``end_s`` is for a bout; other things have one time.
    """
    whole = _checked(part, body, allowed)
    return Entry(
        id=new_id(),
        thread=new_id(),
        version=1,
        visit_id=visit_id,
        part=part,
        body=whole,
        time_s=time_s,
        end_s=max(time_s, end_s if end_s is not None else time_s),
        first_word=-1,
        last_word=-1,
        confidence=1.0,
        status="accepted",
        source=BY_HAND,
        reason="",
        made_at=now,
    )


def _next(entry: Entry, new_id: NewId, now: datetime, *, status: str, reason: str = "") -> Entry:
    return replace(entry, id=new_id(), version=entry.version + 1, status=status, reason=reason, made_at=now)


def _checked(part: str, body: Mapping[str, object], allowed: Allowed | None) -> dict[str, object]:
    problems = shape_problems(part, body) if allowed is None else problems_of(part, body, allowed)
    if problems:
        raise BadBody(problems)
    # A note of no special kind keeps the body that it always had.
    return {name: _plain(body.get(name)) for name in FIELDS[part] if part != "note" or body.get(name) is not None}


def _plain(value: object) -> object:
    return list(value) if isinstance(value, tuple) else value
