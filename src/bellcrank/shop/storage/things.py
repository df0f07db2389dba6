"""Photos, torques known for a machine, settings and invoices, read and written."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, func, insert, select

from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.tables import event, invoice, machine_torque, photo, setting


@dataclass(frozen=True, slots=True)
class KeptPhoto:
    """A photo as kept; the picture itself lies in a file named by its hash."""

    id: int
    sha256: str
    width: int
    height: int
    file_name: str
    added_at: datetime


@dataclass(frozen=True, slots=True)
class KeptTorque:
    """A torque somebody typed for a fastener of one machine."""

    fastener: str
    torque_nm: float
    typed: str
    basis: str
    source: str


def add_photo_row(
    connection: Connection, job_id: int, sha256: str, size: tuple[int, int], file_name: str, now: datetime
) -> int:
    """Keep a photo's record and give its id."""
    row = insert(photo).values(
        job_id=job_id, sha256=sha256, width=size[0], height=size[1], file_name=file_name, words="", added_at=now
    )
    return add_row(connection, row)


def read_photos(connection: Connection, job_id: int) -> tuple[KeptPhoto, ...]:
    """Read the photos of a job."""
    rows = connection.execute(select(photo).where(photo.c.job_id == job_id).order_by(photo.c.id))
    return tuple(KeptPhoto(row.id, row.sha256, row.width, row.height, row.file_name, row.added_at) for row in rows)


def add_torque(connection: Connection, machine_id: int, event_id: int, kept: KeptTorque) -> None:
    """Keep a torque for a machine."""
    connection.execute(
        insert(machine_torque).values(
            machine_id=machine_id,
            event_id=event_id,
            fastener=kept.fastener,
            torque_nm=kept.torque_nm,
            typed=kept.typed,
            basis=kept.basis,
            source=kept.source,
        )
    )


def read_torques(connection: Connection, machine_id: int) -> Mapping[str, KeptTorque]:
    """Read the newest torque of each fastener of a machine that was not taken back."""
    rows = connection.execute(
        select(machine_torque)
        .join(event)
        .where(machine_torque.c.machine_id == machine_id, event.c.taken_back_at.is_(None))
        .order_by(machine_torque.c.id)
    )
    return {row.fastener: KeptTorque(row.fastener, row.torque_nm, row.typed, row.basis, row.source) for row in rows}


def read_setting_rows(connection: Connection) -> Mapping[str, str]:
    """Read all settings."""
    return {row.key: row.value for row in connection.execute(select(setting.c.key, setting.c.value))}


def write_setting_rows(connection: Connection, values: Mapping[str, str]) -> None:
    """Write settings anew."""
    connection.execute(setting.delete().where(setting.c.key.in_(tuple(values))))
    connection.execute(insert(setting), [{"key": key, "value": value} for key, value in values.items()])


def add_invoice(connection: Connection, job_id: int, now: datetime, currency: str, total_minor: int) -> str:
    """Keep an invoice under the next number of its year, by the shop's own calendar, and give that number."""
    year = now.astimezone().year
    highest = connection.execute(select(func.max(invoice.c.running)).where(invoice.c.year == year)).scalar_one()
    running = (highest or 0) + 1
    connection.execute(
        insert(invoice).values(
            job_id=job_id, year=year, running=running, issued_at=now, currency=currency, total_minor=total_minor
        )
    )
    return f"{year}-{running:04d}"
