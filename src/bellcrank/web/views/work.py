"""The view of the way in and the way out: one step a screen, and the whole list on the sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import urlencode

from bellcrank.shop.captured_sheet import CaptureSheet
from bellcrank.shop.computed import joint_words
from bellcrank.shop.rooms import ROOMS, STRIP
from bellcrank.shop.words import counted, gap_in_words, gap_words, minutes, why_words
from bellcrank.shop.work_sheet import CautionLine, FetchLine, ReckonedLine, StepLine, WorkSheet
from bellcrank.web.views.capture import CaptureView, capture_view
from bellcrank.web.views.fasteners import FastenerView, fastener_view


@dataclass(frozen=True, slots=True)
class ReckonedView:
    """An answer of the numbers bench that was put into a step."""

    title: str
    said: str
    sentences: tuple[str, ...]
    basis: str
    from_words: str
    again: str  # the address that works it out again


@dataclass(frozen=True, slots=True)
class StepView:
    """One step."""

    number: int
    direction: str
    operation: str
    do: str
    tool: str
    time: str
    turn_first: str
    fasteners: tuple[FastenerView, ...]
    torques: tuple[str, ...]  # of its fasteners, each once
    cautions: tuple[CautionLine, ...]
    checks: tuple[str, ...]
    hidden: tuple[str, ...]
    why: str  # what it is done for, "" for what is to be got at
    renew: tuple[str, ...]
    gaps: tuple[tuple[str, str, str, str], ...]  # where, how wide, basis, source
    done: bool
    reckoned: tuple[ReckonedView, ...]
    work_out: tuple[tuple[str, str], ...]  # numbers worth working out here, with their addresses
    capture: CaptureView


@dataclass(frozen=True, slots=True)
class WorkView:
    """The whole way."""

    targets: tuple[str, ...]
    target_words: str
    tools: tuple[str, ...]
    lacking: tuple[FetchLine, ...]
    steps_in: tuple[StepView, ...]
    steps_out: tuple[StepView, ...]
    time_in: str
    time_out: str
    between: str
    shortest: str  # whether a shorter way in may exist, and by how much
    progress_words: str
    tray: str
    current: StepView | None
    started: bool


def work_view(number: int, work: WorkSheet, unit: str) -> WorkView:
    """Lay out the way in and out."""
    steps_in = tuple(_step(number, step, unit, work.captured) for step in work.steps_in)
    steps_out = tuple(_step(number, step, unit, work.captured) for step in work.steps_out)
    done = sum(step.done for step in (*steps_in, *steps_out))
    return WorkView(
        targets=work.targets,
        target_words=work.target_words,
        tools=work.tools,
        lacking=tuple(one for one in work.fetch if not one.here),
        steps_in=steps_in,
        steps_out=steps_out,
        time_in=minutes(work.minutes_in),
        time_out=minutes(work.minutes_out),
        between=work.work_between,
        shortest=gap_in_words(work.gap),
        progress_words=f"{done} of {len(steps_in) + len(steps_out)} steps done",
        tray=counted(work.on_the_tray, "fastener on the tray", "fasteners on the tray"),
        current=_step(number, work.current, unit, work.captured) if work.current else None,
        started=done > 0,
    )


def _step(job: int, step: StepLine, unit: str, captured: CaptureSheet) -> StepView:
    place = {"job": str(job), "operation": step.operation, "way": step.direction, "step": str(step.number)}
    fasteners = tuple(fastener_view(line, unit, step.direction) for line in step.fasteners)
    return StepView(
        number=step.number,
        direction=step.direction,
        operation=step.operation,
        do=step.do,
        tool="" if step.tool == "hand" else step.tool,
        time=minutes(step.minutes),
        turn_first=step.turn_first,
        fasteners=fasteners,
        torques=tuple(dict.fromkeys(one.torque.target for one in fasteners if one.torque)),
        cautions=step.cautions,
        checks=(*step.checks, *step.free),
        hidden=step.hidden,
        why=why_words(step.why),
        renew=step.renew,
        gaps=tuple((one.where, gap_words(one), one.basis, one.source) for one in step.gaps),
        done=step.done,
        reckoned=tuple(_reckoned(one, place) for one in step.reckoned),
        work_out=(*((ROOMS[key].words, _address(key, place)) for key in step.numbers), *_strips(step, place)),
        capture=capture_view(step, captured),
    )


def _strips(step: StepLine, place: dict[str, str]) -> Iterator[tuple[str, str]]:
    """Where a thread is tightened into a part, what strips it."""
    for line in step.fasteners if step.direction == "out" else ():
        if line.fastener.thread and line.fastener.into:
            told = ROOMS[STRIP].told(joint_words(line.fastener))
            yield f"what strips the {line.fastener.words}", _address(STRIP, place | told)


def _reckoned(line: ReckonedLine, place: dict[str, str]) -> ReckonedView:
    assumed = f"; not told, so taken: {line.assumed}" if line.assumed else ""
    return ReckonedView(
        title=line.title,
        said=line.said,
        sentences=line.sentences,
        basis=line.basis,
        from_words=f"{line.told}{assumed}",
        again=_address(line.room, place | dict(line.typed)),
    )


def _address(room: str, said: dict[str, str]) -> str:
    return f"/numbers/{room}?{urlencode(said)}"
