"""Filling in a job sheet and the bench from what is kept and what follows from it."""

import re
from collections.abc import Iterable
from dataclasses import replace

from bellcrank.diagnosis.allowed import outcomes_open
from bellcrank.diagnosis.belief import is_cured
from bellcrank.handback.proofs import Status
from bellcrank.knowledge.model import Pack
from bellcrank.shop.bench_sheet import BenchLine, BenchSheet
from bellcrank.shop.captured_sheet import CaptureSheet, StepPhoto
from bellcrank.shop.fill_causes import caution_lines
from bellcrank.shop.fill_price import price_sheet, with_range
from bellcrank.shop.fill_work import KeptForWork, work_sheet
from bellcrank.shop.findings import open_to_take_back
from bellcrank.shop.hand import PersonHand, hand_in
from bellcrank.shop.machine_model import found_of, like_words, numbers_of, pack_for
from bellcrank.shop.packs import compiled_now, pack_now, usual_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.reckoned import reckoned_lines
from bellcrank.shop.records import GONE, NOT_READY, ON_THE_BENCH, READY, READY_WITH_NOTES, RECORDED, WAITING, JobRecord
from bellcrank.shop.release import decision_of
from bellcrank.shop.settings import settings_from
from bellcrank.shop.sheet import EventLine, JobSheet, MachineLine, PersonLine, PhotoLine, ProofLine, ReleaseSheet
from bellcrank.shop.storage.events import KeptEvent, read_events
from bellcrank.shop.storage.jobs import KeptJob, KeptMachine, read_job, read_jobs
from bellcrank.shop.storage.things import KeptPhoto, read_photos, read_setting_rows, read_torques
from bellcrank.shop.tell import tell
from bellcrank.shop.tools import tool_terms
from bellcrank.shop.weighed import NOTHING_YET, weighed
from bellcrank.shop.what_it_was import was_line
from bellcrank.shop.words import part_words
from bellcrank.shop.work import Way, way_for
from bellcrank.shop.work_sheet import RepairLine, WorkSheet


def job_sheet(shop: Shop, number: int) -> JobSheet:
    """Fill in the sheet of a job."""
    with shop.storage.reading() as connection:
        kept = read_job(connection, number)
        job = JobRecord(kept, read_events(connection, kept.id))
        photos = read_photos(connection, kept.id)
        torques = read_torques(connection, kept.machine.id)
        settings = settings_from(read_setting_rows(connection))
        on_its_way = any(job.standing("target", RECORDED))  # only then a step asks what a hand does
        hand = hand_in(shop, connection, settings.mechanic) if on_its_way else PersonHand(settings.mechanic, (), ())
    compiled = compiled_now(shop, kept.machine.kind)
    found = weighed(shop, job, settings)
    price = price_sheet(job, settings, compiled, found.belief if found else None)
    open_to_it = {event.id for event in open_to_take_back(job)}
    pack, shown = pack_for(shop, job), _photos(job, photos)
    for_work = KeptForWork(torques, reckoned_lines(job), hand, tool_terms(shop))
    events = tuple(_event(event, pack, event.id in open_to_it) for event in job.events)
    return JobSheet(
        number=kept.number,
        state=kept.state,
        taken_in_at=kept.taken_in_at.isoformat(),
        customer=PersonLine(kept.owner.name, kept.owner.phone, kept.owner.email, kept.owner.address),
        machine=machine_line(kept.machine, compiled.pack),
        complaint_words=kept.complaint_words,
        complaints=tuple(one.words for one in compiled.pack.complaints if one.id in job.complaints),
        facts=tuple(tell(event, pack) for event in job.standing("told")),
        photos=shown,
        events=events,
        last_event=next((one for one in reversed(events) if one.can_take_back), None),
        causes=found.causes if found else (),
        surprise=found.belief.disagreement if found else "",
        next=with_range(found.next, price) if found else (),
        cure=found.cure if found else NOTHING_YET,
        work=_work(shop, job, for_work, shown, settings.torque_unit),
        release=_release(shop, job),
        price=price,
        was=was_line(usual_now(shop, kept.machine.kind, job.names_used), job),
        verdict=found.verdict if found else None,
        combinations=found.combinations if found else (),
    )


def _work(
    shop: Shop, job: JobRecord, kept: KeptForWork, photos: tuple[PhotoLine, ...], torque_unit: str
) -> WorkSheet | None:
    compiled, case = compiled_now(shop, job.job.machine.kind), job.case
    pack = compiled.pack
    way = way_for(shop, job)
    if way is None:
        return None
    repairs = tuple(
        RepairLine(one.id, one.words, outcomes_open(compiled, case, one.id))
        for one in pack.repairs
        if one.target in way.targets
    )
    work = work_sheet(way, shop.library, kept, _between(way, pack), repairs, torque_unit)
    return replace(work, captured=_captured(shop, job, photos))


def _captured(shop: Shop, job: JobRecord, photos: Iterable[PhotoLine]) -> CaptureSheet:
    at_steps = tuple(StepPhoto(one.operation, one.id, one.width, one.height) for one in photos if one.operation)
    return CaptureSheet(found_of(shop, job), at_steps, like_words(shop, job.job.machine), numbers_of(shop, job))


