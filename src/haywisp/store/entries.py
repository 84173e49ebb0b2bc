"""Entry versions, which are only ever added to, and the questions about them."""

from collections.abc import Sequence

from sqlalchemy import func, select

from haywisp.record.types import Entry, StoredQuestion
from haywisp.store.desk import Desk, chunks
from haywisp.store.errors import Stale
from haywisp.store.rows import columns
from haywisp.store.tables import entry, question, visit


class Entries(Desk):
    """The part of the unit that remembers what was said, seen and measured."""

    def append(self, entries: Sequence[Entry]) -> None:
        """Append entry versions, each the next of its thread; raises :class:`haywisp.store.Stale` otherwise."""
        if not entries:
            return
        self.begin_writing()
        self._lock_visits({one.visit_id for one in entries})
        newest = self._newest_versions([one.thread for one in entries])
        for one in entries:
            if one.version != newest.get(one.thread, 0) + 1:
                raise self._fail(Stale(one.thread, one.version, newest.get(one.thread, 0)))
            newest[one.thread] = one.version
        self.add(entries)

    def _lock_visits(self, visit_ids: set[str]) -> None:
        """Let one unit at a time append to a visit, in one order so that two never wait for each other.

        Only PostgreSQL has such locks; on SQLite one unit at a time writes anyway.
        """
        for ids in chunks(sorted(visit_ids)):
            self.ask(select(visit.c.id).where(visit.c.id.in_(ids)).order_by(visit.c.id).with_for_update())

    def _newest_versions(self, threads: Sequence[str]) -> dict[str, int]:
        newest: dict[str, int] = {}
        for ids in chunks(threads):
            query = select(entry.c.thread, func.max(entry.c.version).label("newest")).where(entry.c.thread.in_(ids))
            newest |= {row["thread"]: row["newest"] for row in self.ask(query.group_by(entry.c.thread))}
        return newest

    def entries_of(self, visit_id: str) -> Sequence[Entry]:
        """The newest version of each thread of a visit, by time."""
        return self.entries_of_many([visit_id])

    def entries_of_many(self, visit_ids: Sequence[str]) -> Sequence[Entry]:
        """The newest version of each thread of these visits, by visit and time."""
        found: list[Entry] = []
        for ids in chunks(sorted(set(visit_ids))):
            newest = (
                select(entry.c.thread, func.max(entry.c.version).label("version"))
                .where(entry.c.visit_id.in_(ids))
                .group_by(entry.c.thread)
                .subquery()
            )
            is_newest = (entry.c.thread == newest.c.thread) & (entry.c.version == newest.c.version)
            query = select(*columns(Entry)).join(newest, is_newest)
            order = (entry.c.visit_id, entry.c.time_s, entry.c.end_s, entry.c.first_word, entry.c.thread)
            found += self.find(Entry, query.order_by(*order))
        return found

    def thread(self, thread: str) -> Sequence[Entry]:
        """All versions of one thread, oldest first."""
        query = select(*columns(Entry)).where(entry.c.thread == thread)
        return self.find(Entry, query.order_by(entry.c.version))

    def add_questions(self, questions: Sequence[StoredQuestion]) -> None:
        """Keep new questions."""
        self.add(questions)

    def questions_of(self, visit_id: str) -> Sequence[StoredQuestion]:
        """All questions of a visit, answered or not, by time."""
        query = select(*columns(StoredQuestion)).where(question.c.visit_id == visit_id)
        return self.find(StoredQuestion, query.order_by(question.c.time_s, question.c.first_word, question.c.id))

    def question(self, question_id: str) -> StoredQuestion | None:
        """The question with this id."""
        return self.by_id(StoredQuestion, question_id)

    def save_answer(self, question: StoredQuestion) -> None:
        """Keep the answer to a question and its time; the question itself stays as it was asked."""
        self.replace(question, only=("answer", "answered_at"))

    def open_questions(self, visit_ids: Sequence[str]) -> dict[str, int]:
        """How many questions of each visit wait for an answer."""
        counts: dict[str, int] = {}
        for ids in chunks(visit_ids):
            query = select(question.c.visit_id, func.count().label("open")).where(
                question.c.visit_id.in_(ids), question.c.answer.is_(None)
            )
            counts |= {row["visit_id"]: row["open"] for row in self.ask(query.group_by(question.c.visit_id))}
        return counts
