"""The tables. Columns are named as the fields of the dataclasses that they keep."""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    Boolean,
    CheckConstraint,
    Column,
    Date,
    DateTime,
    Dialect,
    Double,
    ForeignKey,
    Identity,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
    text,
)
from sqlalchemy.types import TypeEngine

from haywisp.store.storable import sound


class UtcTime(TypeDecorator[datetime]):
    """A point in time, kept and given back in UTC; SQLite has no zones, so there it is kept without one."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """To UTC on the way in."""
        if value is None:
            return None
        utc = value.astimezone(UTC)
        return utc.replace(tzinfo=None) if dialect.name == "sqlite" else utc

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """To UTC on the way out, whatever zone the session is in."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Key(TypeDecorator[str]):
    """An id or a folded name: text that sorts by code point on every database, so that pages are the same everywhere.

    A damaged character in something asked for, such as an id in an address, finds nothing instead of failing.
    """

    impl = String
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        """PostgreSQL would otherwise sort by the language of its server."""
        return dialect.type_descriptor(String(collation="C" if dialect.name == "postgresql" else None))

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        """What is kept was checked before; this is for what is asked for."""
        return None if value is None else sound(value)


metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
    }
)

owner = Table(
    "owner",
    metadata,
    Column("id", Key, primary_key=True),
    Column("name", Text, nullable=False),
    Column("name_key", Key, nullable=False),
    Column("phone", Text, nullable=False),
    Column("email", Text, nullable=False),
    Column("invented", Boolean, nullable=False),
    Index(None, "name_key", "id"),
)

yard = Table(
    "yard",
    metadata,
    Column("id", Key, primary_key=True),
    Column("name", Text, nullable=False),
    Column("name_key", Key, nullable=False),
    Column("address", Text, nullable=False),
    Column("isolation", Boolean, nullable=False),
    Column("invented", Boolean, nullable=False),
    Index(None, "name_key", "id"),
)

horse = Table(
    "horse",
    metadata,
    Column("id", Key, primary_key=True),
    Column("name", Text, nullable=False),
    Column("name_key", Key, nullable=False),
    Column("owner_id", Key, ForeignKey("owner.id"), nullable=False, index=True),
    Column("yard_id", Key, ForeignKey("yard.id"), nullable=False, index=True),
    Column("breed", Text, nullable=False),
    Column("sex", Text, nullable=False),
    Column("born", Integer),
    Column("height_cm", Double),
    Column("work", Text, nullable=False),
    Column("notes", Text, nullable=False),
    Column("flags", JSON, nullable=False),
    Column("invented", Boolean, nullable=False),
    *(
        Column(name, Text, nullable=False, server_default="")
        for name in ("ueln", "microchip", "vet", "tack", "teeth", "feet", "history", "medicines", "insurance")
    ),
    Index(None, "name_key", "id"),
)

visit = Table(
    "visit",
    metadata,
    Column("id", Key, primary_key=True),
    Column("horse_id", Key, ForeignKey("horse.id"), nullable=False),
    Column("day", Date, nullable=False),
    Column("minutes", Integer, nullable=False),
    Column("status", String, nullable=False),
    Column("number", Integer, nullable=False),
    Column("practitioner", Text, nullable=False),
    Column("notes", Text, nullable=False),
    Index(None, "horse_id", "day"),
    Index(None, "status", "day"),
    Index(None, "day", "id"),
)

narration = Table(
    "narration",
    metadata,
    Column("seq", Integer, Identity(always=True), primary_key=True),
    Column("id", Key, nullable=False, unique=True),
    Column("visit_id", Key, ForeignKey("visit.id"), nullable=False),
    Column("file_name", Text, nullable=False),
    Column("format", Text, nullable=False),
    Column("content", Text, nullable=False),
    Column("added_at", UtcTime, nullable=False),
    Column("own_words", JSON, nullable=False, server_default="[]"),
    Index(None, "visit_id", "added_at", "seq"),
)

own_word = Table(
    "own_word",
    metadata,
    Column("id", Key, primary_key=True),
    Column("kind", String, nullable=False),
    Column("phrase", Text, nullable=False),
    Column("key", Key, nullable=False),
    Column("meaning", String, nullable=False),
    Column("misheard", Boolean, nullable=False),
    Column("added_at", UtcTime, nullable=False),
    UniqueConstraint("key"),
)

recording = Table(
    "recording",
    metadata,
    Column("id", Key, primary_key=True),
    Column("visit_id", Key, ForeignKey("visit.id"), nullable=False),
    Column("began_at", UtcTime, nullable=False),
    Column("file_name", Text, nullable=False),
    Column("form", String, nullable=False),
    Column("state", String, nullable=False),
    Column("seconds", Double, nullable=False),
    Column("size_bytes", Integer, nullable=False),
    Column("sha256", String, nullable=False),
    Column("attempt", Integer, nullable=False),
    Column("parts", Integer, nullable=False),
    Column("done", Integer, nullable=False),
    Column("done_before", Integer, nullable=False),
    Column("heard_from", UtcTime),
    Column("sentence", Text, nullable=False),
    Column("passages", JSON, nullable=False),
    Index(None, "visit_id", "began_at"),
    Index(None, "state", "began_at"),
)

entry = Table(
    "entry",
    metadata,
    Column("id", Key, primary_key=True),
    Column("thread", Key, nullable=False),
    Column("version", Integer, nullable=False),
    Column("visit_id", Key, ForeignKey("visit.id"), nullable=False),
    Column("part", String, nullable=False),
    Column("body", JSON, nullable=False),
    Column("time_s", Double, nullable=False),
    Column("end_s", Double, nullable=False),
    Column("first_word", Integer, nullable=False),
    Column("last_word", Integer, nullable=False),
    Column("confidence", Double, nullable=False),
    Column("status", String, nullable=False),
    Column("source", Text, nullable=False),
    Column("reason", Text, nullable=False),
    Column("made_at", UtcTime, nullable=False),
    UniqueConstraint("thread", "version"),
    CheckConstraint("version >= 1", name="version_from_1"),
    Index(None, "visit_id", "thread", "version"),
)

question = Table(
    "question",
    metadata,
    Column("id", Key, primary_key=True),
    Column("visit_id", Key, ForeignKey("visit.id"), nullable=False),
    Column("thread", Key, nullable=False),
    Column("field", String),
    Column("text", Text, nullable=False),
    Column("choices", JSON, nullable=False),
    Column("time_s", Double, nullable=False),
    Column("first_word", Integer, nullable=False),
    Column("last_word", Integer, nullable=False),
    Column("answer", Text),
    Column("answered_at", UtcTime),
    Column("offer", JSON(none_as_null=True)),
    Index(None, "visit_id", "time_s"),
    Index(
        "ix_question_open",
        "visit_id",
        sqlite_where=text("answer IS NULL"),
        postgresql_where=text("answer IS NULL"),
    ),
)

#: Tables that are only ever added to; triggers of the same names hold it in the database.
APPEND_ONLY = ("entry", "narration")
