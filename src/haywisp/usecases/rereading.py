"""A visit's narration read again with today's own words: what would change, and the change once it is asked for."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from hashlib import sha256

from haywisp import record
from haywisp.knowledge.types import Tables
from haywisp.narration.types import OwnWord
from haywisp.record.types import Entry, StoredNarration, StoredQuestion
from haywisp.report.wording import entry_sentence, mmss
from haywisp.store.types import Unit
from haywisp.usecases.app import App
from haywisp.usecases.deciding import append, close_questions, offers_anew
from haywisp.usecases.entry_views import REPLACED
from haywisp.usecases.errors import Refused
from haywisp.usecases.hearing_own import own_words_kept, said_in
from haywisp.usecases.listening import heard_again, heard_with
from haywisp.usecases.lookup import horse_of, owner_of, visit_of, yard_of
from haywisp.usecases.own_words import own_word_row
from haywisp.usecases.views import Ref, Rereading, RereadPage
from haywisp.usecases.visit_rows import counts_of, visit_row

REASON = "read again with words of my own"
SAME_TIME_S = 0.5


@dataclass(frozen=True, slots=True)
class Pair:
    """An entry as it is kept and as it would be heard now; either may be missing. ``asked`` are today's questions."""

    old: Entry | None
    new: Entry | None
    asked: tuple[StoredQuestion, ...] = ()
    what: str = ""


def words_changed(app: App, visit_id: str) -> int:
    """How many own words a visit's narration would be read otherwise by: those on the list now, or then, not both."""
    with app.units() as unit:
        stored = unit.narration_of(visit_id)
        own = own_words_kept(unit)
    if stored is None or set(own) == set(stored.own_words):
        return 0
    narration = heard_again(app.listen, app.tables, stored)
    return len(set(said_in(narration, own, app.tables())) ^ set(stored.own_words))


def reread_page(app: App, visit_id: str) -> RereadPage:
    """What would change; nothing is changed."""
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        owner, yard = owner_of(unit, horse.owner_id), yard_of(unit, horse.yard_id)
        stored, own, pairs = _read(app, unit, visit_id)
        kept = unit.own_words()
        entries, questions = unit.entries_of(visit_id), unit.questions_of(visit_id)
    return RereadPage(
        visit=visit,
        row=visit_row(
            visit,
            horse,
            Ref(owner.id, owner.name),
            Ref(yard.id, yard.name),
            entries,
            counts_of(entries, questions).open_questions,
            tables,
        ),
        horse=horse,
        owner=owner,
        yard=yard,
        heard=tuple(own_word_row(word, tables) for word in kept if word.word in own),
        added=tuple(word.phrase for word in own if word not in stored.own_words),
        dropped=tuple(word.phrase for word in stored.own_words if word not in own),
        changes=tuple(_told(pair, tables) for pair in pairs),
        mark=_mark(own, pairs),
    )


def read_again(app: App, visit_id: str, mark: str) -> int:
    """Do what :func:`reread_page` showed under ``mark``; gives how many entries changed, came or went.

    Entries that someone decided on stay as they are. Refused when something else would happen by now.
    """
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        stored, own, pairs = _read(app, unit, visit_id)
        if _mark(own, pairs) != mark:
            raise Refused(
                "The record or your words have changed since this was shown: look again. Nothing was changed."
            )
        now = app.clock()
        unit.add_narration(replace(stored, id=app.new_id(), added_at=now, own_words=own))
        _offer_anew(app, unit, visit_id, own)
        done = [pair for pair in pairs if pair.what != "stays"]
        for pair in done:
            _do(app, unit, pair, now)
        if any(pair.new is not None for pair in done):
            unit.save_visit(replace(visit, status="heard"))
    return len(done)


def _offer_anew(app: App, unit: Unit, visit_id: str, own: tuple[OwnWord, ...]) -> None:
    """Ask about what is left out now, unless the same was answered already; other such questions close."""
    stored = unit.narration_of(visit_id)
    if stored is None:
        return
    now = app.clock()
    narration = heard_with(app.listen, app.tables, stored, own)
    _, asked = record.from_narration(narration, visit_id, app.new_id, now)
    offers = [question for question in asked if question.offer is not None]
    unit.add_questions(offers_anew(unit, visit_id, offers, now))


def _do(app: App, unit: Unit, pair: Pair, now: datetime) -> None:
    old, new = pair.old, pair.new
    if old is not None:
        close_questions(unit, [old], REPLACED, now)
    if new is None:
        assert old is not None
        append(unit, [record.reject(old, REASON, app.new_id, now)])
        return
    if old is not None:
        # The same entry goes on: its thread keeps what it was before.
        new = replace(new, thread=old.thread, version=old.version + 1, reason=REASON)
    append(unit, [new])
    unit.add_questions([replace(question, thread=new.thread) for question in pair.asked])


