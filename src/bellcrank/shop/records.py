"""A job as its events tell it: replayed, it always gives the same state."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.errors import NotAllowedNow
from bellcrank.knowledge.model import Pack
from bellcrank.shop.packs import pack_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.engine import OpenFile
from bellcrank.shop.storage.events import KeptEvent, add_event, read_events, same_as_last
from bellcrank.shop.storage.jobs import CLOSED, KeptJob, read_job, write_state

WAITING, ON_THE_BENCH = "waiting", "on the bench"
READY, READY_WITH_NOTES = "ready", "ready with notes"
NOT_READY, GONE = CLOSED
LESSON = "lesson"  # which cause it was, how long the repair took: known also when the machine is gone
CAPTURED, RECORDED, MODELLED = "captured", "recorded", "modelled"  # found at a step; a step recorded; kept as a model
WORK = frozenset(
    {"found", "repaired", "step", "torque", "proof", CAPTURED, RECORDED}
)  # what puts a machine on the bench
TAPPED = frozenset(
    {"complaint", "found", "repaired", "target", "step", "proof", "reckoned", CAPTURED, MODELLED, LESSON}
)  # tapped twice, it is meant once


@dataclass(frozen=True, slots=True)
class JobRecord:
    """A job with all that happened on it."""

    job: KeptJob
    events: tuple[KeptEvent, ...]

    def standing(self, *kinds: str) -> Iterator[KeptEvent]:
        """Give the events of some kinds that were not taken back, in order."""
        return (event for event in self.events if event.stands and event.kind in kinds)

    @property
    def complaints(self) -> tuple[str, ...]:
        """What the machine came in with."""
        return tuple(dict.fromkeys(event.body["complaint"] for event in self.standing("complaint")))

    @property
    def case(self) -> Case:
        """What diagnosis is told."""
        return Case(
            self.complaints,
            tuple(
                Repaired(event.body["repair"], event.body["outcome"])
                if event.kind == "repaired"
                else Found(
                    event.body["check"],
                    event.body["result"],
                    event.body.get("unsure", False),
                    tuple(event.body.get("fits", ())),
                )
                for event in self.standing("told", "found", "repaired")
            ),
        )

    @property
    def names_used(self) -> frozenset[str]:
        """Checks and repairs its case names."""
        return frozenset(one.repair if isinstance(one, Repaired) else one.check for one in self.case.events)


def state_after(events: Iterable[KeptEvent]) -> str:
    """Give the state of a job after some events: work puts it on the bench, also one that was called ready."""
    state = WAITING
    for event in events:
        if event.stands and event.kind in WORK:
            state = ON_THE_BENCH
        elif event.stands and event.kind == "state":
            state = event.body["state"]
    return state


def state_body(state: str, reason: str = "", still_open: Iterable[str] = ()) -> dict[str, object]:
    """Give the body of an event that says which state the job came into, why, and what was open then."""
    return {"state": state, "reason": reason, "open": list(still_open)}


def read_record(shop: Shop, number: int) -> JobRecord:
    """Read a job with its events."""
    with shop.storage.reading() as connection:
        return record_in(connection, number)


def record_in(connection: OpenFile, number: int) -> JobRecord:
    """Read a job with its events where a transaction is open: what is decided by it is written before anybody else."""
    job = read_job(connection, number)
    return JobRecord(job, read_events(connection, job.id))


def pack_of(shop: Shop, job: KeptJob) -> Pack:
    """Give the pack of a job's kind of machine."""
    return pack_now(shop, job.machine.kind)


def record(shop: Shop, number: int, kind: str, body: dict[str, object], *, by: str) -> int:
    """Append an event to a job and give its id; the same tapped twice is kept once."""
    now = shop.now()
    with shop.storage.writing() as connection:
        return append(connection, read_job(connection, number), kind, body, by=by, now=now)


def append(connection: OpenFile, job: KeptJob, kind: str, body: dict[str, object], *, by: str, now: datetime) -> int:
    """Append an event where a transaction is open, for what is kept together with more."""
    if kind in WORK:
        refuse_when_gone(job)
    again = same_as_last(connection, job.id, kind, body) if kind in TAPPED else None
    if again is not None:
        return again
    event_id = add_event(connection, job.id, kind, body, by=by, now=now)
    if kind in WORK and job.state != ON_THE_BENCH:
        write_state(connection, job.id, ON_THE_BENCH, now)
    return event_id


def refuse_when_gone(job: KeptJob) -> None:
    """Refuse work on a machine that has left the shop."""
    if job.state == GONE:
        raise NotAllowedNow(
            f"The machine of job {job.number} has left the shop. Take it in again as a new job; if it never left, take "
            "that back first."
        )
