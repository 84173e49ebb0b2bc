"""What was heard and not written down, kept with the question that asks about it."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Questions that were asked before offered nothing."""
    op.add_column("question", sa.Column("offer", sa.JSON(none_as_null=True)))