def _read(app: App, unit: Unit, visit_id: str) -> tuple[StoredNarration, tuple[OwnWord, ...], list[Pair]]:
    """The stored narration, the own words said in it that are on the list now, and what would change."""
    stored = unit.narration_of(visit_id)
    if stored is None:
        raise Refused("This visit has no narration that could be read again.")
    tables = app.tables()
    own = own_words_kept(unit)
    narration = heard_with(app.listen, app.tables, stored, own)
    new, asked = record.from_narration(narration, visit_id, app.new_id, app.clock())
    pairs = list(_pairs(unit.entries_of(visit_id), new, asked))
    changes = [pair for pair in _judged(pairs, unit.questions_of(visit_id)) if pair.what and not _known(unit, pair)]
    changes.sort(key=_begins)
    return stored, said_in(narration, own, tables), changes


def _known(unit: Unit, pair: Pair) -> bool:
    """Whether a decision was already made on just what is heard now: that needs no telling."""
    if pair.what != "stays" or pair.old is None or pair.new is None:
        return False
    return any(dict(version.body) == dict(pair.new.body) for version in unit.thread(pair.old.thread))


def _begins(pair: Pair) -> float:
    return max(one.time_s for one in (pair.old, pair.new) if one is not None)


def _pairs(kept: Sequence[Entry], new: Sequence[Entry], asked: Sequence[StoredQuestion]) -> Iterator[Pair]:
    """Entries as they are kept beside what is heard now: the same thing first, then what shares words with it."""
    questions = {one.thread: tuple(q for q in asked if q.thread == one.thread) for one in new}
    olds, news = list(kept), list(new)
    for alike in (_same, _same_told, _overlap):
        for old in list(olds):
            fitting = [one for one in news if one.part == old.part and alike(old, one)]
            if fitting:
                best = max(fitting, key=lambda one: (_shared(old, one), -abs(old.time_s - one.time_s)))
                olds.remove(old)
                news.remove(best)
                yield Pair(old, best, questions[best.thread])
    yield from (Pair(old, None) for old in olds)
    yield from (Pair(None, one, questions[one.thread]) for one in news)


def _same(old: Entry, new: Entry) -> bool:
    return dict(old.body) == dict(new.body) and _shared(old, new) > 0


def _same_told(old: Entry, new: Entry) -> bool:
    """What was written by hand, or lost its place in the words, is known by what it says."""
    return old.first_word < 0 and dict(old.body) == dict(new.body) and abs(old.time_s - new.time_s) < 5


def _overlap(old: Entry, new: Entry) -> bool:
    return _shared(old, new) > 0


def _shared(old: Entry, new: Entry) -> int:
    return max(0, min(old.last_word, new.last_word) - max(old.first_word, new.first_word))


def _judged(pairs: Iterable[Pair], questions: Sequence[StoredQuestion]) -> Iterator[Pair]:
    for pair in pairs:
        yield replace(pair, what=_what(pair, questions))


def _what(pair: Pair, questions: Sequence[StoredQuestion]) -> str:
    old, new = pair.old, pair.new
    if old is None:
        return "new"
    decided = old.status != "proposed"
    if new is None:
        return "" if decided else "gone"
    if dict(old.body) != dict(new.body):
        # What was rejected is not asked about again for being heard a little otherwise.
        return "changed" if not decided else "stays" if old.status != "rejected" else ""
    if decided:
        return ""
    if abs(old.time_s - new.time_s) > SAME_TIME_S or abs(old.end_s - new.end_s) > SAME_TIME_S:
        return "changed"
    still = {(one.field, one.text) for one in questions if one.thread == old.thread and one.answer is None}
    known = {(one.field, one.text) for one in questions if one.thread == old.thread}
    would = {(one.field, one.text) for one in pair.asked}
    return "" if still <= would <= known else "surer"


def _told(pair: Pair, tables: Tables) -> Rereading:
    first = pair.old or pair.new
    assert first is not None
    timed = pair.what == "changed" and pair.old is not None and pair.new is not None and pair.old.part == "bout"
    timed = timed and dict(pair.old.body) == dict(pair.new.body) if pair.old and pair.new else False
    return Rereading(pair.what, mmss(first.time_s), _words(pair.old, tables, timed), _words(pair.new, tables, timed))


def _words(entry: Entry | None, tables: Tables, timed: bool) -> str:
    if entry is None:
        return ""
    sentence = entry_sentence(entry.part, entry.body, tables)
    return f"{sentence}, {mmss(entry.time_s)} to {mmss(entry.end_s)}" if timed else sentence


def _mark(own: Sequence[OwnWord], pairs: Sequence[Pair]) -> str:
    """What was shown, in a few letters: other words or other entries give another."""
    shown = [
        repr(own),
        *(
            repr((pair.what, pair.old and pair.old.id, pair.new and (pair.new.part, pair.new.body, pair.new.time_s)))
            for pair in pairs
        ),
    ]
    return sha256("\n".join(shown).encode()).hexdigest()[:16]
