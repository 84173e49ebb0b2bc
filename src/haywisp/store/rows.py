"""Rows from frozen dataclasses and back: a column is named as its field."""

from collections.abc import Mapping
from dataclasses import asdict, fields
from typing import Any, TypeVar

from sqlalchemy import Column, Table
from sqlalchemy.engine import RowMapping

from haywisp.narration.types import OwnWord
from haywisp.practice.types import Owner, Yard
from haywisp.record.types import (
    Entry,
    Horse,
    Passage,
    Recording,
    StoredNarration,
    StoredOwnWord,
    StoredQuestion,
    Visit,
)
from haywisp.store import tables
from haywisp.store.keys import name_key
from haywisp.store.storable import check

Kept = Owner | Yard | Horse | Visit | StoredNarration | Entry | StoredQuestion | StoredOwnWord | Recording
K = TypeVar("K", Owner, Yard, Horse, Visit, StoredNarration, Entry, StoredQuestion, StoredOwnWord, Recording)

TABLES: Mapping[type[Any], Table] = {
    Owner: tables.owner,
    Yard: tables.yard,
    Horse: tables.horse,
    Visit: tables.visit,
    StoredNarration: tables.narration,
    Entry: tables.entry,
    StoredQuestion: tables.question,
    StoredOwnWord: tables.own_word,
    Recording: tables.recording,
}


def columns(kind: type[Kept]) -> list[Column[Any]]:
    """The columns that make one of this kind, named one by one, in the order of its fields."""
    table = TABLES[kind]
    return [table.c[field.name] for field in fields(kind)]


def to_row(kept: Kept) -> dict[str, Any]:
    """The row that keeps this; raises :class:`haywisp.store.Unstorable` for what no database keeps whole."""
    table = TABLES[type(kept)]
    row = {field.name: check(table.name, field.name, _plain(getattr(kept, field.name))) for field in fields(kept)}
    if "name_key" in table.c:
        row["name_key"] = name_key(row["name"])
    return row


def _plain(value: Any) -> Any:
    """Own words and passages as mappings, which can be kept as JSON; everything else as it is."""
    return (
        [asdict(one) if isinstance(one, OwnWord | Passage) else one for one in value]
        if isinstance(value, tuple)
        else value
    )


def from_row(kind: type[K], row: RowMapping) -> K:
    """What the row keeps; lists come back as the tuples that the dataclasses hold."""
    values: dict[str, Any] = dict(row)
    if kind is Horse:
        values["flags"] = tuple(values["flags"])
    if kind is StoredNarration:
        values["own_words"] = tuple(OwnWord(**word) for word in values["own_words"])
    if kind is Recording:
        values["passages"] = tuple(Passage(**passage) for passage in values["passages"])
    if kind is StoredQuestion:
        values["choices"] = tuple((label, value) for label, value in values["choices"])
    return kind(**values)
