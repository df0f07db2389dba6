"""Causes and checks the shop added to a pack."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the table of own entries."""
    op.create_table(
        "own_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.Text(), nullable=False),
        sa.Column("made_by", sa.Text(), nullable=False),
        sa.Column("changed_at", sa.Text(), nullable=False),
        sa.Column("taken_back_at", sa.Text(), nullable=True),
        sa.Column("taken_back_by", sa.Text(), nullable=False),
        sa.CheckConstraint("what in ('cause', 'check')", name=op.f("ck_own_entry_what")),
        sa.CheckConstraint("json_valid(body)", name=op.f("ck_own_entry_body")),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name=op.f("fk_own_entry_job_id_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_own_entry")),
        sa.UniqueConstraint("kind", "name", name=op.f("uq_own_entry_kind_name")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_own_entry_job_id"), "own_entry", ["job_id"], unique=False)
