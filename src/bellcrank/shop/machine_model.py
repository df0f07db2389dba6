"""How the machine of a job comes apart, as far as this shop knows: drawn, recorded at the bench, and as it was found.

What was found on a machine holds for all its jobs; what is missing only for the job it was missed on, since a new one
goes in. What is kept for every machine like this comes before what is drawn for the kind.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from bellcrank.knowledge.assembly import Assembly
from bellcrank.knowledge.assembly_text import assembly
from bellcrank.knowledge.model import Pack
from bellcrank.shop.captured_sheet import FoundLine
from bellcrank.shop.packs import pack_now
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import CAPTURED, RECORDED, JobRecord
from bellcrank.shop.storage.jobs import KeptMachine
from bellcrank.shop.storage.own_models import KeptModel, LikeThis, read_events_of_machine, read_own_models
from bellcrank.teardown.as_found import MISSING, Captured, NewLength, alike, as_found, conditions_of
from bellcrank.teardown.recorded import RecordedFastener, RecordedStep, recorded_assembly


@dataclass(frozen=True, slots=True)
class Found:
    """One thing found, with where it is from."""

    captured: Captured
    event: int
    job_id: int  # of the job it was found on; 0 when it is kept from another machine
    said: str


@dataclass(frozen=True, slots=True)
class Known:
    """What is kept that changes how a machine comes apart."""

    models: tuple[Assembly, ...]  # kept for machines like this, the nearest first
    found: tuple[Found, ...]


def assemblies_for(shop: Shop, job: JobRecord) -> tuple[Assembly, ...]:
    """Give the assemblies of a job's machine as they are known now, the one to be used first first."""
    known = known_of(shop, job.job.machine)
    drawn = drawn_for(shop, job)
    captured = [one.captured for one in _holding(known, job)]
    return tuple(as_found(one, captured) for one in drawn) if captured else drawn


def drawn_for(shop: Shop, job: JobRecord) -> tuple[Assembly, ...]:
    """Give the assemblies before anything found on the machine: recorded on this job, kept, drawn for the kind."""
    recording = recording_of(job)
    models = known_of(shop, job.job.machine).models
    return (*((recording,) if recording else ()), *models, *pack_now(shop, job.job.machine.kind).assemblies)


def pack_of_kind(shop: Shop, kind: str) -> Pack:
    """Give the pack of a kind with the assemblies of any machine of it, and what is kept for every one of them."""
    known = known_of(shop, KeptMachine(id=0, kind=kind, maker="", model="", serial="", engine_card=""))
    pack, captured = pack_now(shop, kind), [one.captured for one in known.found]
    return replace(pack, assemblies=tuple(as_found(one, captured) for one in (*known.models, *pack.assemblies)))


def conditions_for(shop: Shop, job: JobRecord) -> Mapping[str, frozenset[str]]:
    """Give the conditions found on the fasteners of each step."""
    return conditions_of(one.captured for one in _holding(known_of(shop, job.job.machine), job))


def found_on(shop: Shop, job: JobRecord) -> tuple[Found, ...]:
    """Give all that was found and holds for a job, in order."""
    return _holding(known_of(shop, job.job.machine), job)


def found_of(shop: Shop, job: JobRecord) -> tuple[FoundLine, ...]:
    """Give what was found as it is shown at the steps; what is from this job is taken back by its entry."""
    return tuple(
        FoundLine(
            operation=one.captured.operation,
            what=one.captured.what,
            fastener=one.captured.fastener,
            words=one.said,
            entry=one.event if one.job_id == job.job.id else 0,
        )
        for one in found_on(shop, job)
    )


def numbers_of(shop: Shop, job: JobRecord) -> Mapping[str, tuple[int, ...]]:
    """Give the numbers, in the order of tightening, of the fasteners that are alike, by their name as found."""
    captured = [one.captured for one in found_on(shop, job)]
    steps = (step for one in drawn_for(shop, job) for step in one.operations)
    return {part.fastener.id: part.numbers for step in steps for part in alike(step.fasteners, captured)}


