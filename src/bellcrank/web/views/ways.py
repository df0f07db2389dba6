"""The view of the way in to parts of a kind of machine."""

from collections.abc import Container, Iterable
from dataclasses import dataclass

from bellcrank.knowledge.assembly import Assembly
from bellcrank.knowledge.model import Library, Pack
from bellcrank.shop.other_ways import OtherWays
from bellcrank.shop.ways import WayInSheet
from bellcrank.shop.words import counted, gap_in_words, minutes, why_words
from bellcrank.shop.work import NO_STEPS_YET
from bellcrank.shop.work_sheet import CautionLine, FetchLine, OtherWay, StepLine
from bellcrank.web.views.fasteners import FastenerView, fastener_view
from bellcrank.web.views.plain import Problem


@dataclass(frozen=True, slots=True)
class Picked:
    """Something to pick, and whether it is."""

    id: str
    words: str
    picked: bool


@dataclass(frozen=True, slots=True)
class WayStep:
    """A step in the list."""

    do: str
    tool: str
    time: str
    turn_first: str
    cautions: tuple[CautionLine, ...]
    told_before: tuple[CautionLine, ...]  # cautions a step before told in full
    why: str
    hidden: tuple[str, ...]
    fasteners: tuple[FastenerView, ...]
    direction: str = "in"


@dataclass(frozen=True, slots=True)
class WayView:
    """A planned way in."""

    words: str
    time: str
    changing: str
    shortest: str
    steps_words: str
    tools: tuple[str, ...]
    lacking: tuple[FetchLine, ...]
    needed: str  # tools not here that it cannot be done without
    quicker: str
    others: tuple[OtherWay, ...]
    steps: tuple[WayStep, ...]


@dataclass(frozen=True, slots=True)
class WaysPage:
    """The parts to pick, and the way in to those picked."""

    title: str
    kind: str
    kind_words: str
    kinds: tuple[tuple[str, str], ...]  # the other kinds
    parts: tuple[Picked, ...]
    way: WayView | None
    none_yet: str
    problem: Problem


@dataclass(frozen=True, slots=True)
class OtherWaysPage:
    """The other choices of a job's way in."""

    title: str
    told: OtherWays
    time: str


def other_ways_page(told: OtherWays) -> OtherWaysPage:
    """Lay out the other choices of a job's way in."""
    return OtherWaysPage("Other ways in", told, minutes(told.minutes))


def ways_page(
    library: Library, pack: Pack, named: tuple[str, ...], sheet: WayInSheet | None, problem: Problem
) -> WaysPage:
    """Lay out what may be picked, and the way in when parts were."""
    parts = target_choices(pack.assemblies)
    return WaysPage(
        title="Way in",
        kind=pack.kind,
        kind_words=pack.words,
        kinds=tuple((one.kind, one.words) for one in library.packs.values() if one.kind != pack.kind),
        parts=tuple(Picked(part, words, part in named) for part, words in parts),
        way=_way(sheet) if sheet else None,
        none_yet="" if parts else NO_STEPS_YET,
        problem=problem,
    )


def target_choices(assemblies: Iterable[Assembly]) -> tuple[tuple[str, str], ...]:
    """List the parts a way in can lead to, with their names, as in an index."""
    parts = dict.fromkeys(part for one in assemblies for part in one.targets)
    return tuple(sorted(((part, part.replace("-", " ")) for part in parts), key=lambda one: one[1]))


def _way(sheet: WayInSheet) -> WayView:
    told: set[str] = set()
    steps = []
    for step in sheet.steps:
        steps.append(_step(step, told, sheet.torque_unit))
        told.update(one.id for one in step.cautions)
    return WayView(
        words=sheet.target_words,
        time=minutes(sheet.minutes),
        changing=minutes(sheet.changeover_minutes),
        shortest=gap_in_words(sheet.minutes - sheet.bound),
        steps_words=counted(len(sheet.steps), "step", "steps"),
        tools=tuple(one.tool for one in sheet.fetch),
        lacking=tuple(one for one in sheet.fetch if not one.here),
        needed=sheet.lacking,
        quicker=sheet.quicker,
        others=sheet.others,
        steps=tuple(steps),
    )


def _step(step: StepLine, told: Container[str], unit: str) -> WayStep:
    return WayStep(
        do=step.do,
        tool="" if step.tool == "hand" else step.tool,
        time=minutes(step.minutes),
        turn_first=step.turn_first,
        cautions=tuple(one for one in step.cautions if one.id not in told),
        told_before=tuple(one for one in step.cautions if one.id in told),
        why=why_words(step.why),
        hidden=step.hidden,
        fasteners=tuple(fastener_view(one, unit) for one in step.fasteners),
    )
