"""Owners, yards and horses."""

from collections.abc import Sequence

from sqlalchemy import Select, func, or_, select, tuple_

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse
from haywisp.store.desk import Desk
from haywisp.store.keys import search_words
from haywisp.store.rows import columns
from haywisp.store.storable import sound
from haywisp.store.tables import horse, owner, yard


class People(Desk):
    """The part of the unit that knows who the practice works for."""

    def add_owner(self, owner: Owner) -> None:
        """Keep a new owner."""
        self.add([owner])

    def add_yard(self, yard: Yard) -> None:
        """Keep a new yard."""
        self.add([yard])

    def add_horse(self, horse: Horse) -> None:
        """Keep a new horse of an owner and a yard that are kept."""
        self.add([horse])

    def save_horse(self, horse: Horse) -> None:
        """Put a horse's details in place of the old ones."""
        self.replace(horse)

    def owner(self, owner_id: str) -> Owner | None:
        """The owner with this id."""
        return self.by_id(Owner, owner_id)

    def yard(self, yard_id: str) -> Yard | None:
        """The yard with this id."""
        return self.by_id(Yard, yard_id)

    def horse(self, horse_id: str) -> Horse | None:
        """The horse with this id."""
        return self.by_id(Horse, horse_id)

    def owners(self) -> Sequence[Owner]:
        """All owners by name."""
        return self.find(Owner, select(*columns(Owner)).order_by(owner.c.name_key, owner.c.id))

    def yards(self) -> Sequence[Yard]:
        """All yards by name."""
        return self.find(Yard, select(*columns(Yard)).order_by(yard.c.name_key, yard.c.id))

    def horses(self, text: str = "", after: str = "", limit: int = 200) -> Sequence[Horse]:
        """One page of horses by name, each word of the text found in the horse's, owner's or yard's name."""
        query = matching(select(*columns(Horse)), search_words(text))
        if after:
            last = select(horse.c.name_key).where(horse.c.id == after).scalar_subquery()
            query = query.where(tuple_(horse.c.name_key, horse.c.id) > tuple_(last, sound(after)))
        return self.find(Horse, query.order_by(horse.c.name_key, horse.c.id).limit(max(limit, 0)))

    def count_horses(self) -> int:
        """How many horses are kept, counted by the database."""
        (row,) = self.ask(select(func.count().label("horses")).select_from(horse))
        return int(row["horses"])


def matching(query: Select[tuple[object, ...]], words: Sequence[str]) -> Select[tuple[object, ...]]:
    """Narrow a query over horses to those in which every word occurs."""
    if not words:
        return query
    query = query.join_from(horse, owner, horse.c.owner_id == owner.c.id).join(yard, horse.c.yard_id == yard.c.id)
    keys = (horse.c.name_key, owner.c.name_key, yard.c.name_key)
    for word in words:
        query = query.where(or_(*(key.contains(word, autoescape=True) for key in keys)))
    return query
