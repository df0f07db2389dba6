"""What closed jobs taught, and counts from other shops."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the tables of lessons and imported counts."""
    op.create_table(
        "lesson",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("closed_at", sa.Text(), nullable=False),
        sa.Column("mark", sa.Text(), nullable=False),
        sa.Column("turn", sa.Integer(), nullable=False),
        sa.Column("counts", sa.Text(), nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("surprise", sa.Double().with_variant(sa.REAL(), "sqlite"), nullable=True),
        sa.Column("learnt_mark", sa.Text(), nullable=False),
        sa.Column("learnt_said", sa.Text(), nullable=False),
        sa.Column("learnt_surprise", sa.Double().with_variant(sa.REAL(), "sqlite"), nullable=True),
        sa.CheckConstraint("json_valid(counts)", name=op.f("ck_lesson_counts")),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name=op.f("fk_lesson_job_id_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lesson")),
        sa.UniqueConstraint("job_id", name=op.f("uq_lesson_job_id")),
        sqlite_strict=True,
    )
    op.create_index("ix_lesson_kind", "lesson", ["kind"], unique=False)
    op.create_table(
        "imported_counts",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("file_name", sa.Text(), nullable=False),
        sa.Column("years", sa.Text(), nullable=False),
        sa.Column("imported_at", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("taken_back_at", sa.Text(), nullable=True),
        sa.Column("taken_back_by", sa.Text(), nullable=False),
        sa.CheckConstraint("length(sha256) = 64", name=op.f("ck_imported_counts_sha256")),
        sa.CheckConstraint("json_valid(years)", name=op.f("ck_imported_counts_years")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_imported_counts")),
        sqlite_strict=True,
    )
    op.create_index("ix_imported_counts_kind", "imported_counts", ["kind"], unique=False)
