"""The events of a job: appended, never changed but for being taken back."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, insert, select, update

from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.tables import event
from bellcrank.shop.texts import clean_line


@dataclass(frozen=True, slots=True)
class KeptEvent:
    """An event as kept."""

    id: int
    job_id: int
    kind: str
    body: Mapping[str, Any]
    at: datetime
    by: str
    taken_back_at: datetime | None
    taken_back_by: str

    @property
    def stands(self) -> bool:
        """Whether it was not taken back."""
        return self.taken_back_at is None


def targets_of(body: Mapping[str, Any]) -> tuple[str, ...]:
    """Give the parts a planned way leads to; a way planned before there could be several names one."""
    return tuple(body["targets"]) if "targets" in body else (body["target"],)


def add_event(
    connection: Connection, job_id: int, kind: str, body: Mapping[str, Any], *, by: str, now: datetime
) -> int:
    """Append an event and give its id."""
    who = clean_line(by, "The name of who did it")
    row = insert(event).values(job_id=job_id, at=now, by=who, kind=kind, body=_as_text(body), taken_back_by="")
    return add_row(connection, row)


def read_events(connection: Connection, *job_ids: int) -> tuple[KeptEvent, ...]:
    """Read all events of some jobs in the order they happened."""
    return kept_events(connection.execute(select(event).where(event.c.job_id.in_(job_ids)).order_by(event.c.id)))


def kept_events(rows: Iterable[Row[Any]]) -> tuple[KeptEvent, ...]:
    """Make events of rows of their table."""
    return tuple(
        KeptEvent(
            id=row.id,
            job_id=row.job_id,
            kind=row.kind,
            body=json.loads(row.body),
            at=row.at,
            by=row.by,
            taken_back_at=row.taken_back_at,
            taken_back_by=row.taken_back_by,
        )
        for row in rows
    )


def same_as_last(connection: Connection, job_id: int, kind: str, body: Mapping[str, Any]) -> int | None:
    """Give the id of the last event of a job that stands when it says the very same, else None."""
    stands = (event.c.job_id == job_id) & event.c.taken_back_at.is_(None)
    row = connection.execute(select(event).where(stands).order_by(event.c.id.desc()).limit(1)).first()
    return row.id if row is not None and (row.kind, row.body) == (kind, _as_text(body)) else None


def mark_taken_back(connection: Connection, event_id: int, *, by: str, now: datetime) -> None:
    """Mark an event as taken back."""
    who = clean_line(by, "The name of who did it")
    connection.execute(update(event).where(event.c.id == event_id).values(taken_back_at=now, taken_back_by=who))


def _as_text(body: Mapping[str, Any]) -> str:
    return json.dumps(body, ensure_ascii=False, sort_keys=True)
