"""The release list of a job, and handing the machine back: ready, or not ready and recorded so."""

from collections.abc import Mapping
from dataclasses import replace

from bellcrank.diagnosis.allowed import forbidding
from bellcrank.diagnosis.case import NOT_SURE, Found
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.handback.proofs import BoltWindow, ProofResult, Status, judge
from bellcrank.handback.release import Answer, Decision, decide
from bellcrank.handback.triggers import asked, in_words, of_kind, triggers_of
from bellcrank.knowledge.assembly import Fastener
from bellcrank.knowledge.model import Pack, ReleaseItem
from bellcrank.shop.fill_causes import EVENT_SYSTEM
from bellcrank.shop.findings import no_start_because
from bellcrank.shop.learning import learn_from
from bellcrank.shop.machine_model import pack_for
from bellcrank.shop.packs import compiled_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import (
    GONE,
    NOT_READY,
    READY,
    READY_WITH_NOTES,
    RECORDED,
    JobRecord,
    pack_of,
    read_record,
    record,
    record_in,
    refuse_when_gone,
    state_body,
)
from bellcrank.shop.storage.engine import OpenFile
from bellcrank.shop.storage.events import add_event
from bellcrank.shop.storage.jobs import write_state
from bellcrank.shop.storage.things import KeptTorque, read_torques
from bellcrank.shop.texts import LONG, clean, clean_line
from bellcrank.shop.unit_slips import expected_torque, refuse_a_slip
from bellcrank.shop.weighed import belief_of
from bellcrank.shop.work import IN, OUT, way_for
from bellcrank.teardown.torques import StepTorque
from bellcrank.units import read_positive

BOLT_TORQUE = "blade-bolt-torque"
LIKELY_STRIKE = 0.5  # [-] an event this likely on arrival is treated as having happened


def decision_of(shop: Shop, job: JobRecord) -> tuple[Decision, tuple[str, ...]]:
    """Decide whether a job's machine may go back as ready; give the decision and what brought the list about."""
    touched = touched_at(shop, job)
    triggers = triggers_of(_struck(shop, job), frozenset(touched))
    answers = {event.body["item"]: Answer(event.body["values"], event.id) for event in job.standing("proof")}
    lines = asked(of_kind(shop.library.release_items, job.job.machine.kind), triggers)
    decision = decide(lines, answers, touched, _bolt_window(shop, job))
    still_off = _still_off(shop, job)
    first = (*((still_off,) if still_off else ()), *_no_start(shop, job))
    if first:
        decision = replace(decision, ready=False, blocking=(*first, *decision.blocking), beside=first)
    return decision, in_words(triggers)


def _no_start(shop: Shop, job: JobRecord) -> tuple[str, ...]:
    """Say what was found that forbids starting the machine and still stands."""
    compiled = compiled_now(shop, job.job.machine.kind)
    return no_start_because(compiled, forbidding(compiled, job.case))


def _still_off(shop: Shop, job: JobRecord) -> str:
    """Say what was ticked as taken apart and not as put back."""
    way = way_for(shop, job)
    if way is None or not way.off:
        return ""
    count = len(way.off)
    steps = "step of the way back is" if count == 1 else "steps of the way back are"
    return f"Not all is back on the machine: {count} {steps} open, next “{way.operation(way.off[-1]).undo}”."


def touched_at(shop: Shop, job: JobRecord) -> dict[str, int]:
    """Give what was touched on the machine and when last, by repairs done and steps ticked."""
    pack = pack_for(shop, job)
    repairs = {repair.id: repair.touches for repair in pack.repairs}
    steps = {one.id: one.touches for assembly in pack.assemblies for one in assembly.operations}
    touched: dict[str, int] = {}
    for event in job.standing("repaired", "step", RECORDED):
        if event.kind == "repaired":
            names = repairs.get(event.body["repair"], ())
        elif event.kind == RECORDED:
            names = steps.get(event.body["id"], ())
        else:
            names = steps.get(event.body["operation"], ()) if event.body["direction"] in (IN, OUT) else ()
        touched.update(dict.fromkeys(names, event.id))
    return touched


def _struck(shop: Shop, job: JobRecord) -> bool:
    """Tell whether it hit something: because somebody says so, however unlikely it looks, or because it looks so."""
    pack = pack_of(shop, job.job)
    happenings = {cause.id for cause in pack.causes if cause.system == EVENT_SYSTEM}
    if _said_so(pack, job, happenings):
        return True
    belief = belief_of(shop, job)
    return any(belief.on_arrival[name] >= LIKELY_STRIKE for name in happenings)


def _said_so(pack: Pack, job: JobRecord, happenings: set[str]) -> bool:
    answers = {found.check: found.result for found in job.case.events if isinstance(found, Found)}
    return any(
        answers.get(check.id, NOT_SURE) not in (NOT_SURE, check.results[0].id)
        for check in pack.checks
        if check.story and happenings & {row.cause for row in check.likelihoods}
    )


def judge_answer(shop: Shop, number: int, item: str, answer: Mapping[str, str]) -> ProofResult:
    """Judge an answer to an item of a job's release list without recording it."""
    job = read_record(shop, number)
    return judge(_item(shop, job, item), answer, _bolt_window(shop, job))


