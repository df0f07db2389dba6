"""What is found at a step, kept with one tap: a length, seized, missing, a note; for one machine or all like it."""

from collections.abc import Mapping
from dataclasses import asdict

from bellcrank.errors import NotAllowedNow, NotFound
from bellcrank.knowledge.assembly import Operation
from bellcrank.shop.captured_typed import Typed, read_typed
from bellcrank.shop.machine_model import assemblies_for, drawn_for, found_on, like, like_words
from bellcrank.shop.photos import add_photo, check_photo
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import CAPTURED, JobRecord, append, read_record, record_in
from bellcrank.shop.storage.own_models import add_own_model
from bellcrank.shop.work import IN, OUT, planned_anew, way_for
from bellcrank.teardown.as_found import CONDITION, MISSING, Captured


def capture(shop: Shop, number: int, typed: Typed, by: str = "") -> int:
    """Keep what was found at a step and give the id of its entry; where asked, for every machine like this, too."""
    if typed.for_all and typed.what == MISSING:
        raise NotAllowedNow("What is missing, is missing on this machine only. Keep it for this machine.", "for_all")
    job = read_record(shop, number)
    at = typed.at or _step_with(shop, job, typed.fastener)
    told = read_typed(typed, step_at(shop, job, at), [one.captured for one in found_on(shop, job)])
    keeps = f"; kept for {like_words(shop, job.job.machine)}" if typed.for_all else ""
    way, no_way = _replanned(shop, job, told.captured)
    body = {**asdict(told.captured), "said": f"{told.said}{keeps}{no_way}"} | ({"way": way} if way else {})
    now = shop.now()
    with shop.storage.writing() as connection:
        known = {event.id for event in record_in(connection, number).events}
        event_id = append(connection, job.job, CAPTURED, body, by=by, now=now)
        if typed.for_all and event_id not in known:
            add_own_model(connection, like(job.job.machine), event_id, CAPTURED, told.said, body)
    return event_id


def _replanned(shop: Shop, job: JobRecord, found: Captured) -> tuple[Mapping[str, object] | None, str]:
    """Give the way in without what a condition forbids, or say why there is none; what was found is kept anyhow."""
    if found.what != CONDITION:
        return None, ""
    try:
        return planned_anew(shop, job, found.operation, found), ""
    except NotAllowedNow as refusal:
        return None, f"; {refusal.sentence}"


def capture_photo(shop: Shop, number: int, at: str, file_name: str, data: bytes, by: str = "") -> int:
    """Keep a photo at a step, to be shown there on the way back, and give its id."""
    check_photo(file_name, data)
    step = step_at(shop, read_record(shop, number), at)
    return add_photo(shop, number, file_name, data, by, operation=step.id)


def _step_with(shop: Shop, job: JobRecord, fastener: str) -> str:
    """Name the step that undoes a fastener, "" when none is named or none does."""
    named = (step.id for one in assemblies_for(shop, job) for step in one.operations if fastener in _names(step))
    return next(named, "") if fastener else ""


def _names(step: Operation) -> tuple[str, ...]:
    return tuple(one.id for one in step.fasteners)


def step_at(shop: Shop, job: JobRecord, at: str) -> Operation:
    """Give a step of a job's machine as it is drawn: the one named, else the one that is next."""
    way = way_for(shop, job)
    if not at:
        left = (*way.left(IN), *way.left(OUT)) if way else ()
        if not left:
            raise NotAllowedNow("No step is next on this job. Choose the part to get to, or name the step.", "at")
        at = left[0]
    drawn = drawn_for(shop, job)
    first = [one for one in drawn if way and one.id == way.assembly.id]
    for assembly in (*first, *drawn):
        for step in assembly.operations:
            if step.id == at:
                return step
    raise NotFound(f"There is no step “{at}” on this machine. Pick one from the job's steps.", "at")