def pack_for(shop: Shop, job: JobRecord) -> Pack:
    """Give the pack of a job's kind of machine with the assemblies of this machine."""
    return replace(pack_now(shop, job.job.machine.kind), assemblies=assemblies_for(shop, job))


def known_of(shop: Shop, machine: KeptMachine) -> Known:
    """Read what is kept of a machine; the file is asked once for each time somebody wrote into it."""
    return shop.answers.answer(("machine", machine, shop.storage.mark()), lambda: _read(shop, machine))


def like(machine: KeptMachine) -> LikeThis:
    """Give which machines are like this one: of the same maker and model where these were typed, else of the kind."""
    return LikeThis(machine.kind, machine.maker, machine.model)


def like_words(shop: Shop, machine: KeptMachine, kept: LikeThis | None = None) -> str:
    """Name the machines like this one, or those something is kept for."""
    of_all = kept is not None and kept.of_all
    named = "" if of_all else " ".join(part for part in (machine.maker, machine.model) if part)
    return f"every {named or re.split('[,:]', shop.library.packs[machine.kind].words)[0]}"


def recording_name(job: int) -> str:
    """Name the assembly that is recorded on a job."""
    return f"recorded-{job}"


def recorded_steps(job: JobRecord) -> tuple[RecordedStep, ...]:
    """Give the steps recorded on a job that stand."""
    return tuple(_step(event.body) for event in job.standing(RECORDED))


def recording_of(job: JobRecord) -> Assembly | None:
    """Give the assembly recorded on a job, None when nothing was recorded."""
    steps, number = recorded_steps(job), job.job.number
    return recorded_assembly(recording_name(number), f"as recorded on job {number}", steps) if steps else None


def captured_from(body: Mapping[str, Any]) -> Captured:
    """Make what was found of what is kept."""
    return Captured(
        what=body["what"],
        operation=body["operation"],
        fastener=body["fastener"],
        lengths=tuple(
            NewLength(one["fastener"], tuple(one["numbers"]), float(one["length_mm"])) for one in body["lengths"]
        ),
        condition=body["condition"],
        numbers=tuple(body["numbers"]),
        missing=body["missing"],
        words=body["words"],
    )


def model_from(kept: KeptModel) -> Assembly:
    """Make the assembly of a recorded model that is kept."""
    return assembly(f"own model {kept.id}", kept.body)


def _step(body: Mapping[str, Any]) -> RecordedStep:
    return RecordedStep(
        id=body["id"],
        do=body["do"],
        part=body["part"],
        tool=body["tool"],
        aside=body["aside"],
        lies=body["lies"],
        minutes=float(body["minutes"]),
        needs=tuple(body["needs"]),
        fasteners=tuple(RecordedFastener(**one) for one in body["fasteners"]),
    )


def _read(shop: Shop, machine: KeptMachine) -> Known:
    with shop.storage.reading() as connection:
        kept = [one for one in read_own_models(connection, machine.kind) if one.stands and _is_like(one.like, machine)]
        own = [event for event in read_events_of_machine(connection, machine, CAPTURED) if event.stands]
    here = {event.id for event in own}
    shared = [one for one in kept if one.what == CAPTURED and one.event_id not in here]
    recorded = sorted((one for one in kept if one.what == RECORDED), key=lambda one: (one.like.of_all, -one.id))
    return Known(
        models=tuple(model_from(one) for one in recorded),
        found=(
            *(Found(captured_from(one.body), one.event_id, 0, one.body["said"]) for one in shared),
            *(Found(captured_from(one.body), one.id, one.job_id, one.body["said"]) for one in own),
        ),
    )


def _is_like(kept: LikeThis, machine: KeptMachine) -> bool:
    named = (kept.maker.casefold(), kept.model.casefold())
    return kept.of_all or named == (machine.maker.casefold(), machine.model.casefold())


def _holding(known: Known, job: JobRecord) -> tuple[Found, ...]:
    return tuple(one for one in known.found if one.captured.what != MISSING or one.job_id == job.job.id)