def record_proof(shop: Shop, number: int, item: str, answer: Mapping[str, str], by: str = "") -> int:
    """Record the answer to an item of the release list; one that cannot be read is refused."""
    values = {name: clean_line(value, "The answer", field=name) for name, value in answer.items()}
    asked_for = _item(shop, read_record(shop, number), item)
    judge(asked_for, values)
    if asked_for.runs_engine and values.get("answer") != "no":
        _refuse_to_run(shop, number)
    if asked_for.answer == BOLT_TORQUE:
        _refuse_a_slip_of_the_unit(shop, number, values["torque"])
    return record(shop, number, "proof", {"item": item, "values": values}, by=by)


def _refuse_to_run(shop: Shop, number: int) -> None:
    """Refuse a proof made with the engine running before all that is proven standing still is proven."""
    job = read_record(shop, number)
    off = _still_off(shop, job)
    if off:
        raise NotAllowedNow(off)
    for reason in _no_start(shop, job):
        raise NotAllowedNow(reason, "item")
    decision, _ = decision_of(shop, job)
    first = next(
        (
            line.asked.item
            for line in decision.lines
            if line.asked.item.hard and not line.asked.item.runs_engine and line.result.status is not Status.PASSED
        ),
        None,
    )
    if first is not None:
        raise NotAllowedNow(f"The engine is not run for a proof yet. First, standing still: {first.words}", "item")


def _refuse_a_slip_of_the_unit(shop: Shop, number: int, typed: str) -> None:
    """Refuse a blade bolt torque far outside what the bolt takes: in·lb and ft·lb lie twelve-fold apart."""
    job = read_record(shop, number)
    known = _known_torques(shop, job)
    reading = read_positive(typed, "torque", what="Torque on the blade bolt")
    for fastener in _blade_bolts(pack_for(shop, job)):
        refuse_a_slip(fastener, reading, shop.library, known.get(fastener.id))


def _bolt_window(shop: Shop, job: JobRecord) -> BoltWindow | None:
    """Give what the blade bolt of a machine is tightened to, None when no number can be told.

    A published number that does not sit with the bolt proves nothing: then the computed window is what counts.
    """
    known = _known_torques(shop, job)
    for fastener in _blade_bolts(pack_for(shop, job)):
        expected = expected_torque(fastener, shop.library, known.get(fastener.id))
        if isinstance(expected, StepTorque):
            if expected.doubt and expected.window is not None:
                return BoltWindow(expected.window.low, expected.window.high, expected.window.basis)
            return BoltWindow(expected.low, expected.high, expected.basis)
    return None


def _known_torques(shop: Shop, job: JobRecord) -> Mapping[str, KeptTorque]:
    with shop.storage.reading() as connection:
        return read_torques(connection, job.job.machine.id)


def _blade_bolts(pack: Pack) -> tuple[Fastener, ...]:
    return tuple(
        fastener
        for assembly in pack.assemblies
        for operation in assembly.operations
        for fastener in operation.fasteners
        if "blade" in operation.touches and fastener.safety_joint and fastener.thread
    )


def items_of(shop: Shop, number: int) -> tuple[ReleaseItem, ...]:
    """Give the items of the release list that are about the kind of machine of a job, asked for by now or not."""
    return of_kind(shop.library.release_items, read_record(shop, number).job.machine.kind)


def _item(shop: Shop, job: JobRecord, item: str) -> ReleaseItem:
    items = of_kind(shop.library.release_items, job.job.machine.kind)
    found = next((one for one in items if one.id == item), None)
    if found is None:
        raise NotFound(
            f"There is no item “{item}” on the release list of this machine. Pick one from the list.", "item"
        )
    return found


def hand_back(shop: Shop, number: int, *, ready: bool, reason: str = "", by: str = "") -> str:
    """Mark the machine ready, or record that it went back not ready; give the new state."""
    why = clean(reason, "What was declined", longest=LONG, field="reason")
    if not ready and not why:
        raise NotUnderstood("Write what was declined and by whom; it goes back with the machine.", "reason")
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        refuse_when_gone(job.job)
        decision, _ = decision_of(shop, job)
        if ready and not decision.ready:
            raise NotAllowedNow(
                f"Job {number} cannot be marked ready: {decision.blocking[0]}"
                + (f" And {len(decision.blocking) - 1} more." if len(decision.blocking) > 1 else "")
            )
        state = (READY_WITH_NOTES if decision.notes else READY) if ready else NOT_READY
        _write(shop, connection, job, state_body(state, why, decision.blocking), by)
    learn_from(shop, number)
    return state


def picked_up(shop: Shop, number: int, by: str = "") -> str:
    """Record that the customer fetched a machine that is ready."""
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        if job.job.state not in (READY, READY_WITH_NOTES) or not decision_of(shop, job)[0].ready:
            raise NotAllowedNow(
                f"Job {number} is not marked ready. Go through the release list first, or hand it back as not ready."
            )
        _write(shop, connection, job, state_body(GONE), by)
    learn_from(shop, number)
    return GONE


def _write(shop: Shop, connection: OpenFile, job: JobRecord, body: Mapping[str, object], by: str) -> None:
    now = shop.now()
    add_event(connection, job.job.id, "state", body, by=by, now=now)
    write_state(connection, job.job.id, str(body["state"]), now)
