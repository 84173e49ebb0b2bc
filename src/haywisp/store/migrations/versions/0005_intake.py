"""What is asked about a horse when it is taken on: its numbers, its vet, and what the owner told."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

TEXTS = ("ueln", "microchip", "vet", "tack", "teeth", "feet", "history", "medicines", "insurance")


def upgrade() -> None:
    """Of horses that were kept before nothing of it is known."""
    for name in TEXTS:
        op.add_column("horse", sa.Column(name, sa.Text, nullable=False, server_default=""))
