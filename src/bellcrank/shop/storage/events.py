"""The events of a job: appended, never changed but for being taken back."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select, update

from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.tables import event


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

    @property
    def stands(self) -> bool:
        """Whether it was not taken back."""
        return self.taken_back_at is None


def add_event(
    connection: Connection, job_id: int, kind: str, body: Mapping[str, Any], *, by: str, now: datetime
) -> int:
    """Append an event and give its id."""
    text = json.dumps(body, ensure_ascii=False, sort_keys=True)
    row = insert(event).values(job_id=job_id, at=now, by=by, kind=kind, body=text, taken_back_by="")
    return add_row(connection, row)


def read_events(connection: Connection, *job_ids: int) -> tuple[KeptEvent, ...]:
    """Read all events of some jobs in the order they happened."""
    rows = connection.execute(select(event).where(event.c.job_id.in_(job_ids)).order_by(event.c.id))
    return tuple(
        KeptEvent(row.id, row.job_id, row.kind, json.loads(row.body), row.at, row.by, row.taken_back_at) for row in rows
    )


def mark_taken_back(connection: Connection, event_id: int, *, by: str, now: datetime) -> None:
    """Mark an event as taken back."""
    connection.execute(update(event).where(event.c.id == event_id).values(taken_back_at=now, taken_back_by=by))
