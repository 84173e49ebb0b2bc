"""The sound of visits: what is known of each recording, and how far it has been heard."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """A table for recordings; there were none before."""
    key = sa.String().with_variant(sa.String(collation="C"), "postgresql")
    time = sa.DateTime(timezone=True)
    op.create_table(
        "recording",
        sa.Column("id", key, nullable=False),
        sa.Column("visit_id", key, nullable=False),
        sa.Column("began_at", time, nullable=False),
        sa.Column("file_name", sa.Text, nullable=False),
        sa.Column("form", sa.String, nullable=False),
        sa.Column("state", sa.String, nullable=False),
        sa.Column("seconds", sa.Double, nullable=False),
        sa.Column("size_bytes", sa.Integer, nullable=False),
        sa.Column("sha256", sa.String, nullable=False),
        sa.Column("attempt", sa.Integer, nullable=False),
        sa.Column("parts", sa.Integer, nullable=False),
        sa.Column("done", sa.Integer, nullable=False),
        sa.Column("done_before", sa.Integer, nullable=False),
        sa.Column("heard_from", time),
        sa.Column("sentence", sa.Text, nullable=False),
        sa.Column("passages", sa.JSON, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_recording"),
        sa.ForeignKeyConstraint(["visit_id"], ["visit.id"], name="fk_recording_visit_id"),
    )
    op.create_index("ix_recording_visit_id_began_at", "recording", ["visit_id", "began_at"])
    op.create_index("ix_recording_state_began_at", "recording", ["state", "began_at"])
