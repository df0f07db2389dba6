"""What closed jobs taught, and counts that came from other shops, read and written."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, func, insert, select, update

from bellcrank.shop.storage.engine import add_row
from bellcrank.shop.storage.tables import event, imported_counts, job, lesson, machine


@dataclass(frozen=True, slots=True)
class ClosedJob:
    """A job whose machine has left the shop."""

    id: int
    number: int
    closed_at: datetime
    last_event: int  # the newest of its events
    taken_back: int  # how many of them were


@dataclass(frozen=True, slots=True)
class KeptLesson:
    """What a closed job taught, as kept; texts are JSON."""

    job_id: int
    closed_at: datetime
    mark: str
    counts: str
    said: str
    surprise: float | None
    learnt_mark: str
    learnt_said: str
    learnt_surprise: float | None


@dataclass(frozen=True, slots=True)
class KeptImport:
    """Counts of another shop, as kept."""

    id: int
    kind: str
    sha256: str
    file_name: str
    years: str  # JSON
    imported_at: datetime
    by: str
    taken_back_at: datetime | None

    @property
    def stands(self) -> bool:
        """Whether it was not taken back."""
        return self.taken_back_at is None


@dataclass(frozen=True, slots=True)
class State:
    """All that decides what was learnt of a kind of machine: the same again, and nothing has to be read anew."""

    lessons: int
    turn: int
    imports: int
    newest_import: int


def state_of_learning(connection: Connection, kind: str, closed: tuple[str, ...]) -> State:
    """Say in which state learning is, in a moment: every page asks."""
    fresh = (lesson.c.kind == kind) & job.c.state.in_(closed) & (job.c.changed_at == lesson.c.closed_at)
    stands = (imported_counts.c.kind == kind) & imported_counts.c.taken_back_at.is_(None)
    lessons, turn = (
        select(one).select_from(lesson.join(job)).where(fresh).scalar_subquery()
        for one in (func.count(), func.coalesce(func.max(lesson.c.turn), 0))
    )
    imports, newest = (
        select(one).where(stands).scalar_subquery()
        for one in (func.count(imported_counts.c.id), func.coalesce(func.max(imported_counts.c.id), 0))
    )
    return State(*connection.execute(select(lessons, turn, imports, newest)).one())


def read_closed_jobs(connection: Connection, kind: str, closed: tuple[str, ...]) -> tuple[ClosedJob, ...]:
    """Read the closed jobs of a kind of machine in the order they were closed."""
    rows = connection.execute(
        select(
            job.c.id,
            job.c.number,
            job.c.changed_at,
            func.coalesce(func.max(event.c.id), 0),
            func.count(event.c.taken_back_at),
        )
        .select_from(job.join(machine).outerjoin(event, event.c.job_id == job.c.id))
        .where(machine.c.kind == kind, job.c.state.in_(closed))
        .group_by(job.c.id)
        .order_by(job.c.changed_at, job.c.number)
    )
    return tuple(ClosedJob(*row) for row in rows)


def read_lessons(connection: Connection, kind: str, closed: tuple[str, ...]) -> tuple[KeptLesson, ...]:
    """Read the lessons of jobs that are closed as they were then, in the order they were closed."""
    rows = connection.execute(
        select(lesson)
        .select_from(lesson.join(job))
        .where(lesson.c.kind == kind, job.c.state.in_(closed), job.c.changed_at == lesson.c.closed_at)
        .order_by(job.c.changed_at, job.c.number)
    )
    return tuple(
        KeptLesson(
            job_id=row.job_id,
            closed_at=row.closed_at,
            mark=row.mark,
            counts=row.counts,
            said=row.said,
            surprise=row.surprise,
            learnt_mark=row.learnt_mark,
            learnt_said=row.learnt_said,
            learnt_surprise=row.learnt_surprise,
        )
        for row in rows
    )


def write_lessons(connection: Connection, kind: str, lessons: Iterable[KeptLesson]) -> None:
    """Write lessons anew, each in the place of the one its job had."""
    turn = 1 + (connection.execute(select(func.max(lesson.c.turn))).scalar_one() or 0)
    for one in lessons:
        connection.execute(lesson.delete().where(lesson.c.job_id == one.job_id))
        connection.execute(
            insert(lesson).values(
                job_id=one.job_id,
                kind=kind,
                closed_at=one.closed_at,
                mark=one.mark,
                turn=turn,
                counts=one.counts,
                said=one.said,
                surprise=one.surprise,
                learnt_mark=one.learnt_mark,
                learnt_said=one.learnt_said,
                learnt_surprise=one.learnt_surprise,
            )
        )


def read_imports(connection: Connection, kind: str) -> tuple[KeptImport, ...]:
    """Read the counts that came from other shops, those taken back too, in the order they came."""
    rows = connection.execute(
        select(imported_counts).where(imported_counts.c.kind == kind).order_by(imported_counts.c.id)
    )
    return tuple(
        KeptImport(
            id=row.id,
            kind=row.kind,
            sha256=row.sha256,
            file_name=row.file_name,
            years=row.years,
            imported_at=row.imported_at,
            by=row.by,
            taken_back_at=row.taken_back_at,
        )
        for row in rows
    )


def add_import(connection: Connection, kept: KeptImport) -> int:
    """Keep counts of another shop and give their id."""
    return add_row(
        connection,
        insert(imported_counts).values(
            kind=kept.kind,
            sha256=kept.sha256,
            file_name=kept.file_name,
            years=kept.years,
            imported_at=kept.imported_at,
            by=kept.by,
            taken_back_by="",
        ),
    )


def mark_import_taken_back(connection: Connection, import_id: int, *, by: str, now: datetime) -> None:
    """Mark counts of another shop as taken back."""
    connection.execute(
        update(imported_counts).where(imported_counts.c.id == import_id).values(taken_back_at=now, taken_back_by=by)
    )