def _between(way: Way, pack: Pack) -> str:
    """Say what is done at the target before the way back."""
    repairs = [repair.words for repair in pack.repairs if repair.target in way.targets]
    if not repairs:
        return ""
    told = " or ".join(one[:1].lower() + one[1:] for one in repairs)
    return f"At the {part_words(way.targets)}: {told}."


def machine_line(machine: KeptMachine, pack: Pack) -> MachineLine:
    """Name a machine."""
    named = " ".join(part for part in (machine.maker, machine.model) if part)
    short = re.split("[,:]", pack.words)[0]
    engine = next((card.words for card in pack.engine_cards if card.id == machine.engine_card), "")
    return MachineLine(
        kind=machine.kind,
        kind_words=pack.words,
        maker=machine.maker,
        model=machine.model,
        serial=machine.serial,
        engine_card=machine.engine_card,
        engine_words=engine,
        words=f"{named} {short}" if named else short[:1].upper() + short[1:],
    )


def _event(event: KeptEvent, pack: Pack, can_take_back: bool) -> EventLine:
    return EventLine(
        id=event.id,
        kind=event.kind,
        words=tell(event, pack),
        at=event.at.isoformat(),
        by=event.by,
        taken_back=not event.stands,
        can_take_back=can_take_back,
        taken_back_at=event.taken_back_at.isoformat() if event.taken_back_at else "",
        taken_back_by=event.taken_back_by,
    )


def _photos(job: JobRecord, photos: Iterable[KeptPhoto]) -> tuple[PhotoLine, ...]:
    stands = {event.body["photo"]: event.body.get("operation", "") for event in job.standing("photo")}
    return tuple(
        PhotoLine(photo.id, photo.width, photo.height, photo.added_at.isoformat(), stands[photo.id])
        for photo in photos
        if photo.id in stands
    )


def _release(shop: Shop, job: JobRecord) -> ReleaseSheet:
    decision, triggers = decision_of(shop, job)
    sources = shop.library.sources
    return ReleaseSheet(
        lines=tuple(
            ProofLine(
                id=line.asked.item.id,
                words=line.asked.item.words,
                how=line.asked.item.how,
                hard=line.asked.item.hard,
                answer=line.asked.item.answer,
                limit_words=line.asked.item.limit_words,
                status=line.result.status,
                detail="" if line.result.detail in ("yes", "no") else line.result.detail,
                source=sources[line.asked.item.source].title,
                cautions=caution_lines(
                    line.asked.item.hazards if line.result.status is not Status.PASSED else (), shop.library.hazards
                ),
            )
            for line in decision.lines
        ),
        ready=decision.ready,
        blocking=decision.blocking,
        beside=decision.beside,
        notes=decision.notes,
        triggers=triggers,
    )


def bench_sheet(shop: Shop) -> BenchSheet:
    """Fill in the bench: every job with what it waits for."""
    with shop.storage.reading() as connection:
        jobs = read_jobs(connection, gone=(GONE, NOT_READY))
        events = read_events(connection, *(job.id for job in jobs))
    by_job: dict[int, list[KeptEvent]] = {}
    for event in events:
        by_job.setdefault(event.job_id, []).append(event)
    lines = [(job.state, _bench_line(shop, JobRecord(job, tuple(by_job.get(job.id, []))))) for job in jobs]
    return BenchSheet(
        on_the_bench=_in_state(lines, ON_THE_BENCH),
        waiting=tuple(reversed(_in_state(lines, WAITING))),
        ready=_in_state(lines, READY, READY_WITH_NOTES),
        gone=_in_state(lines, GONE, NOT_READY),
    )


def _in_state(lines: Iterable[tuple[str, BenchLine]], *states: str) -> tuple[BenchLine, ...]:
    return tuple(line for state, line in lines if state in states)


def _bench_line(shop: Shop, record: JobRecord) -> BenchLine:
    job = record.job
    pack = pack_now(shop, job.machine.kind)
    words = [one.words for one in pack.complaints if one.id in record.complaints]
    return BenchLine(
        number=job.number,
        machine=machine_line(job.machine, pack).words,
        complaint=job.complaint_words or ", ".join(words),
        customer=job.owner.name,
        next=_waits_for(shop, record, pack),
        since=job.changed_at.isoformat(),
        state=job.state,
    )


def _waits_for(shop: Shop, record: JobRecord, pack: Pack) -> str:
    """Say what a job waits for, from its events alone: the bench must be quick."""
    job: KeptJob = record.job
    if job.state in (READY, READY_WITH_NOTES):
        return "ready to be fetched" if job.state == READY else "ready to be fetched, with notes"
    if job.state in (GONE, NOT_READY):
        return job.state
    if record.case.cured and is_cured(compiled_now(shop, job.machine.kind), record.case):
        return "next: prove it is safe to hand back"
    way = way_for(shop, record)
    if way and way.off:
        back = [name for name in way.order if ("in", name) not in way.done]
        step = way.operation(back[0]).do if back else way.operation(way.off[-1]).undo
        return f"next: {step[:1].lower()}{step[1:]}"
    last = next((event for event in reversed(record.events) if event.stands and event.kind == "found"), None)
    return f"last: {tell(last, pack)}" if last else "next: find the cause"
