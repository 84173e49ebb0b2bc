"""The page of what was said, and the verbs of its review: accept, correct, reject, add, answer, finish."""

from collections.abc import Mapping
from dataclasses import replace

from haywisp import record
from haywisp.record.types import Entry, StoredQuestion, Visit
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.conclusions import standing
from haywisp.usecases.deciding import allowed_of, append, check, close_questions, current
from haywisp.usecases.entry_views import DROPPED, KEPT, entry_view, question_view
from haywisp.usecases.errors import QuestionsOpen, Refused
from haywisp.usecases.forms import plain, vocabulary
from haywisp.usecases.listening import heard_again
from haywisp.usecases.lookup import horse_of, newest_of, owner_of, question_of, visit_of, yard_of
from haywisp.usecases.timeline import minutes_worked, timelines
from haywisp.usecases.transcripts import end_of, line_views, quote_views, repair_views, word_views
from haywisp.usecases.views import Counts, EntryView, Ref, SaidPage
from haywisp.usecases.visit_rows import acceptable, counts_of, visit_row

LONGEST_REASON = 500


def said(app: App, visit_id: str) -> SaidPage:
    """The words of the newest narration, everything understood of it, and the questions still open first."""
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        owner, yard = owner_of(unit, horse.owner_id), yard_of(unit, horse.yard_id)
        stored = unit.narration_of(visit_id)
        entries = unit.entries_of(visit_id)
        questions = unit.questions_of(visit_id)
    narration = heard_again(app.listen, app.tables, stored)
    words = word_views(narration)
    kept = standing(entries)
    threads = {entry.thread: entry for entry in entries}
    asked = [question_view(question, threads.get(question.thread), tables) for question in questions]
    still_open = sum(question.answer is None for question in questions)
    by_region, by_technique = timelines(kept, end_of(narration.transcript.words), tables)
    return SaidPage(
        visit=visit,
        row=visit_row(visit, horse, Ref(owner.id, owner.name), Ref(yard.id, yard.name), entries, still_open, tables),
        horse=horse,
        owner=owner,
        yard=yard,
        file_name=stored.file_name if stored is not None else "",
        lines=line_views(words),
        words=words,
        repairs=repair_views(narration),
        entries=tuple(entry_view(entry, questions, tables) for entry in kept),
        rejected=tuple(entry_view(entry, questions, tables) for entry in entries if entry.status == "rejected"),
        questions=tuple(view for view in asked if view.answer is None),
        answered=tuple(view for view in asked if view.answer is not None),
        counts=counts_of(entries, questions),
        minutes_of_work=minutes_worked(kept),
        by_region=by_region,
        by_technique=by_technique,
        vocabulary=vocabulary(tables),
        quotes=quote_views(words, entries, questions),
    )


def entry_of(app: App, thread: str) -> EntryView:
    """One entry as it is now, for a page that shows it alone."""
    with app.units() as unit:
        return _shown(app, unit, newest_of(unit, thread))


def history(app: App, thread: str) -> tuple[EntryView, ...]:
    """All versions of one entry, oldest first."""
    with app.units() as unit:
        newest_of(unit, thread)
        return tuple(entry_view(version, (), app.tables()) for version in unit.thread(thread))


def accept(app: App, thread: str, version: int) -> EntryView:
    """Stand by an entry as it is; its open questions are closed with it."""
    with app.units() as unit:
        entry = current(unit, thread, version)
        now = app.clock()
        accepted = record.accept(entry, app.new_id, now)
        append(unit, [accepted])
        close_questions(unit, [entry], KEPT, now)
        return _shown(app, unit, accepted)


def correct(app: App, thread: str, version: int, changes: Mapping[str, object], reason: str = "") -> EntryView:
    """The entry with some fields changed; ``changes`` may hold texts from a form. Questions on those fields close."""
    with app.units() as unit:
        entry = current(unit, thread, version)
        fields = plain(entry.part, changes)
        check(entry.part, {**entry.body, **fields}, allowed_of(app.tables()))
        now = app.clock()
        corrected = record.correct(entry, fields, app.new_id, now, reason=_reason(reason))
        append(unit, [corrected])
        _close_fields(unit, entry, fields, app)
        return _shown(app, unit, corrected)


def reject(app: App, thread: str, version: int, reason: str = "") -> EntryView:
    """Leave an entry out; it stays in the record with its reason, and can be accepted again."""
    with app.units() as unit:
        entry = current(unit, thread, version)
        now = app.clock()
        rejected = record.reject(entry, _reason(reason), app.new_id, now)
        append(unit, [rejected])
        close_questions(unit, [entry], DROPPED, now)
        return _shown(app, unit, rejected)


