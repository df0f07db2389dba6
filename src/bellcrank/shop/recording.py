"""A machine nobody drew up, recorded while it is taken apart: at once the way of its job, and a model to be kept."""

from collections.abc import Sequence
from dataclasses import asdict, replace

from bellcrank.errors import NotAllowedNow
from bellcrank.knowledge.assembly import Assembly
from bellcrank.knowledge.assembly_tables import assembly_tables
from bellcrank.shop.captured import capture, capture_photo
from bellcrank.shop.captured_typed import Typed
from bellcrank.shop.findings import take_back
from bellcrank.shop.machine_model import like, like_words, recorded_steps, recording_name, recording_of
from bellcrank.shop.photos import check_photo
from bellcrank.shop.premises import Shop
from bellcrank.shop.recording_typed import StepTyped, plausible_minutes, read_step
from bellcrank.shop.records import MODELLED, RECORDED, JobRecord, append, read_record, record_in, refuse_when_gone
from bellcrank.shop.storage.own_models import LikeThis, add_own_model
from bellcrank.shop.texts import clean_line
from bellcrank.shop.work import IN, OUT, way_for
from bellcrank.teardown.as_found import NOTE
from bellcrank.teardown.legality import assembly_problems
from bellcrank.teardown.recorded import RecordedStep, lead_off, step_name

Photo = tuple[str, bytes]  # its file's name and what is in it
LEAD_FIRST = "First the plug lead: pull it off, tie it back, and say so. Nothing is recorded before."


def begin_recording(shop: Shop, number: int, by: str = "") -> int:
    """Record that the plug lead is off: the first step of every recording. Begun already, it stays."""
    now = shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        begun = next(job.standing(RECORDED), None)
        if begun is not None:
            return begun.id
        way = way_for(shop, job)
        if way is not None and way.off:
            raise NotAllowedNow(
                f"{len(way.off)} steps of the drawn way are off. Put them back or take their ticks off before you "
                "record a way of your own."
            )
        step = lead_off(step_name(number, "plug lead", ()))
        body = _body(step, guessed=True)
        return append(connection, job.job, RECORDED, body, by=by, now=now)


def record_step(shop: Shop, number: int, typed: StepTyped, by: str = "") -> int:
    """Record a step that was just done and give the id of its entry; the same tapped twice is kept once."""
    now = shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        refuse_when_gone(job.job)
        before = recorded_steps(job)
        if not before:
            raise NotAllowedNow(LEAD_FIRST)
        _refuse_on_the_way_back(shop, job)
        last = max(job.standing(RECORDED), key=lambda event: event.id)
        minutes, guessed = plausible_minutes((now - last.at).total_seconds() / 60)
        step = read_step(typed, before, number, minutes, shop.library)
        if len(before) > 1 and _same(step, before[-1]):
            return last.id
        return append(connection, job.job, RECORDED, _body(step, guessed=guessed), by=by, now=now)


def record_step_with(
    shop: Shop, number: int, typed: StepTyped, *, note: str = "", photos: Sequence[Photo] = (), by: str = ""
) -> int:
    """Record a step with a note and photos taken at it; a file that is no picture is refused before all."""
    for name, data in photos:
        check_photo(name, data)
    event_id = record_step(shop, number, typed, by)
    at = recorded_steps(read_record(shop, number))[-1].id
    if note.strip():
        capture(shop, number, Typed(NOTE, at=at, words=note), by)
    for name, data in photos:
        capture_photo(shop, number, at, name, data, by)
    return event_id


def take_back_last_step(shop: Shop, number: int, by: str = "") -> None:
    """Take back the step that was recorded last, also the plug lead when it stands alone."""
    last = next(reversed(list(read_record(shop, number).standing(RECORDED))), None)
    if last is None:
        raise NotAllowedNow("Nothing is recorded on this job, so there is nothing to take back.")
    take_back(shop, number, last.id, by)


def keep_as_model(shop: Shop, number: int, words: str = "", *, every_kind: bool = False, by: str = "") -> int:
    """Keep what was recorded as the shop's own model of machines like this one and give the id of its entry.

    ``every_kind`` keeps it for every machine of the kind, also when this one's maker and model are known.
    """
    now = shop.now()
    with shop.storage.writing() as connection:
        job = record_in(connection, number)
        kept = like(job.job.machine)
        if every_kind:
            kept = LikeThis(kept.kind, "", "")
        for_them = like_words(shop, job.job.machine, kept)
        said = clean_line(words, "What it is called", field="words") or f"{for_them}, as recorded on job {number}"
        model = replace(_sound(job), words=said)
        body: dict[str, object] = {"said": f"kept as the model of {for_them}: {len(model.operations)} steps"}
        known = {event.id for event in job.events}
        event_id = append(connection, job.job, MODELLED, body, by=by, now=now)
        if event_id not in known:
            add_own_model(connection, kept, event_id, RECORDED, said, assembly_tables(model))
    return event_id


def recording(shop: Shop, number: int) -> Assembly | None:
    """Give what was recorded on a job, None when nothing was."""
    return recording_of(read_record(shop, number))


def _sound(job: JobRecord) -> Assembly:
    model = recording_of(job)
    if model is None or len(model.operations) < 2:
        raise NotAllowedNow("There is nothing to keep yet: record at least one step after the plug lead.")
    wrong = assembly_problems(model)
    if wrong:
        raise NotAllowedNow(f"This recording cannot be a model: {wrong[0]}. Take that step back and record it anew.")
    return model


def _refuse_on_the_way_back(shop: Shop, job: JobRecord) -> None:
    way = way_for(shop, job)
    if way is None or way.assembly.id != recording_name(job.job.number):
        return
    if any(direction == OUT for direction, _ in way.done) or way.left(IN):
        raise NotAllowedNow("The way back has begun. Take those ticks off before you record another step.")


def _body(step: RecordedStep, *, guessed: bool) -> dict[str, object]:
    basis = "guess" if guessed else "own shop"
    return {**asdict(step), "basis": basis, "said": f"recorded: {step.do}"}


def _same(step: RecordedStep, last: RecordedStep) -> bool:
    """Whether a step is the last one told again: but for its name, its time and what it waits for."""
    return (step.do, step.part, step.tool, step.aside, step.lies, step.fasteners) == (
        last.do,
        last.part,
        last.tool,
        last.aside,
        last.lies,
        last.fasteners,
    )
