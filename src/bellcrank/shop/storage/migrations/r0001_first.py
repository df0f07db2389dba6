"""The first form of the shop's file."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make every table of the first form."""
    _customer()
    _machine()
    _job()
    _event()
    _photo()
    _machine_torque()
    _invoice()
    _setting()


def _customer() -> None:
    op.create_table(
        "customer",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("phone", sa.Text(), nullable=False),
        sa.Column("email", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("since", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_customer")),
        sqlite_strict=True,
    )


def _machine() -> None:
    op.create_table(
        "machine",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("model", sa.Text(), nullable=False),
        sa.Column("serial", sa.Text(), nullable=False),
        sa.Column("engine_card", sa.Text(), nullable=False),
        sa.Column("since", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["customer_id"], ["customer.id"], name=op.f("fk_machine_customer_id_customer")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_machine")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_machine_customer_id"), "machine", ["customer_id"], unique=False)


def _job() -> None:
    op.create_table(
        "job",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("complaint_words", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("taken_in_at", sa.Text(), nullable=False),
        sa.Column("changed_at", sa.Text(), nullable=False),
        sa.CheckConstraint("number between 1 and 2147483647", name=op.f("ck_job_number")),
        sa.ForeignKeyConstraint(["machine_id"], ["machine.id"], name=op.f("fk_job_machine_id_machine")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_job")),
        sa.UniqueConstraint("number", name=op.f("uq_job_number")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_job_machine_id"), "job", ["machine_id"], unique=False)
    op.create_index("ix_job_state_number", "job", ["state", "number"], unique=False)


def _event() -> None:
    op.create_table(
        "event",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("taken_back_at", sa.Text(), nullable=True),
        sa.Column("taken_back_by", sa.Text(), nullable=False),
        sa.CheckConstraint("json_valid(body)", name=op.f("ck_event_body")),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name=op.f("fk_event_job_id_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_event")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_event_job_id"), "event", ["job_id"], unique=False)


def _photo() -> None:
    op.create_table(
        "photo",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("file_name", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("added_at", sa.Text(), nullable=False),
        sa.CheckConstraint("length(sha256) = 64", name=op.f("ck_photo_sha256")),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name=op.f("fk_photo_job_id_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_photo")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_photo_job_id"), "photo", ["job_id"], unique=False)


def _machine_torque() -> None:
    op.create_table(
        "machine_torque",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("event_id", sa.Integer(), nullable=False),
        sa.Column("fastener", sa.Text(), nullable=False),
        sa.Column("torque_nm", sa.Double().with_variant(sa.REAL(), "sqlite"), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("basis", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.CheckConstraint("torque_nm > 0", name=op.f("ck_machine_torque_torque")),
        sa.ForeignKeyConstraint(["event_id"], ["event.id"], name=op.f("fk_machine_torque_event_id_event")),
        sa.ForeignKeyConstraint(["machine_id"], ["machine.id"], name=op.f("fk_machine_torque_machine_id_machine")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_machine_torque")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_machine_torque_event_id"), "machine_torque", ["event_id"], unique=False)
    op.create_index(op.f("ix_machine_torque_machine_id"), "machine_torque", ["machine_id"], unique=False)


def _invoice() -> None:
    op.create_table(
        "invoice",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("running", sa.Integer(), nullable=False),
        sa.Column("issued_at", sa.Text(), nullable=False),
        sa.Column("currency", sa.Text(), nullable=False),
        sa.Column("total_minor", sa.Integer(), nullable=False),
        sa.CheckConstraint("total_minor >= 0", name=op.f("ck_invoice_total")),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name=op.f("fk_invoice_job_id_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_invoice")),
        sa.UniqueConstraint("job_id", name=op.f("uq_invoice_job_id")),
        sa.UniqueConstraint("year", "running", name=op.f("uq_invoice_year_running")),
        sqlite_strict=True,
    )


def _setting() -> None:
    op.create_table(
        "setting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_setting")),
        sa.UniqueConstraint("key", name=op.f("uq_setting_key")),
        sqlite_strict=True,
    )
