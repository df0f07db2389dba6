"""The tables of the shop's file: one list, written so that SQLite keeps to the types (STRICT).

Money is whole minor units (cents) beside a currency, times are UTC text that sorts, flags do not exist: a time
that is empty says "not yet".
"""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    CheckConstraint,
    Column,
    Connection,
    Dialect,
    Double,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    String,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
)
from sqlalchemy.types import REAL

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
LARGEST_ID = 2**31 - 1  # [-] what every database we may meet holds in an INTEGER
FORM = "0006"  # the form of the file these tables describe: the newest step in shop/storage/migrations
APPLICATION_ID = 0x42656C6C  # "Bell", written into the file's head so that it is known for ours


class UtcText(TypeDecorator[datetime]):
    """A moment, kept as text like 2026-03-01T09:30:00.000000Z."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """Write a moment as text; one without a time zone is refused."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment without a time zone cannot be kept")
        return value.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")

    def process_result_value(self, value: Any | None, dialect: Dialect) -> datetime | None:
        """Read the text back."""
        return None if value is None else datetime.fromisoformat(value)


metadata = MetaData(naming_convention=NAMING)


def _table(name: str, *columns: Any) -> Table:
    return Table(name, metadata, Column("id", Integer, primary_key=True), *columns, sqlite_strict=True)


def _text(name: str, *, empty: bool = True) -> Column[str]:
    return Column(name, Text, nullable=False, default="" if empty else None)


def _belongs_to(table: str, *, once: bool = False) -> Column[int]:
    return Column(f"{table}_id", Integer, ForeignKey(f"{table}.id"), nullable=False, index=not once)


def _moment(name: str, *, always: bool = True) -> Column[datetime]:
    return Column(name, UtcText, nullable=not always)


customer = _table("customer", _text("name"), _text("phone"), _text("email"), _text("address"), _moment("since"))

machine = _table(
    "machine",
    _belongs_to("customer"),
    _text("kind", empty=False),
    _text("maker"),
    _text("model"),
    _text("serial"),
    _text("engine_card"),
    _moment("since"),
)

job = _table(
    "job",
    Column("number", Integer, nullable=False),
    _belongs_to("machine"),
    _text("complaint_words"),
    _text("state", empty=False),
    _moment("taken_in_at"),
    _moment("changed_at"),
    UniqueConstraint("number"),
    CheckConstraint(f"number between 1 and {LARGEST_ID}", name="number"),
    Index("ix_job_state_number", "state", "number"),
)

event = _table(
    "event",
    _belongs_to("job"),
    _moment("at"),
    _text("by"),
    _text("kind", empty=False),
    _text("body", empty=False),  # JSON
    _moment("taken_back_at", always=False),
    _text("taken_back_by"),
    CheckConstraint("json_valid(body)", name="body"),
)

photo = _table(
    "photo",
    _belongs_to("job"),
    _text("sha256", empty=False),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    _text("file_name"),
    _text("words"),
    _moment("added_at"),
    CheckConstraint("length(sha256) = 64", name="sha256"),
)

machine_torque = _table(
    "machine_torque",
    _belongs_to("machine"),
    _belongs_to("event"),
    _text("fastener", empty=False),
    Column("torque_nm", Double().with_variant(REAL(), "sqlite"), nullable=False),
    _text("typed", empty=False),
    _text("basis", empty=False),
    _text("source"),
    CheckConstraint("torque_nm > 0", name="torque"),
)

invoice = _table(
    "invoice",
    _belongs_to("job", once=True),
    Column("year", Integer, nullable=False),
    Column("running", Integer, nullable=False),
    _moment("issued_at"),
    _text("currency", empty=False),
    Column("total_minor", Integer, nullable=False),
    UniqueConstraint("job_id"),
    UniqueConstraint("year", "running"),
    CheckConstraint("total_minor >= 0", name="total"),
)

