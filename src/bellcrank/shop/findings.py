"""Recording what was found and mended, and taking it back."""

from collections.abc import Iterable, Mapping

from bellcrank import units
from bellcrank.diagnosis.allowed import forbidding_after
from bellcrank.diagnosis.belief import level_of
from bellcrank.diagnosis.case import NOT_SURE, OUTCOMES, Case, Found
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.diagnosis.readings import fits, fits_gauge, knows_gauge, result_of
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.shop.learning import learn_from
from bellcrank.shop.packs import compiled_now, pack_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import (
    CAPTURED,
    GONE,
    LESSON,
    MODELLED,
    ON_THE_BENCH,
    READY,
    READY_WITH_NOTES,
    RECORDED,
    WORK,
    JobRecord,
    read_record,
    record,
    record_in,
    state_after,
    state_body,
)
from bellcrank.shop.storage.events import KeptEvent, add_event, mark_taken_back
from bellcrank.shop.storage.jobs import write_state

PRICED = frozenset({"price", "agreed"})  # stand once the invoice is written
PUT_RIGHT = "Put that right first and record the repair, or look again and record what you find now"
CAN_TAKE_BACK = frozenset(
    {*WORK, "told", "reckoned", "complaint", "target", "price", "agreed", "photo", "state", MODELLED, LESSON}
)


def record_complaint(shop: Shop, number: int, complaint: str, by: str = "") -> int:
    """Record what the machine came in with."""
    pack = pack_now(shop, read_record(shop, number).job.machine.kind)
    if complaint not in {one.id for one in pack.complaints}:
        known = ", ".join(one.id for one in pack.complaints)
        raise NotFound(f"There is no complaint “{complaint}”. It must be one of {known}.", "complaint")
    return record(shop, number, "complaint", {"complaint": complaint}, by=by)


def record_finding(
    shop: Shop,
    number: int,
    check: str,
    result: str,
    by: str = "",
    *,
    unsure: bool = False,
    counted: Mapping[str, str] | None = None,
) -> int:
    """Record the result of a check, with what it was counted from where it was; "not-sure" is a result.

    ``unsure``: who looked only thinks so; it counts for less.
    """
    compiled = compiled_now(shop, read_record(shop, number).job.machine.kind)
    if check not in compiled.checks:
        raise NotFound(f"There is no check “{check}”. Pick one from the job's list.", "check")
    if result != NOT_SURE:
        level_of(compiled, Found(check, result))
    body: dict[str, object] = {"check": check, "result": result}
    if unsure and result != NOT_SURE:
        body["unsure"] = True
    if counted:
        body["counted"] = dict(counted)
    return record(shop, number, "found", body, by=by)


def record_reading(shop: Shop, number: int, check: str, typed: str, by: str = "") -> int:
    """Record what an instrument showed, in any unit of its kind; near a limit it speaks for both sides."""
    machine = read_record(shop, number).job.machine
    compiled = compiled_now(shop, machine.kind)
    if check not in compiled.checks:
        raise NotFound(f"There is no check “{check}”. Pick one from the job's list.", "check")
    scale = compiled.checks[check].scale
    if scale is None:
        raise NotAllowedNow(f"“{compiled.checks[check].words}” gives no number. Record one of its results.", "reading")
    if not typed.strip():
        raise NotUnderstood(f"No reading was typed. Type what the instrument shows, in {scale.unit}.", "reading")
    read = units.read(typed, scale.kind, default=scale.unit, what="the reading")
    typed_with_unit = read.typed if read.typed[-1].isalpha() else f"{read.typed} {read.unit.symbol}"
    asked, result = compiled.checks[check], result_of(scale, read.si)
    if knows_gauge(asked, compiled.pack.gauge, machine.engine_card):
        fitting = fits_gauge(asked, compiled.pack.gauge, machine.engine_card, read.si)
        result = asked.results[fitting.index(1.0)].id
    else:
        fitting = fits(asked, scale, read.si)
    body: dict[str, object] = {"check": check, "result": result, "fits": list(fitting), "typed": typed_with_unit}
    return record(shop, number, "found", body, by=by)


