"""Keys of taps that were kept, so that one sent twice counts once."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the table of taps."""
    op.create_table(
        "tap",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("kept_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tap")),
        sa.UniqueConstraint("key", name=op.f("uq_tap_key")),
        sqlite_strict=True,
    )