hand_reading = _table(
    "hand_reading",
    _text("person", empty=False),
    _text("thread", empty=False),
    Column("torque_nm", Double().with_variant(REAL(), "sqlite"), nullable=False),
    _text("typed", empty=False),
    _text("wrench"),
    _moment("read_at"),
    _moment("taken_back_at", always=False),
    _text("taken_back_by"),
    CheckConstraint("torque_nm > 0", name="torque"),
    CheckConstraint("person <> ''", name="person"),
    Index("ix_hand_reading_person_thread", "person", "thread"),
)

lesson = _table(  # what a closed job taught; read anew when the job changed, left alone while it is open again
    "lesson",
    _belongs_to("job", once=True),
    _text("kind", empty=False),
    _moment("closed_at"),  # when the job last changed its state: another moment there, and the lesson is old
    _text("mark", empty=False),  # of the events and the pack it was read from
    Column("turn", Integer, nullable=False),  # rises with each writing
    _text("counts", empty=False),  # JSON
    _text("said"),  # JSON: the case told again by the pack's own numbers; "" when its cure is not known
    Column("surprise", Double().with_variant(REAL(), "sqlite")),
    _text("learnt_mark"),  # of all that was learnt before
    _text("learnt_said"),  # JSON: told again by what had been learnt before; "" when not told
    Column("learnt_surprise", Double().with_variant(REAL(), "sqlite")),
    UniqueConstraint("job_id"),
    CheckConstraint("json_valid(counts)", name="counts"),
    Index("ix_lesson_kind", "kind"),
)

imported_counts = _table(
    "imported_counts",
    _text("kind", empty=False),
    _text("sha256", empty=False),  # of what is in it, however it was written
    _text("file_name"),
    _text("years", empty=False),  # JSON
    _moment("imported_at"),
    _text("by"),
    _moment("taken_back_at", always=False),
    _text("taken_back_by"),
    CheckConstraint("length(sha256) = 64", name="sha256"),
    CheckConstraint("json_valid(years)", name="years"),
    Index("ix_imported_counts_kind", "kind"),
)

own_entry = _table(
    "own_entry",
    _text("kind", empty=False),  # of machine
    _text("what", empty=False),
    _text("name", empty=False),
    _text("body", empty=False),  # JSON
    Column("job_id", Integer, ForeignKey("job.id"), nullable=False, index=True),
    _moment("made_at"),
    _text("made_by"),
    _moment("changed_at"),
    _moment("taken_back_at", always=False),
    _text("taken_back_by"),
    CheckConstraint("what in ('cause', 'check')", name="what"),
    CheckConstraint("json_valid(body)", name="body"),
    UniqueConstraint("kind", "name"),
)

own_model = _table(  # what the shop keeps of how machines of a kind come apart; it stands as long as its event does
    "own_model",
    _text("kind", empty=False),  # of machine
    _text("maker"),  # with the model: only machines of that maker and model; "" for all of the kind
    _text("model"),
    _text("what", empty=False),
    _text("words", empty=False),
    _text("body", empty=False),  # JSON
    _belongs_to("event", once=True),
    _moment("taken_back_at", always=False),
    _text("taken_back_by"),
    CheckConstraint("what in ('captured', 'recorded')", name="what"),
    CheckConstraint("json_valid(body)", name="body"),
    UniqueConstraint("event_id"),
    Index("ix_own_model_kind", "kind"),
)

tap = _table("tap", _text("key", empty=False), _moment("kept_at"), UniqueConstraint("key"))

setting = _table("setting", _text("key", empty=False), _text("value"), UniqueConstraint("key"))

# Alembic's own table, as Alembic makes it; apart from the shop's tables so that it is never compared with them.
form_of_file = Table(
    "alembic_version",
    MetaData(),
    Column("version_num", String(32), nullable=False),
    PrimaryKeyConstraint("version_num", name="alembic_version_pkc"),
)


def write_form(connection: Connection, form: str) -> None:
    """Write into the file which form it has now."""
    form_of_file.create(connection, checkfirst=True)
    connection.execute(form_of_file.delete())
    connection.execute(form_of_file.insert().values(version_num=form))
    connection.exec_driver_sql(f"PRAGMA application_id={APPLICATION_ID}")
