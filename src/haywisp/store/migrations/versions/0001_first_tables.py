"""The first tables, and the triggers that hold what was recorded."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

APPEND_ONLY = ("entry", "narration")


def upgrade() -> None:
    """Make the tables from nothing."""
    people()
    visits()
    record()
    for table in APPEND_ONLY:
        hold_on_postgresql(table) if op.get_context().dialect.name == "postgresql" else hold_on_sqlite(table)


def key() -> sa.String:
    """Text that sorts by code point on every database."""
    return sa.String().with_variant(sa.String(collation="C"), "postgresql")


def time() -> sa.DateTime:
    """A point in time in UTC."""
    return sa.DateTime(timezone=True)


def people() -> None:
    """Owners, yards and horses."""
    op.create_table(
        "owner",
        sa.Column("id", key(), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("name_key", key(), nullable=False),
        sa.Column("phone", sa.Text, nullable=False),
        sa.Column("email", sa.Text, nullable=False),
        sa.Column("invented", sa.Boolean, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_owner"),
    )
    op.create_table(
        "yard",
        sa.Column("id", key(), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("name_key", key(), nullable=False),
        sa.Column("address", sa.Text, nullable=False),
        sa.Column("isolation", sa.Boolean, nullable=False),
        sa.Column("invented", sa.Boolean, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_yard"),
    )
    op.create_table(
        "horse",
        sa.Column("id", key(), nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("name_key", key(), nullable=False),
        sa.Column("owner_id", key(), nullable=False),
        sa.Column("yard_id", key(), nullable=False),
        sa.Column("breed", sa.Text, nullable=False),
        sa.Column("sex", sa.Text, nullable=False),
        sa.Column("born", sa.Integer),
        sa.Column("height_cm", sa.Double),
        sa.Column("work", sa.Text, nullable=False),
        sa.Column("notes", sa.Text, nullable=False),
        sa.Column("flags", sa.JSON, nullable=False),
        sa.Column("invented", sa.Boolean, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_horse"),
        sa.ForeignKeyConstraint(["owner_id"], ["owner.id"], name="fk_horse_owner_id"),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name="fk_horse_yard_id"),
    )
    op.create_index("ix_owner_name_key_id", "owner", ["name_key", "id"])
    op.create_index("ix_yard_name_key_id", "yard", ["name_key", "id"])
    op.create_index("ix_horse_name_key_id", "horse", ["name_key", "id"])
    op.create_index("ix_horse_owner_id", "horse", ["owner_id"])
    op.create_index("ix_horse_yard_id", "horse", ["yard_id"])


def visits() -> None:
    """Visits and their narrations."""
    op.create_table(
        "visit",
        sa.Column("id", key(), nullable=False),
        sa.Column("horse_id", key(), nullable=False),
        sa.Column("day", sa.Date, nullable=False),
        sa.Column("minutes", sa.Integer, nullable=False),
        sa.Column("status", sa.String, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("practitioner", sa.Text, nullable=False),
        sa.Column("notes", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_visit"),
        sa.ForeignKeyConstraint(["horse_id"], ["horse.id"], name="fk_visit_horse_id"),
    )
    op.create_table(
        "narration",
        sa.Column("seq", sa.Integer, sa.Identity(always=True), nullable=False),
        sa.Column("id", key(), nullable=False),
        sa.Column("visit_id", key(), nullable=False),
        sa.Column("file_name", sa.Text, nullable=False),
        sa.Column("format", sa.Text, nullable=False),
        sa.Column("content", sa.Text, nullable=False),
        sa.Column("added_at", time(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_narration"),
        sa.UniqueConstraint("id", name="uq_narration_id"),
        sa.ForeignKeyConstraint(["visit_id"], ["visit.id"], name="fk_narration_visit_id"),
    )
    op.create_index("ix_visit_horse_id_day", "visit", ["horse_id", "day"])
    op.create_index("ix_visit_status_day", "visit", ["status", "day"])
    op.create_index("ix_visit_day_id", "visit", ["day", "id"])
    op.create_index("ix_narration_visit_id_added_at_seq", "narration", ["visit_id", "added_at", "seq"])


def record() -> None:
    """Entries and questions."""
    op.create_table(
        "entry",
        sa.Column("id", key(), nullable=False),
        sa.Column("thread", key(), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("visit_id", key(), nullable=False),
        sa.Column("part", sa.String, nullable=False),
        sa.Column("body", sa.JSON, nullable=False),
        sa.Column("time_s", sa.Double, nullable=False),
        sa.Column("end_s", sa.Double, nullable=False),
        sa.Column("first_word", sa.Integer, nullable=False),
        sa.Column("last_word", sa.Integer, nullable=False),
        sa.Column("confidence", sa.Double, nullable=False),
        sa.Column("status", sa.String, nullable=False),
        sa.Column("source", sa.Text, nullable=False),
        sa.Column("reason", sa.Text, nullable=False),
        sa.Column("made_at", time(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_entry"),
        sa.UniqueConstraint("thread", "version", name="uq_entry_thread_version"),
        sa.CheckConstraint("version >= 1", name="ck_entry_version_from_1"),
        sa.ForeignKeyConstraint(["visit_id"], ["visit.id"], name="fk_entry_visit_id"),
    )
    op.create_table(
        "question",
        sa.Column("id", key(), nullable=False),
        sa.Column("visit_id", key(), nullable=False),
        sa.Column("thread", key(), nullable=False),
        sa.Column("field", sa.String),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("choices", sa.JSON, nullable=False),
        sa.Column("time_s", sa.Double, nullable=False),
        sa.Column("first_word", sa.Integer, nullable=False),
        sa.Column("last_word", sa.Integer, nullable=False),
        sa.Column("answer", sa.Text),
        sa.Column("answered_at", time()),
        sa.PrimaryKeyConstraint("id", name="pk_question"),
        sa.ForeignKeyConstraint(["visit_id"], ["visit.id"], name="fk_question_visit_id"),
    )
    op.create_index("ix_entry_visit_id_thread_version", "entry", ["visit_id", "thread", "version"])
    op.create_index("ix_question_visit_id_time_s", "question", ["visit_id", "time_s"])
    unanswered = sa.text("answer IS NULL")
    op.create_index("ix_question_open", "question", ["visit_id"], sqlite_where=unanswered, postgresql_where=unanswered)


def hold_on_sqlite(table: str) -> None:
    """Refuse to change or delete a row of the table."""
    for verb in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {table}_no_{verb.lower()} BEFORE {verb} ON {table} "
            f"BEGIN SELECT RAISE(ABORT, 'the table {table} is append-only'); END"
        )


def hold_on_postgresql(table: str) -> None:
    """Refuse to change, delete or empty rows of the table."""
    op.execute(
        f"CREATE FUNCTION {table}_append_only() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN RAISE EXCEPTION 'the table {table} is append-only' USING ERRCODE = 'restrict_violation'; END $$"
    )
    for verb, each in (("UPDATE", "ROW"), ("DELETE", "ROW"), ("TRUNCATE", "STATEMENT")):
        op.execute(
            f"CREATE TRIGGER {table}_no_{verb.lower()} BEFORE {verb} ON {table} "
            f"FOR EACH {each} EXECUTE FUNCTION {table}_append_only()"
        )
