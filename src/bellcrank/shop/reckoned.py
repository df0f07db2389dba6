"""Answers of the numbers bench put into a job's step, each with what it was worked out from."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from bellcrank.both_systems import show_torque
from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood
from bellcrank.knowledge.assembly import Assembly, Operation
from bellcrank.shop.findings import take_back
from bellcrank.shop.machine_model import assemblies_for
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord, read_record, record
from bellcrank.shop.rooms import room_named
from bellcrank.shop.settings import read_settings
from bellcrank.shop.storage.events import KeptEvent
from bellcrank.shop.storage.things import read_torques
from bellcrank.shop.work_sheet import ReckonedLine
from bellcrank.sources import Basis


def operation_of(shop: Shop, number: int, operation: str) -> Operation:
    """Give a step of the machine on that job."""
    return _found(shop, number, operation)[1]


def keep_reckoned(shop: Shop, number: int, operation: str, room: str, typed: Mapping[str, str], by: str = "") -> int:
    """Work an answer out and keep it for a step of a job, with what it was worked out from."""
    step, asked = operation_of(shop, number, operation), room_named(room)
    if not asked.ready(typed):
        raise NotUnderstood("There is no answer to put into the job yet. Answer the questions first.")
    answer = asked.answered(shop.library, typed, read_settings(shop).torque_unit)
    body: dict[str, object] = {
        "room": room,
        "operation": step.id,
        "said": answer.said,
        "sentences": [*answer.sentences, *(f"{words}: {value}" for words, value in answer.lines)],
        "basis": str(Basis.COMPUTED),
        "told": asked.told(typed),
        "assumed": asked.assumed(typed),
    }
    return record(shop, number, "reckoned", body, by=by)


@dataclass(frozen=True, slots=True)
class StandingAnswer:
    """An answer that stands in a step of a job."""

    entry: int  # of the job's history, by which it is taken back
    operation: str
    do: str  # what is done in that step
    answer: ReckonedLine


def standing_answers(shop: Shop, number: int) -> tuple[StandingAnswer, ...]:
    """Give what was worked out for the steps of a job and stands there, the last answer to each question."""
    job = read_record(shop, number)
    steps = {step.id: step.do for assembly in assemblies_for(shop, job) for step in assembly.operations}
    last = _last(job).values()
    return tuple(
        StandingAnswer(one.id, one.body["operation"], steps.get(one.body["operation"], ""), _line(one.body))
        for one in last
    )


def take_back_reckoned(shop: Shop, number: int, operation: str, room: str, by: str = "") -> int:
    """Take back the answer to a question that stands in a step, and give the number of its entry."""
    step, asked = operation_of(shop, number, operation), room_named(room)
    kept = _last(read_record(shop, number)).get((step.id, asked.key))
    if kept is None:
        raise NotAllowedNow(
            f"No answer to “{asked.title}” stands in the step “{step.do}” of job {number}. Look at what stands there."
        )
    take_back(shop, number, kept.id, by)
    return kept.id


def with_machine(shop: Shop, number: int, operation: str, room: str, typed: Mapping[str, str]) -> dict[str, str]:
    """Give what was typed, and what the machine tells by itself where nothing was typed in its place."""
    replaced = room_named(room).replaced(typed)
    known = told_by_machine(shop, number, operation, room)
    return {name: value for name, value in known.items() if name not in replaced} | dict(typed)


def reckoned_lines(job: JobRecord) -> dict[str, tuple[ReckonedLine, ...]]:
    """Give what was worked out for the steps of a job, by step, the last answer to each question."""
    lines: dict[str, tuple[ReckonedLine, ...]] = {}
    for (operation, _), event in _last(job).items():
        lines[operation] = (*lines.get(operation, ()), _line(event.body))
    return lines


def _last(job: JobRecord) -> dict[tuple[str, str], KeptEvent]:
    """Give the last answer to each question of each step."""
    return {(event.body["operation"], event.body["room"]): event for event in job.standing("reckoned")}


def _line(body: Mapping[str, Any]) -> ReckonedLine:
    room = room_named(body["room"])
    return ReckonedLine(
        room=room.key,
        title=room.title,
        said=body["said"],
        sentences=tuple(body["sentences"]),
        basis=body["basis"],
        told=room.in_words(body["told"]),
        assumed=room.in_words(body["assumed"]),
        typed=dict(body["told"]),
    )


def told_by_machine(shop: Shop, number: int, operation: str, room: str) -> dict[str, str]:
    """Give what a machine tells a room by itself: the nut on its taper, and its torque where one is known."""
    fields = {one.name for one in room_named(room).fields}
    assembly, _ = _found(shop, number, operation)
    nut = next(
        (one for step in assembly.operations for one in step.fasteners if one.id == assembly.taper_nut and one.thread),
        None,
    )
    if nut is None or "nut" not in fields:
        return {}
    with shop.storage.reading() as connection:
        kept = read_torques(connection, read_record(shop, number).job.machine.id).get(nut.id)
    known = kept.typed if kept is not None else ""
    if not known and nut.published_torque_nm is not None:
        known = show_torque(nut.published_torque_nm, read_settings(shop).torque_unit)
    return {"nut": nut.thread} | ({"nut_torque": known} if known else {})


def _found(shop: Shop, number: int, operation: str) -> tuple[Assembly, Operation]:
    for assembly in assemblies_for(shop, read_record(shop, number)):
        for step in assembly.operations:
            if step.id == operation:
                return assembly, step
    raise NotFound(f"There is no step “{operation}” on this machine. Pick one from the job's steps.", "operation")
