"""A job as its events tell it: replayed, it always gives the same state."""

from collections.abc import Iterator
from dataclasses import dataclass

from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.knowledge.model import Pack
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.events import KeptEvent, add_event, read_events
from bellcrank.shop.storage.jobs import KeptJob, read_job, write_state

ON_THE_BENCH = "on the bench"


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
                else Found(event.body["check"], event.body["result"])
                for event in self.standing("told", "found", "repaired")
            ),
        )


def read_record(shop: Shop, number: int) -> JobRecord:
    """Read a job with its events."""
    with shop.storage.reading() as connection:
        job = read_job(connection, number)
        return JobRecord(job, read_events(connection, job.id))


def pack_of(shop: Shop, job: KeptJob) -> Pack:
    """Give the pack of a job's kind of machine."""
    return shop.library.packs[job.machine.kind]


def record(shop: Shop, number: int, kind: str, body: dict[str, object], *, by: str, works: bool = False) -> int:
    """Append an event to a job; work on a machine puts it on the bench, also one that was called ready."""
    now = shop.now()
    with shop.storage.writing() as connection:
        job = read_job(connection, number)
        event_id = add_event(connection, job.id, kind, body, by=by, now=now)
        if works and job.state != ON_THE_BENCH:
            write_state(connection, job.id, ON_THE_BENCH, now)
    return event_id
