"""A job replayed step by step: what was known, what was believed, what was advised and what was done instead."""

from dataclasses import dataclass, replace
from itertools import pairwise

from bellcrank.diagnosis.allowed import access_minutes, open_now
from bellcrank.diagnosis.because import cause_words, how_sure
from bellcrank.diagnosis.belief import Belief, believe
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.errors import NotFound
from bellcrank.shop.fill_causes import Counting, cure_line, is_event, next_lines
from bellcrank.shop.fill_sheet import machine_line
from bellcrank.shop.premises import Shop
from bellcrank.shop.records import JobRecord, read_record
from bellcrank.shop.replay_sheet import BelievedLine, DoneLine, PathLine, ReplaySheet, ReplayStep
from bellcrank.shop.settings import read_settings
from bellcrank.shop.sheet import CureLine, NextLine
from bellcrank.shop.storage.events import KeptEvent
from bellcrank.shop.tell import tell
from bellcrank.shop.weighed import compiled_of, counting_of
from bellcrank.shop.why import refuse_without_complaint
from bellcrank.shop.words import minutes

WEIGHED = ("complaint", "told", "found", "repaired")  # what belief follows from
DOOR = frozenset({"complaint", "told"})
CAUSES_SHOWN = 5
ALSO_ADVISED = 2
LEAST_LONGER = 1.0  # [min] less is not worth saying


@dataclass(frozen=True, slots=True, eq=False)
class _Moment:
    """The job as it stood after some of its events."""

    came: tuple[KeptEvent, ...]  # with this step
    job: JobRecord
    compiled: CompiledPack


@dataclass(frozen=True, slots=True, eq=False)
class _Then:
    """What was believed and advised at a moment."""

    belief: Belief
    next: tuple[NextLine, ...]
    cure: CureLine


def replay(shop: Shop, number: int) -> ReplaySheet:
    """Replay a job from the door; what was taken back is left out."""
    job = read_record(shop, number)
    refuse_without_complaint(job)
    moments = _moments(shop, job)
    settings = read_settings(shop)
    counting = [counting_of(shop, one.job, settings) for one in moments]  # without limits: those are of another time
    question = ("replay", *((one.compiled, one.job.case) for one in moments), counting[0])
    thens = shop.answers.answer(
        question, lambda: tuple(_then(shop, one, counts) for one, counts in zip(moments, counting, strict=True))
    )
    paths, rest = _paths(moments[-1].compiled, [one.belief for one in thens])
    return ReplaySheet(
        number=number,
        machine=machine_line(job.job.machine, moments[-1].compiled.pack).words,
        complaint_words=job.job.complaint_words,
        steps=tuple(_step(at, moments, thens) for at in range(len(moments))),
        paths=paths,
        rest=rest,
    )


def step_of(sheet: ReplaySheet, number: int) -> ReplayStep:
    """Give a step of a replayed job, or refuse with those there are."""
    if not 0 <= number < len(sheet.steps):
        last = len(sheet.steps) - 1
        raise NotFound(
            f"There is no step {number} on job {sheet.number}. It must be from 0, the door, to {last}.", "step"
        )
    return sheet.steps[number]


def _moments(shop: Shop, job: JobRecord) -> list[_Moment]:
    """Cut the job after what was told at the door, until a complaint is known, and then after each event."""
    events = tuple(job.standing(*WEIGHED))
    known = next(at for at, one in enumerate(events) if one.kind == "complaint") + 1
    at_work = next((at for at, one in enumerate(events) if one.kind not in DOOR), len(events))
    cuts = [0, *range(max(known, at_work), len(events) + 1)]
    made = []
    for before, cut in pairwise(cuts):
        so_far = JobRecord(job.job, events[:cut])
        made.append(_Moment(events[before:cut], so_far, compiled_of(shop, so_far)))
    return made


def _then(shop: Shop, moment: _Moment, counting: Counting) -> _Then:
    belief = believe(moment.compiled, moment.job.case)
    return _Then(
        belief, next_lines(moment.compiled, belief, shop.library, counting), cure_line(moment.compiled, belief)
    )