def add(
    app: App,
    visit_id: str,
    part: str,
    body: Mapping[str, object],
    time_s: float = 0.0,
    end_s: float | None = None,
) -> EntryView:
    """An entry by hand: what was done or seen and not said. Times in seconds from the start of the session."""
    fields = plain(part, body)
    check(part, fields, allowed_of(app.tables()))
    with app.units() as unit:
        visit_of(unit, visit_id)
        entry = record.by_hand(visit_id, part, fields, max(0.0, time_s), app.new_id, app.clock(), end_s=end_s)
        append(unit, [entry])
        return _shown(app, unit, entry)


def answer(app: App, question_id: str, value: str) -> EntryView | None:
    """Answer a question: ``keep`` accepts the entry, ``drop`` rejects it, anything else corrects the field it asks for.

    An answer that says what the entry says already accepts it, unless another question about it is still open.
    A question about what was left out adds it with ``keep``, with its words and time. A question about nothing that
    is or becomes an entry is only closed, and gives None.
    """
    with app.units() as unit:
        question = question_of(unit, question_id)
        if question.answer is not None:
            raise Refused("This question was answered already. Correct the entry itself if the answer has changed.")
        now = app.clock()
        if question.offer is not None:
            return _answered_offer(app, unit, question, value)
        if not question.thread:
            unit.save_answer(replace(question, answer=value, answered_at=now))
            return None
        entry = newest_of(unit, question.thread)
        if question.field is None and value not in {KEPT, DROPPED}:
            raise Refused(f"“{value}” answers nothing here: the answer is “{KEPT}” or “{DROPPED}”.")
        unit.save_answer(replace(question, answer=value, answered_at=now))
        others = [other for other in _open(unit, entry) if other.id != question.id]
        if value == DROPPED:
            changed = record.reject(entry, question.text, app.new_id, now)
            close_questions(unit, [entry], DROPPED, now)
        else:
            fields = {} if question.field is None or value == KEPT else plain(entry.part, {question.field: value})
            if any(_differs(entry.body.get(name), new) for name, new in fields.items()):
                check(entry.part, {**entry.body, **fields}, allowed_of(app.tables()))
                changed = record.correct(entry, fields, app.new_id, now, reason=question.text)
            elif others:
                return _shown(app, unit, entry)
            else:
                changed = record.accept(entry, app.new_id, now)
        append(unit, [changed])
        return _shown(app, unit, changed)


def _answered_offer(app: App, unit: Unit, question: StoredQuestion, value: str) -> EntryView | None:
    """A yes writes down what was left out; a no only closes the question."""
    if value not in {KEPT, DROPPED}:
        raise Refused(f"“{value}” answers nothing here: the answer is “{KEPT}” or “{DROPPED}”.")
    now = app.clock()
    unit.save_answer(replace(question, answer=value, answered_at=now))
    if value == DROPPED:
        return None
    added = record.offered(question, app.new_id, now)
    check(added.part, added.body, allowed_of(app.tables()))
    append(unit, [added])
    return _shown(app, unit, added)


def accept_all(app: App, visit_id: str) -> Counts:
    """Stand by every proposed entry that no open question is about; doubtful ones stay for the person to decide."""
    with app.units() as unit:
        visit_of(unit, visit_id)
        questions = unit.questions_of(visit_id)
        now = app.clock()
        sure = acceptable(unit.entries_of(visit_id), questions)
        append(unit, [record.accept(entry, app.new_id, now) for entry in sure])
        return counts_of(unit.entries_of(visit_id), questions)


def finish(app: App, visit_id: str, *, force: bool = False) -> Visit:
    """The visit is reviewed. Refused while questions are open, unless ``force``: then they stay open and are shown."""
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        waiting = sum(question.answer is None for question in unit.questions_of(visit_id))
        if waiting and not force:
            raise QuestionsOpen(waiting)
        done = replace(visit, status="reviewed")
        unit.save_visit(done)
        return done


def _open(unit: Unit, entry: Entry) -> list[StoredQuestion]:
    asked = unit.questions_of(entry.visit_id)
    return [question for question in asked if question.thread == entry.thread and question.answer is None]


def _close_fields(unit: Unit, entry: Entry, fields: Mapping[str, object], app: App) -> None:
    for question in _open(unit, entry):
        if entry.part == "flag" and question.field is None:
            unit.save_answer(replace(question, answer=KEPT, answered_at=app.clock()))
        elif question.field is not None and question.field in fields:
            given = fields[question.field]
            text = ", ".join(map(str, given)) if isinstance(given, list) else str("" if given is None else given)
            unit.save_answer(replace(question, answer=text, answered_at=app.clock()))


def _differs(old: object, new: object) -> bool:
    return (list(old) if isinstance(old, tuple) else old) != new


def _reason(text: str) -> str:
    return " ".join(text.split())[:LONGEST_REASON]


def _shown(app: App, unit: Unit, entry: Entry) -> EntryView:
    return entry_view(entry, unit.questions_of(entry.visit_id), app.tables())
