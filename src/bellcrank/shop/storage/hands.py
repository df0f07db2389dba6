"""Readings of bolts somebody tightened by feel, read and written; taken back, never deleted."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, insert, select, update

from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.tables import hand_reading


@dataclass(frozen=True, slots=True)
class NewReading:
    """A reading to be kept."""

    person: str
    thread: str  # "M6×1"
    torque_nm: float
    typed: str
    wrench: str


@dataclass(frozen=True, slots=True)
class KeptReading:
    """A reading as kept."""

    id: int
    person: str
    thread: str
    torque_nm: float
    typed: str
    wrench: str
    read_at: datetime
    taken_back_at: datetime | None
    taken_back_by: str

    @property
    def stands(self) -> bool:
        """Whether it was not taken back."""
        return self.taken_back_at is None


def add_hand_readings(connection: Connection, readings: Iterable[NewReading], now: datetime) -> tuple[int, ...]:
    """Keep readings and give their ids."""
    return tuple(
        add_row(
            connection,
            insert(hand_reading).values(
                person=one.person,
                thread=one.thread,
                torque_nm=one.torque_nm,
                typed=one.typed,
                wrench=one.wrench,
                read_at=now,
                taken_back_by="",
            ),
        )
        for one in readings
    )


def read_hand_readings(connection: Connection, person: str) -> tuple[KeptReading, ...]:
    """Read all readings of a person in the order they were taken, the ones taken back too."""
    rows = connection.execute(select(hand_reading).where(hand_reading.c.person == person).order_by(hand_reading.c.id))
    return tuple(
        KeptReading(
            id=row.id,
            person=row.person,
            thread=row.thread,
            torque_nm=row.torque_nm,
            typed=row.typed,
            wrench=row.wrench,
            read_at=row.read_at,
            taken_back_at=row.taken_back_at,
            taken_back_by=row.taken_back_by,
        )
        for row in rows
    )


def read_people(connection: Connection) -> tuple[str, ...]:
    """Read whose readings there are, in the order they came."""
    rows = connection.execute(select(hand_reading.c.person).order_by(hand_reading.c.id))
    return tuple(dict.fromkeys(row.person for row in rows))


def mark_reading_taken_back(connection: Connection, reading_id: int, *, by: str, now: datetime) -> None:
    """Mark a reading as taken back."""
    connection.execute(
        update(hand_reading).where(hand_reading.c.id == reading_id).values(taken_back_at=now, taken_back_by=by)
    )
