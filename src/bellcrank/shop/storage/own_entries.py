"""Causes and checks the shop added to a pack, read and written; taken back, never deleted."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select, update

from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.tables import job, own_entry
from bellcrank.shop.texts import clean_line


@dataclass(frozen=True, slots=True)
class NewEntry:
    """An entry to be kept."""

    kind: str  # of machine
    what: str  # cause, check
    name: str
    body: Mapping[str, Any]
    job_id: int
    by: str


@dataclass(frozen=True, slots=True)
class KeptEntry:
    """An entry as kept."""

    kind: str
    what: str
    name: str
    body: Mapping[str, Any]
    job_number: int  # where it came from
    made_at: datetime
    made_by: str
    taken_back_at: datetime | None
    taken_back_by: str

    @property
    def stands(self) -> bool:
        """Whether it was not taken back."""
        return self.taken_back_at is None


def add_own_entry(connection: Connection, entry: NewEntry, now: datetime) -> int:
    """Keep an entry and give its id."""
    row = insert(own_entry).values(
        kind=entry.kind,
        what=entry.what,
        name=entry.name,
        body=_as_text(entry.body),
        job_id=entry.job_id,
        made_at=now,
        made_by=clean_line(entry.by, "The name of who did it"),
        changed_at=now,
        taken_back_by="",
    )
    return add_row(connection, row)


def read_own_entries(connection: Connection, kind: str | None = None) -> tuple[KeptEntry, ...]:
    """Read the entries of a kind of machine, or all of them, in the order they were made."""
    asked = select(own_entry, job.c.number).join(job).order_by(own_entry.c.id)
    rows = connection.execute(asked if kind is None else asked.where(own_entry.c.kind == kind))
    return tuple(
        KeptEntry(
            kind=row.kind,
            what=row.what,
            name=row.name,
            body=json.loads(row.body),
            job_number=row.number,
            made_at=row.made_at,
            made_by=row.made_by,
            taken_back_at=row.taken_back_at,
            taken_back_by=row.taken_back_by,
        )
        for row in rows
    )


def change_own_entry(connection: Connection, kind: str, name: str, body: Mapping[str, Any], now: datetime) -> None:
    """Write an entry's body anew."""
    connection.execute(_named(kind, name).values(body=_as_text(body), changed_at=now))


def mark_own_entry_taken_back(connection: Connection, kind: str, name: str, *, by: str, now: datetime) -> None:
    """Mark an entry as taken back."""
    who = clean_line(by, "The name of who did it")
    connection.execute(_named(kind, name).values(taken_back_at=now, taken_back_by=who))


def _named(kind: str, name: str) -> Any:
    return update(own_entry).where(own_entry.c.kind == kind, own_entry.c.name == name)


def _as_text(body: Mapping[str, Any]) -> str:
    return json.dumps(body, ensure_ascii=False, sort_keys=True)
