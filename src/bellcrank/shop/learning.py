"""Reading closed jobs for what they teach, each once, and telling the last ones again by what had been learnt before.

What is read here is kept with the job; pages and commands only add it up (:mod:`bellcrank.shop.learnt`). Nothing here
is done while the shop's file is being written by somebody else's step: it is called after a job was closed.
"""

import json
import zlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from bellcrank.diagnosis.closed_case import ClosedCase, cures_of, known_to
from bellcrank.diagnosis.learnt_pack import with_learnt
from bellcrank.diagnosis.lessons import lesson_of
from bellcrank.diagnosis.network import CompiledPack, compile_pack
from bellcrank.diagnosis.told_again import Replay, replay
from bellcrank.shop.closed_jobs import closed_case
from bellcrank.shop.counts_text import as_plain
from bellcrank.shop.learnt import Dated, counts_at, imported_counts, modelled, own_counts
from bellcrank.shop.packs import usual_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import read_record
from bellcrank.shop.storage.jobs import CLOSED
from bellcrank.shop.storage.lessons import (
    ClosedJob,
    KeptLesson,
    read_closed_jobs,
    read_imports,
    read_lessons,
    write_lessons,
)

LESSON_FORM = 1  # rises when a lesson is read in another way, so that all are read anew
TOLD_AGAIN = 100  # [-] last jobs told again by what had been learnt before them
AT_ONCE = 60  # [-] jobs read in one go, some 20 ms each; the rest the next time
A_FEW = 3
CHANCE_DIGITS = 5


def learn_from(shop: Shop, number: int) -> None:
    """Read a job that was just closed, and a few that were not read yet; nothing while it is open."""
    job = read_record(shop, number).job
    if job.state in CLOSED:
        learn(shop, job.machine.kind, at_once=A_FEW)


def learn(shop: Shop, kind: str, at_once: int = AT_ONCE) -> int:
    """Read the closed jobs that are new or changed, the last ones first; give how many are still to be read."""
    usual = usual_now(shop, kind)
    with shop.storage.reading() as connection:
        jobs = read_closed_jobs(connection, kind, CLOSED)
        known = {one.job_id: one for one in read_lessons(connection, kind, CLOSED)}
        imports = imported_counts(read_imports(connection, kind))
        pack_mark = _pack_mark(shop, usual)
        marks = {job.id: f"{pack_mark}:{job.last_event}:{job.taken_back}" for job in jobs}
    unread = [job for job in reversed(jobs) if job.id not in known or known[job.id].mark != marks[job.id]]
    numbers = {job.id: job.number for job in jobs}

    def case_of(job_id: int) -> ClosedCase:
        return known_to(usual, closed_case(read_record(shop, numbers[job_id])))

    fresh = {job.id: _lesson(usual, job, case_of(job.id), marks[job.id]) for job in unread[:at_once]}
    every = [one for one in ((fresh.get(job.id) or known.get(job.id)) for job in jobs) if one is not None]
    left = max(0, len(unread) - at_once)
    # with some still to be read, what was learnt before the others is not known yet
    told = () if left else _told_again(shop, usual, every, case_of, imports)
    changed = {**fresh, **{one.job_id: one for one in told}}
    if changed:
        with shop.storage.writing() as connection:
            write_lessons(connection, kind, changed.values())
    return left


def _pack_mark(shop: Shop, usual: CompiledPack) -> str:
    pack = usual.pack
    told = (LESSON_FORM, pack.complaints, pack.causes, pack.links, pack.checks, pack.given)
    return shop.answers.answer(("mark", usual), lambda: f"{zlib.crc32(repr(told).encode()):08x}")


def _lesson(usual: CompiledPack, job: ClosedJob, closed: ClosedCase, mark: str) -> KeptLesson:
    cures = cures_of(usual, closed)
    said = replay(usual, closed, cures)
    return KeptLesson(
        job_id=job.id,
        closed_at=job.closed_at,
        mark=mark,
        counts=json.dumps(as_plain(lesson_of(usual, closed, cures))),
        said=replay_text(said),
        surprise=said.surprise if said else None,
        learnt_mark="",
        learnt_said="",
        learnt_surprise=None,
    )


def _told_again(
    shop: Shop,
    usual: CompiledPack,
    lessons: Sequence[KeptLesson],
    case_of: Callable[[int], ClosedCase],
    imports: Sequence[Dated],
) -> Iterable[KeptLesson]:
    """Tell the last jobs again by what all jobs closed before them taught, where that is not known yet."""
    own, found = own_counts(lessons), []
    first = max(0, len(lessons) - TOLD_AGAIN)
    mark = zlib.crc32(repr([(day, as_plain(counts)) for day, counts in imports]).encode())
    for place, lesson in enumerate(lessons):
        before = f"{mark:08x}"
        mark = zlib.crc32(f"{lesson.job_id}:{lesson.mark}:{lesson.closed_at}".encode(), mark)
        if place < first or lesson.learnt_mark == before:
            continue
        said = None
        if lesson.surprise is not None:
            counts = counts_at(lesson.closed_at.date(), own[:place], imports)
            learnt = compile_pack(with_learnt(usual.pack, counts, modelled(shop, usual)).pack)
            closed = case_of(lesson.job_id)
            said = replay(learnt, closed, cures_of(usual, closed))
        found.append(
            replace(
                lesson,
                learnt_mark=before,
                learnt_said=replay_text(said),
                learnt_surprise=said.surprise if said else None,
            )
        )
    return found


def replay_text(said: Replay | None) -> str:
    """Write a case told again, "" for none."""
    if said is None:
        return ""
    moments = {
        name: {cause: round(chance, CHANCE_DIGITS) for cause, chance in told.items() if round(chance, CHANCE_DIGITS)}
        for name, told in (("story", said.story), ("end", said.end))
    }
    return json.dumps({**moments, "causes": said.causes})


def replay_from(text: str) -> Replay:
    """Read a case told again."""
    plain = json.loads(text)
    return Replay(plain["story"], plain["end"], tuple(plain["causes"]))
