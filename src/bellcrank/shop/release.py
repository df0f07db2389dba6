"""The release list of a job, and handing the machine back: ready, or not ready and recorded so."""

from collections.abc import Mapping

from bellcrank.diagnosis.belief import Belief, believe
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.handback.proofs import judge
from bellcrank.handback.release import Answer, Decision, decide
from bellcrank.handback.triggers import asked, in_words, triggers_of
from bellcrank.knowledge.model import ReleaseItem
from bellcrank.shop.fill_causes import EVENT_SYSTEM
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord, pack_of, read_record
from bellcrank.shop.storage.events import add_event
from bellcrank.shop.storage.jobs import write_state
from bellcrank.shop.texts import LONG, clean
from bellcrank.shop.work import IN, OUT

READY, READY_WITH_NOTES = "ready", "ready with notes"
NOT_READY, GONE = "returned not ready", "gone"
LIKELY_STRIKE = 0.5  # [-] an event this likely on arrival is treated as having happened


def decision_of(shop: Shop, job: JobRecord, belief: Belief | None) -> tuple[Decision, tuple[str, ...]]:
    """Decide whether a job's machine may go back as ready; give the decision and what brought the list about."""
    touched = touched_at(shop, job)
    struck = belief is not None and _struck(shop, job, belief)
    triggers = triggers_of(struck, frozenset(touched))
    answers = {event.body["item"]: Answer(event.body["values"], event.id) for event in job.standing("proof")}
    return decide(asked(shop.library.release_items, triggers), answers, touched), in_words(triggers)


def touched_at(shop: Shop, job: JobRecord) -> dict[str, int]:
    """Give what was touched on the machine and when last, by repairs done and steps ticked."""
    pack = pack_of(shop, job.job)
    repairs = {repair.id: repair.touches for repair in pack.repairs}
    steps = {one.id: one.touches for assembly in pack.assemblies for one in assembly.operations}
    touched: dict[str, int] = {}
    for event in job.standing("repaired", "step"):
        if event.kind == "repaired":
            names = repairs.get(event.body["repair"], ())
        else:
            names = steps.get(event.body["operation"], ()) if event.body["direction"] in (IN, OUT) else ()
        touched.update(dict.fromkeys(names, event.id))
    return touched


def _struck(shop: Shop, job: JobRecord, belief: Belief) -> bool:
    events = [cause.id for cause in pack_of(shop, job.job).causes if cause.system == EVENT_SYSTEM]
    return any(belief.on_arrival[name] >= LIKELY_STRIKE for name in events)


def record_proof(shop: Shop, number: int, item: str, answer: Mapping[str, str], by: str = "") -> int:
    """Record the answer to an item of the release list; one that cannot be read is refused."""
    job = read_record(shop, number)
    judge(_item(shop, item), answer)
    values = {name: clean(value, "The answer") for name, value in answer.items()}
    with shop.storage.writing() as connection:
        body = {"item": item, "values": values}
        return add_event(connection, job.job.id, "proof", body, by=by, now=shop.now())


def _item(shop: Shop, item: str) -> ReleaseItem:
    found = next((one for one in shop.library.release_items if one.id == item), None)
    if found is None:
        raise NotFound(f"There is no item “{item}” on the release list. Pick one from the list.", "item")
    return found


def hand_back(shop: Shop, number: int, *, ready: bool, reason: str = "", by: str = "") -> str:
    """Mark the machine ready, or record that it went back not ready; give the new state."""
    job = read_record(shop, number)
    case = job.case
    belief = believe(shop.compiled[job.job.machine.kind], case) if case.complaints else None
    decision, _ = decision_of(shop, job, belief)
    why = clean(reason, "What was declined", longest=LONG, field="reason")
    if ready and not decision.ready:
        raise NotAllowedNow(
            f"Job {number} cannot be marked ready: {decision.blocking[0]}"
            + (f" And {len(decision.blocking) - 1} more." if len(decision.blocking) > 1 else "")
        )
    if not ready and not why:
        raise NotUnderstood("Write what was declined and by whom; it goes back with the machine.", "reason")
    state = (READY_WITH_NOTES if decision.notes else READY) if ready else NOT_READY
    _write(shop, job, state, {"state": state, "reason": why, "open": list(decision.blocking)}, by)
    return state


def picked_up(shop: Shop, number: int, by: str = "") -> str:
    """Record that the customer fetched a machine that is ready."""
    job = read_record(shop, number)
    if job.job.state not in (READY, READY_WITH_NOTES):
        raise NotAllowedNow(
            f"Job {number} is not marked ready. Go through the release list first, or hand it back as not ready."
        )
    _write(shop, job, GONE, {"state": GONE, "reason": "", "open": []}, by)
    return GONE


def _write(shop: Shop, job: JobRecord, state: str, body: Mapping[str, object], by: str) -> None:
    now = shop.now()
    with shop.storage.writing() as connection:
        add_event(connection, job.job.id, "state", body, by=by, now=now)
        write_state(connection, job.job.id, state, now)
