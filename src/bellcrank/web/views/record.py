"""The views of recording a machine nobody drew up, and of what is kept of how machines come apart."""

from dataclasses import dataclass

from bellcrank.knowledge.assembly import Assembly, Fastener
from bellcrank.knowledge.model import Library
from bellcrank.shop.own_models import OwnModelLine
from bellcrank.shop.recording_typed import FastenersTyped, StepTyped
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.work_sheet import CautionLine
from bellcrank.teardown.changeover import UPRIGHT
from bellcrank.teardown.recorded import NUT
from bellcrank.web.views.plain import NO_PROBLEM, Problem

TURNED_BY = ("8 mm socket", "10 mm socket", "13 mm socket", "T25 bit", "screwdriver", "hex keys", "pliers")
LYING = (UPRIGHT, "on its side", "on its handle", "upside down")
INTO = ("cast-aluminium", "mild-steel", "thin-sheet", "plastic", "grey-iron")
CLASSES = ("8.8", "10.9", "5.8", "G5", "G8", "unmarked")


@dataclass(frozen=True, slots=True)
class RecordedView:
    """A step that was recorded."""

    operation: str
    do: str
    fasteners: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RecordPage:
    """One screen to record the step that was just done."""

    title: str
    number: int
    machine: str
    begun: bool
    steps: tuple[RecordedView, ...]  # the last first
    like: str
    every_kind: str  # what it can be kept for instead, "" where it is the same
    typed: StepTyped
    screws: FastenersTyped
    tools: tuple[str, ...]
    lying: tuple[str, ...]
    lies: str  # how it lies now
    into: tuple[tuple[str, str], ...]
    classes: tuple[str, ...]
    cautions: tuple[CautionLine, ...]  # before the first step
    problem: Problem


@dataclass(frozen=True, slots=True)
class ModelsPage:
    """What this shop keeps of how machines come apart."""

    title: str
    rows: tuple[OwnModelLine, ...]
    recorded: bool  # so that there is something to write out


def record_page(
    sheet: JobSheet,
    recording: Assembly | None,
    library: Library,
    like: tuple[str, str],
    typed: StepTyped,
    cautions: tuple[CautionLine, ...],
    problem: Problem = NO_PROBLEM,
) -> RecordPage:
    """Lay out the recording of a job; ``like`` names the machines it can be kept for, and all of the kind."""
    steps = recording.operations if recording else ()
    into = tuple((key, library.materials[key].words) for key in INTO if key in library.materials)
    return RecordPage(
        title=f"#{sheet.number} record it",
        number=sheet.number,
        machine=sheet.machine.words,
        begun=recording is not None,
        steps=tuple(
            RecordedView(one.id, one.do, tuple(_said(each) for each in one.fasteners)) for one in reversed(steps)
        ),
        like=like[0],
        every_kind=like[1] if like[1] != like[0] else "",
        typed=typed,
        screws=typed.fasteners[0] if typed.fasteners else FastenersTyped(),
        tools=TURNED_BY,
        lying=LYING,
        lies=steps[-1].orientations[0] if steps else UPRIGHT,
        into=(*into, (NUT, "through, with a nut")),
        classes=tuple(one for one in CLASSES if one in library.strength_classes),
        cautions=cautions if recording is None else (),
        problem=problem,
    )


def models_page(lines: tuple[OwnModelLine, ...]) -> ModelsPage:
    """Lay out what is kept."""
    return ModelsPage("How machines come apart", lines, any(one.stands and one.parts for one in lines))


def _said(one: Fastener) -> str:
    length = f"{one.length_mm:g} mm" if one.length_mm is not None else ""
    return ", ".join(part for part in (f"{one.count} × {one.words}", one.thread, length, one.where) if part)
