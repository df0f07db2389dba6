"""What is kept of how machines come apart: for every machine like one, and what was found on one machine before."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, func, insert, select, update

from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.events import KeptEvent, kept_events
from bellcrank.shop.storage.jobs import KeptMachine
from bellcrank.shop.storage.tables import event, job, machine, own_model
from bellcrank.shop.texts import clean_line


@dataclass(frozen=True, slots=True)
class LikeThis:
    """Which machines something is kept for."""

    kind: str
    maker: str  # both "" for every machine of the kind
    model: str

    @property
    def of_all(self) -> bool:
        """Whether it is every machine of the kind."""
        return not self.maker and not self.model


@dataclass(frozen=True, slots=True)
class KeptModel:
    """Something kept for every machine like one."""

    id: int
    like: LikeThis
    what: str  # captured, recorded
    words: str
    body: Mapping[str, Any]
    event_id: int
    job_number: int  # where it came from
    made_at: datetime
    made_by: str
    taken_back_at: datetime | None  # here, or with its event on the job
    taken_back_by: str

    @property
    def stands(self) -> bool:
        """Whether it was not taken back."""
        return self.taken_back_at is None


def add_own_model(
    connection: Connection, like: LikeThis, event_id: int, what: str, words: str, body: Mapping[str, Any]
) -> int:
    """Keep something of an event for every machine like this and give its id."""
    row = insert(own_model).values(
        kind=like.kind,
        maker=like.maker,
        model=like.model,
        what=what,
        words=words,
        body=json.dumps(body, ensure_ascii=False),  # in the order of the work
        event_id=event_id,
        taken_back_by="",
    )
    return add_row(connection, row)


def read_own_models(connection: Connection, kind: str | None = None) -> tuple[KeptModel, ...]:
    """Read what is kept of a kind of machine, or all of it, in the order it was made."""
    asked = (
        select(
            own_model,
            job.c.number,
            event.c.at,
            event.c.by,
            event.c.taken_back_at.label("event_taken_back_at"),
            event.c.taken_back_by.label("event_taken_back_by"),
        )
        .select_from(own_model.join(event).join(job))
        .order_by(own_model.c.id)
    )
    rows = connection.execute(asked if kind is None else asked.where(own_model.c.kind == kind))
    return tuple(
        KeptModel(
            id=row.id,
            like=LikeThis(row.kind, row.maker, row.model),
            what=row.what,
            words=row.words,
            body=json.loads(row.body),
            event_id=row.event_id,
            job_number=row.number,
            made_at=row.at,
            made_by=row.by,
            taken_back_at=row.taken_back_at or row.event_taken_back_at,
            taken_back_by=row.taken_back_by if row.taken_back_at else row.event_taken_back_by,
        )
        for row in rows
    )


def mark_own_model_taken_back(connection: Connection, model_id: int, *, by: str, now: datetime) -> None:
    """Mark what is kept as taken back; what was found on the one machine stays."""
    who = clean_line(by, "The name of who did it")
    connection.execute(update(own_model).where(own_model.c.id == model_id).values(taken_back_at=now, taken_back_by=who))


def read_events_of_machine(connection: Connection, one: KeptMachine, kind: str) -> tuple[KeptEvent, ...]:
    """Read the events of a kind of all jobs of a machine: one that comes in again is known by its serial number."""
    same = machine.c.id == one.id
    if one.serial:
        alike = (machine.c.kind == one.kind) & (func.lower(machine.c.serial) == func.lower(one.serial))
        same |= alike & (func.lower(machine.c.maker) == func.lower(one.maker))
    of_it = select(event).select_from(event.join(job).join(machine)).where(same, event.c.kind == kind)
    return kept_events(connection.execute(of_it.order_by(event.c.id)))
