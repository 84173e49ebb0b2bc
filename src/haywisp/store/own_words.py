"""The practitioner's own words, and the narrations that may hold some."""

from collections.abc import Sequence

from sqlalchemy import func, select

from haywisp.record.types import StoredNarration, StoredOwnWord
from haywisp.store.desk import Desk
from haywisp.store.rows import columns
from haywisp.store.storable import sound
from haywisp.store.tables import narration, own_word


class OwnWords(Desk):
    """The part of the unit that knows what the practitioner calls things."""

    def add_own_word(self, word: StoredOwnWord) -> None:
        """Keep new own words."""
        self.add([word])

    def own_words(self) -> Sequence[StoredOwnWord]:
        """All of them, in the order they were kept."""
        query = select(*columns(StoredOwnWord)).order_by(own_word.c.added_at, own_word.c.id)
        return self.find(StoredOwnWord, query)

    def remove_own_word(self, word_id: str) -> None:
        """Take own words off the list; what was understood with them keeps its own copy."""
        self.remove(StoredOwnWord, word_id)

    def narrations_holding(self, words: Sequence[str], limit: int = 200) -> Sequence[StoredNarration]:
        """The newest narration of each visit whose text holds each of the words, newest first."""
        order = (narration.c.added_at.desc(), narration.c.seq.desc())
        rank = func.row_number().over(partition_by=narration.c.visit_id, order_by=order).label("rank")
        newest = select(narration.c.seq, rank).subquery()
        query = select(*columns(StoredNarration)).join(newest, newest.c.seq == narration.c.seq)
        query = query.where(newest.c.rank == 1)
        for word in words:
            query = query.where(func.lower(narration.c.content).contains(sound(word.lower()), autoescape=True))
        return self.find(StoredNarration, query.order_by(*order).limit(max(limit, 0)))
