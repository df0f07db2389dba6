"""What the shop keeps of how machines of a kind come apart."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Make the table of own models."""
    op.create_table(
        "own_model",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("model", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("event_id", sa.Integer(), nullable=False),
        sa.Column("taken_back_at", sa.Text(), nullable=True),
        sa.Column("taken_back_by", sa.Text(), nullable=False),
        sa.CheckConstraint("what in ('captured', 'recorded')", name=op.f("ck_own_model_what")),
        sa.CheckConstraint("json_valid(body)", name=op.f("ck_own_model_body")),
        sa.ForeignKeyConstraint(["event_id"], ["event.id"], name=op.f("fk_own_model_event_id_event")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_own_model")),
        sa.UniqueConstraint("event_id", name=op.f("uq_own_model_event_id")),
        sqlite_strict=True,
    )
    op.create_index("ix_own_model_kind", "own_model", ["kind"], unique=False)
