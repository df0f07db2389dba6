"""Lines of a sheet for the steps of a way in or out, and for the tools to fetch before the first of them."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from bellcrank.knowledge.assembly import BEHIND, FIRST, HELD, Assembly, Operation
from bellcrank.knowledge.model import Library, Tool
from bellcrank.shop.fill_causes import caution_lines
from bellcrank.shop.tools import ToolTerms, where_to_get
from bellcrank.shop.work import IN, OUT
from bellcrank.shop.work_sheet import FastenerLine, FetchLine, GapLine, StepLine
from bellcrank.sources import Source, Status
from bellcrank.teardown.safety import PLUG_LEAD
from bellcrank.teardown.steps import PlannedStep, turn_words

WHY = {HELD: "holds {}", BEHIND: "is in front of {}", FIRST: "comes before {}"}
MAKE_SAFE = "make-safe"  # the kind of step that takes nothing off


def lines_in(
    assembly: Assembly,
    steps: Iterable[PlannedStep],
    fasteners: Mapping[str, FastenerLine],
    library: Library,
) -> tuple[StepLine, ...]:
    """Lay out the steps of a way in: what each opens is said with it."""
    named = {one.id: _named(one) for one in assembly.operations}
    return tuple(
        replace(
            _line(IN, place, assembly, step, fasteners, library, _sentences(step.operation.gives)),
            why=_why(step, named),
        )
        for place, step in enumerate(steps, start=1)
    )


def _named(operation: Operation) -> str:
    """Name what waits for a step: its part, or, where something is only made safe, what is done."""
    if operation.kind == MAKE_SAFE:
        return f"“{re.split('[,:;]', operation.do)[0]}”"
    return f"the {operation.part.replace('-', ' ')}"


def _why(step: PlannedStep, named: Mapping[str, str]) -> tuple[str, ...]:
    if step.operation.part == PLUG_LEAD:
        return ("keeps the engine from firing",)
    waiting = {why: dict.fromkeys(named[one.step] for one in step.why if one.why == why) for why in WHY}
    return tuple(WHY[why].format(_listed(tuple(names))) for why, names in waiting.items() if names)


def _listed(names: Sequence[str]) -> str:
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last


def lines_out(
    assembly: Assembly,
    steps: Iterable[PlannedStep],
    fasteners: Mapping[str, FastenerLine],
    library: Library,
) -> tuple[StepLine, ...]:
    """Lay out the steps of a way back, with what to see to before going on."""
    return tuple(
        _line(OUT, place, assembly, step, fasteners, library, step.checks) for place, step in enumerate(steps, start=1)
    )


def _line(
    direction: str,
    place: int,
    assembly: Assembly,
    step: PlannedStep,
    fasteners: Mapping[str, FastenerLine],
    library: Library,
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
        cautions=caution_lines(step.hazards, library.hazards),
        checks=tuple(checks),
        done=False,
        numbers=operation.numbers,
        reckoned=(),
        part=operation.part,
        hidden=operation.hidden,
        gaps=_gaps(operation, library.sources) if back else (),
        free=operation.free if back else (),
        why=(),
        renew=operation.renew if back else (),
    )


def _sentences(words: str) -> tuple[str, ...]:
    return (words[:1].upper() + words[1:],) if words else ()


def _gaps(operation: Operation, sources: Mapping[str, Source]) -> tuple[GapLine, ...]:
    return tuple(
        GapLine(one.where, one.low_mm, one.high_mm, str(one.origin.basis), _said_of(one.origin.source, sources))
        for one in operation.gaps
    )


def _said_of(key: str, sources: Mapping[str, Source]) -> str:
    """Name a source, or say that it is memory or common practice."""
    source = sources.get(key)
    if source is None:
        return key
    return source.title if source.status in (Status.VERIFIED, Status.SECONDARY) else str(source.status)


def fetch_lines(names: Iterable[str], tools: Mapping[str, Tool], terms: ToolTerms) -> tuple[FetchLine, ...]:
    """Say of every tool whether it is here, and where to get one that is not; those not here come first."""
    lines = [
        FetchLine(name, name not in terms.missing, where_to_get((tools[name],), terms) if name in terms.missing else "")
        for name in names
    ]
    return tuple(sorted(lines, key=lambda line: line.here))
