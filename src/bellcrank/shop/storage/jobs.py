"""Jobs with their machine and customer, read and written."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, desc, func, insert, or_, select, update

from bellcrank.errors import NotFound
from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.tables import LARGEST_ID, customer, invoice, job, machine

FIRST_NUMBER = 201
CLOSED = ("returned not ready", "gone")  # states of a job whose machine has left the shop
GONE_SHOWN = 20  # [-] jobs that have left the shop, shown on the bench


@dataclass(frozen=True, slots=True)
class Owner:
    """A customer as kept."""

    name: str
    phone: str
    email: str
    address: str


@dataclass(frozen=True, slots=True)
class KeptMachine:
    """A machine as kept."""

    id: int
    kind: str
    maker: str
    model: str
    serial: str
    engine_card: str


@dataclass(frozen=True, slots=True)
class KeptJob:
    """A job as kept, with machine and customer."""

    id: int
    number: int
    complaint_words: str
    state: str
    taken_in_at: datetime
    changed_at: datetime
    owner: Owner
    machine: KeptMachine
    invoice_number: str


_COLUMNS = (
    job.c.id,
    job.c.number,
    job.c.complaint_words,
    job.c.state,
    job.c.taken_in_at,
    job.c.changed_at,
    customer.c.name,
    customer.c.phone,
    customer.c.email,
    customer.c.address,
    machine.c.id.label("machine_id"),
    machine.c.kind,
    machine.c.maker,
    machine.c.model,
    machine.c.serial,
    machine.c.engine_card,
    invoice.c.year,
    invoice.c.running,
)
_JOINED = job.join(machine).join(customer).outerjoin(invoice, invoice.c.job_id == job.c.id)


def add_job(
    connection: Connection,
    owner: Owner,
    kept: KeptMachine,
    complaint_words: str,
    state: str,
    now: datetime,
    number: int | None = None,
) -> tuple[int, int]:
    """Add a customer, a machine and a job; give the job's id and number, the next one when none is told."""
    who = insert(customer).values(
        name=owner.name, phone=owner.phone, email=owner.email, address=owner.address, since=now
    )
    what = insert(machine).values(
        customer_id=add_row(connection, who),
        kind=kept.kind,
        maker=kept.maker,
        model=kept.model,
        serial=kept.serial,
        engine_card=kept.engine_card,
        since=now,
    )
    machine_id = add_row(connection, what)
    highest = connection.execute(select(func.max(job.c.number))).scalar_one()
    if number is None:
        number = FIRST_NUMBER if highest is None else int(highest) + 1
    work = insert(job).values(
        number=number,
        machine_id=machine_id,
        complaint_words=complaint_words,
        state=state,
        taken_in_at=now,
        changed_at=now,
    )
    return add_row(connection, work), number


def read_job(connection: Connection, number: int) -> KeptJob:
    """Read a job by its number, or refuse with the numbers there are."""
    wanted = select(*_COLUMNS).select_from(_JOINED).where(job.c.number == number)
    row = connection.execute(wanted).first() if 0 < number <= LARGEST_ID else None
    if row is None:
        low, high = connection.execute(select(func.min(job.c.number), func.max(job.c.number))).one()
        there = "There is no job yet" if low is None else f"The jobs are {low} to {high}"
        raise NotFound(f"There is no job {number}. {there}; pick one from the bench.")
    return _kept(row)


def read_jobs(connection: Connection, gone: tuple[str, ...]) -> tuple[KeptJob, ...]:
    """Read every job in the shop and the last few in the states ``gone``, newest first."""
    left = select(job.c.number).where(job.c.state.in_(gone)).order_by(desc(job.c.changed_at)).limit(GONE_SHOWN)
    shown = or_(job.c.state.not_in(gone), job.c.number.in_(left))
    rows = connection.execute(select(*_COLUMNS).select_from(_JOINED).where(shown).order_by(desc(job.c.number)))
    return tuple(_kept(row) for row in rows)


def write_state(connection: Connection, job_id: int, state: str, now: datetime) -> None:
    """Write the state of a job."""
    connection.execute(update(job).where(job.c.id == job_id).values(state=state, changed_at=now))


def _kept(row: object) -> KeptJob:
    cells = row._mapping  # type: ignore[attr-defined]
    return KeptJob(
        id=cells["id"],
        number=cells["number"],
        complaint_words=cells["complaint_words"],
        state=cells["state"],
        taken_in_at=cells["taken_in_at"],
        changed_at=cells["changed_at"],
        owner=Owner(cells["name"], cells["phone"], cells["email"], cells["address"]),
        machine=KeptMachine(
            cells["machine_id"], cells["kind"], cells["maker"], cells["model"], cells["serial"], cells["engine_card"]
        ),
        invoice_number=f"{cells['year']}-{cells['running']:04d}" if cells["running"] else "",
    )
