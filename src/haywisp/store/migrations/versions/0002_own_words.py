"""The practitioner's own words, and those that each narration was understood with."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """A table for own words; narrations that were read before were understood without any."""
    key = sa.String().with_variant(sa.String(collation="C"), "postgresql")
    op.create_table(
        "own_word",
        sa.Column("id", key, nullable=False),
        sa.Column("kind", sa.String, nullable=False),
        sa.Column("phrase", sa.Text, nullable=False),
        sa.Column("key", key, nullable=False),
        sa.Column("meaning", sa.String, nullable=False),
        sa.Column("misheard", sa.Boolean, nullable=False),
        sa.Column("added_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_own_word"),
        sa.UniqueConstraint("key", name="uq_own_word_key"),
    )
    op.add_column("narration", sa.Column("own_words", sa.JSON, nullable=False, server_default="[]"))