def record_repair(shop: Shop, number: int, repair: str, outcome: str, by: str = "") -> int:
    """Record a repair and what it did."""
    compiled = compiled_now(shop, read_record(shop, number).job.machine.kind)
    if repair not in compiled.repairs:
        raise NotFound(f"There is no repair “{repair}”. Pick one from the job's list.", "repair")
    if outcome not in OUTCOMES:
        choice = ", ".join(OUTCOMES)
        raise NotFound(f"“{outcome}” does not say what the repair did. It must be one of {choice}.", "outcome")
    if outcome != "not-tried":
        refuse_a_start(compiled, read_record(shop, number).case, repair)
    body: dict[str, object] = {"repair": repair, "outcome": outcome}
    return record(shop, number, "repaired", body, by=by)


def refuse_a_start(compiled: CompiledPack, case: Case, repair: str) -> None:
    """Refuse an outcome that takes a start while something found still forbids it, this repair done."""
    for reason in no_start_because(compiled, forbidding_after(compiled, case, repair)):
        raise NotAllowedNow(f"{reason} Until then record the repair as done: not tried yet.")


def no_start_because(compiled: CompiledPack, standing: Iterable[Found]) -> tuple[str, ...]:
    """Say why the machine must not be started, and what to do first, a sentence or two for each finding."""
    reasons = []
    for found in standing:
        check = compiled.checks[found.check]
        says = next(one.says for one in check.results if one.id == found.result)
        lifted_by = [c.words for c in compiled.pack.checks if any(found.check in one.lifts for one in c.results)]
        first = f"First: {lifted_by[0][:1].lower()}{lifted_by[0][1:]}" if lifted_by else PUT_RIGHT
        reasons.append(f"It must not be started yet, because {says}. {first}.")
    return tuple(reasons)


def open_to_take_back(job: JobRecord) -> tuple[KeptEvent, ...]:
    """Give what may be taken back: no price once billed, only the going once gone, no way in with steps on it.

    Of recorded steps only the last: those after it need it.
    """
    last_step = max((event.id for event in job.standing("step")), default=0)
    planned = (event for event in job.standing("target", CAPTURED) if event.kind == "target" or "way" in event.body)
    last_target = max((event.id for event in planned), default=0)
    last_recorded = max((event.id for event in job.standing(RECORDED)), default=0)
    return tuple(
        event
        for event in job.events
        if event.stands
        and event.kind in CAN_TAKE_BACK
        and not (job.job.invoice_number and event.kind in PRICED)
        and not (job.job.state == GONE and event.kind not in ("state", LESSON))
        and not (event.id == last_target and last_target < last_step)
        and not (event.kind == RECORDED and not event.id == last_recorded > last_step)
    )


def take_back(shop: Shop, number: int, event_id: int | None = None, by: str = "") -> str:
    """Take back an event, the last one when none is named; give its kind."""
    now = shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        open_to_it = open_to_take_back(job)
        chosen = next((event for event in reversed(open_to_it) if event_id in (None, event.id)), None)
        if chosen is None:
            what = "There is nothing to take back" if event_id is None else f"Entry {event_id} cannot be taken back"
            raise NotAllowedNow(f"{what} on job {number}. Look at what happened at the end of its sheet.")
        state = state_after(event for event in job.events if event is not chosen)
        mark_taken_back(connection, chosen.id, by=by, now=now)
        if chosen.kind in WORK and state in (READY, READY_WITH_NOTES):  # it was called ready with this in mind
            state = ON_THE_BENCH
            add_event(connection, job.job.id, "state", state_body(state), by=by, now=now)
        if state != job.job.state:
            write_state(connection, job.job.id, state, now)
    learn_from(shop, number)
    return chosen.kind