def _step(at: int, moments: list[_Moment], thens: tuple[_Then, ...]) -> ReplayStep:
    moment, then = moments[at], thens[at]
    return ReplayStep(
        number=at,
        kind=moment.came[-1].kind if at else "door",
        words=tuple(tell(event, moment.compiled.pack) for event in moment.came),
        causes=_believed(moment.compiled, then.belief, thens[at - 1].belief if at else None),
        surprise=then.belief.disagreement,
        cure_words=then.cure.words,
        advised=then.next[0] if then.next else None,
        also_advised=tuple(one.words for one in then.next[1 : 1 + ALSO_ADVISED]),
        done=_done(moment, then, moments[at + 1].came[0]) if at + 1 < len(moments) else None,
    )


def _believed(compiled: CompiledPack, belief: Belief, before: Belief | None) -> tuple[BelievedLine, ...]:
    names = sorted((one for one in belief.now if not is_event(compiled, one)), key=lambda name: -belief.now[name])
    return tuple(
        BelievedLine(
            id=name,
            words=cause_words(compiled, name),
            probability=belief.now[name],
            how_sure=how_sure(belief.now[name]),
            before=before.now[name] if before else None,
        )
        for name in names[:CAUSES_SHOWN]
    )


def _done(moment: _Moment, then: _Then, event: KeptEvent) -> DoneLine:
    """Hold what was done next against what was advised."""
    kind = {"found": "check", "repaired": "repair"}.get(event.kind, event.kind)
    name = str(event.body.get("check", event.body.get("repair", "")))
    listed = next((one for one in then.next if (one.kind, one.id) == (kind, name)), None)
    advised = then.next[0] if then.next else None
    longer = listed.expected_minutes - advised.expected_minutes if listed and advised else None
    done = DoneLine(
        words=tell(event, moment.compiled.pack),
        said="",
        kind=kind,
        id=name,
        as_advised=listed is not None and listed is advised,
        minutes=_minutes(moment, kind, name),
        longer_minutes=longer if longer is not None and longer >= LEAST_LONGER else None,
    )
    return replace(done, said=_said(done))


def _said(done: DoneLine) -> str:
    """Say what was done, with its minutes and what it cost against the advice."""
    time = f", about {minutes(done.minutes)}" if done.minutes is not None else ""
    if done.as_advised:
        return f"{done.words}{time}. That was the advice."
    longer = f" That way looked {minutes(done.longer_minutes)} longer." if done.longer_minutes else ""
    return f"{done.words}{time}.{longer}"


def _minutes(moment: _Moment, kind: str, name: str) -> float | None:
    """Give the usual minutes of a check or repair there and then; what is told takes none."""
    compiled, flags = moment.compiled, open_now(moment.compiled, moment.job.case)
    if kind == "check" and name in compiled.checks:
        check = compiled.checks[name]
        return check.minutes + access_minutes(compiled, check.access, flags)
    if kind == "repair" and name in compiled.repairs:
        repair = compiled.repairs[name]
        return repair.minutes[1] + access_minutes(compiled, repair.access, flags)
    return None


def _paths(compiled: CompiledPack, beliefs: list[Belief]) -> tuple[tuple[PathLine, ...], tuple[float, ...]]:
    """Follow the causes that were once most likely, the last belief first, and the likeliest of all others."""
    names = [name for name in beliefs[0].now if not is_event(compiled, name)]
    peak = {name: max(belief.now[name] for belief in beliefs) for name in names}
    chosen = sorted(names, key=lambda name: -peak[name])[:CAUSES_SHOWN]
    chosen.sort(key=lambda name: -beliefs[-1].now[name])
    others = [name for name in names if name not in chosen]
    paths = [PathLine(one, cause_words(compiled, one), tuple(belief.now[one] for belief in beliefs)) for one in chosen]
    return tuple(paths), tuple(max((belief.now[name] for name in others), default=0.0) for belief in beliefs)
