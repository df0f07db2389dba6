"""Lines of a sheet for the steps of a way in or out, and for the tools to fetch before the first of them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from bellcrank.knowledge.assembly import BEHIND, FIRST, HELD, Assembly, Operation
from bellcrank.knowledge.model import Hazard, Tool
from bellcrank.shop.fill_causes import caution_lines
from bellcrank.shop.tools import ToolTerms, where_to_get
from bellcrank.shop.work import IN, OUT
from bellcrank.shop.work_sheet import FastenerLine, FetchLine, GapLine, StepLine
from bellcrank.teardown.safety import PLUG_LEAD
from bellcrank.teardown.steps import PlannedStep, turn_words

WHY = {FIRST: "comes before the {}", HELD: "holds the {}", BEHIND: "is in front of the {}"}


def lines_in(
    assembly: Assembly,
    steps: Iterable[PlannedStep],
    fasteners: Mapping[str, FastenerLine],
    hazards: Mapping[str, Hazard],
) -> tuple[StepLine, ...]:
    """Lay out the steps of a way in: what each opens is said with it."""
    parts = {one.id: one.part.replace("-", " ") for one in assembly.operations}
    return tuple(
        replace(
            _line(IN, place, assembly, step, fasteners, hazards, _sentences(step.operation.gives)),
            why=_why(step, parts),
        )
        for place, step in enumerate(steps, start=1)
    )


def _why(step: PlannedStep, parts: Mapping[str, str]) -> tuple[str, ...]:
    if step.operation.part == PLUG_LEAD:
        return ("keeps the engine from firing",)
    return tuple(dict.fromkeys(WHY[one.why].format(parts[one.step]) for one in step.why if one.step))


def lines_out(
    assembly: Assembly,
    steps: Iterable[PlannedStep],
    fasteners: Mapping[str, FastenerLine],
    hazards: Mapping[str, Hazard],
) -> tuple[StepLine, ...]:
    """Lay out the steps of a way back, with what to see to before going on."""
    return tuple(
        _line(OUT, place, assembly, step, fasteners, hazards, step.checks) for place, step in enumerate(steps, start=1)
    )


def _line(
    direction: str,
    place: int,
    assembly: Assembly,
    step: PlannedStep,
    fasteners: Mapping[str, FastenerLine],
    hazards: Mapping[str, Hazard],
    checks: Sequence[str],
) -> StepLine:
    operation, back = step.operation, direction == OUT
    return StepLine(
        number=place,
        direction=direction,
        operation=operation.id,
        do=step.words,
        tool=step.tool,
        minutes=step.minutes,
        orientation=step.orientation,
        turn_first=turn_words(assembly, step.orientation) if step.turn_first else "",
        fasteners=tuple(fasteners[one.id] for one in step.fasteners),
        cautions=caution_lines(step.hazards, hazards),
        checks=tuple(checks),
        done=False,
        numbers=operation.numbers,
        reckoned=(),
        part=operation.part,
        hidden=operation.hidden,
        gaps=_gaps(operation) if back else (),
        free=operation.free if back else (),
        why=(),
        renew=operation.renew if back else (),
    )


def _sentences(words: str) -> tuple[str, ...]:
    return (words[:1].upper() + words[1:],) if words else ()


def _gaps(operation: Operation) -> tuple[GapLine, ...]:
    return tuple(
        GapLine(one.where, one.low_mm, one.high_mm, str(one.origin.basis), one.origin.source) for one in operation.gaps
    )


def fetch_lines(names: Iterable[str], tools: Mapping[str, Tool], terms: ToolTerms) -> tuple[FetchLine, ...]:
    """Say of every tool whether it is here, and where to get one that is not; those not here come first."""
    lines = [
        FetchLine(name, name not in terms.missing, where_to_get((tools[name],), terms) if name in terms.missing else "")
        for name in names
    ]
    return tuple(sorted(lines, key=lambda line: line.here))
