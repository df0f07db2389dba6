"""Readings of bolts somebody tightened by feel."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the table of hand readings."""
    op.create_table(
        "hand_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("thread", sa.Text(), nullable=False),
        sa.Column("torque_nm", sa.Double().with_variant(sa.REAL(), "sqlite"), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("wrench", sa.Text(), nullable=False),
        sa.Column("read_at", sa.Text(), nullable=False),
        sa.Column("taken_back_at", sa.Text(), nullable=True),
        sa.Column("taken_back_by", sa.Text(), nullable=False),
        sa.CheckConstraint("torque_nm > 0", name=op.f("ck_hand_reading_torque")),
        sa.CheckConstraint("person <> ''", name=op.f("ck_hand_reading_person")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_hand_reading")),
        sqlite_strict=True,
    )
    op.create_index("ix_hand_reading_person_thread", "hand_reading", ["person", "thread"], unique=False)
