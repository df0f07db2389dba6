"""Filling in the causes, the next steps and the cure of a job sheet."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from bellcrank.diagnosis.aftermath import look_also
from bellcrank.diagnosis.allowed import outcomes_open
from bellcrank.diagnosis.because import cause_words, how_sure, reasons_for_all
from bellcrank.diagnosis.belief import Belief, still_standing
from bellcrank.diagnosis.case import Repaired
from bellcrank.diagnosis.counted import Terms
from bellcrank.diagnosis.network import NOT_LISTED, CompiledPack
from bellcrank.diagnosis.next_step import NextStep, rank
from bellcrank.diagnosis.tools import with_tools
from bellcrank.knowledge.model import Hazard, Library
from bellcrank.quote.estimate import Rates
from bellcrank.quote.worth import money_expected
from bellcrank.shop.fill_because import reason_lines
from bellcrank.shop.price_sheet import ExpectedLine
from bellcrank.shop.sheet import CauseLine, ChoiceLine, CureLine, NextLine
from bellcrank.shop.tools import ToolTerms, lacking_line
from bellcrank.shop.work_sheet import CautionLine

LEAST_SHOWN = 0.01  # [-] causes less likely are not worth a line
MOST_SHOWN = 20
EVENT_SYSTEM = "event"
LIKELY_EVENT = 0.5  # [-] an event at least this likely is told as what it began with
SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
MOST_DANGERS = 1  # on one screen; the rest of the DANGERs say the same of the same lead


def cause_lines(compiled: CompiledPack, belief: Belief) -> tuple[CauseLine, ...]:
    """Give the causes, most likely first, with their reasons; past events are no causes to mend and are left out."""
    likely = sorted(((n, p) for n, p in belief.now.items() if not is_event(compiled, n)), key=lambda pair: -pair[1])
    names = [name for name, probability in likely if probability >= LEAST_SHOWN][:MOST_SHOWN]
    return lines_of(compiled, belief, names)


def is_event(compiled: CompiledPack, name: str) -> bool:
    """Whether this happened to the machine, like a strike, and cannot be found in it."""
    return name != NOT_LISTED and compiled.causes[name].system == EVENT_SYSTEM


def lines_of(compiled: CompiledPack, belief: Belief, names: Iterable[str]) -> tuple[CauseLine, ...]:
    """Give some causes with their reasons, in the order named."""
    chosen = tuple(names)
    reasons = reasons_for_all(compiled, belief, chosen)
    return tuple(
        CauseLine(
            id=name,
            words=cause_words(compiled, name),
            probability=belief.now[name],
            how_sure=how_sure(belief.now[name]),
            reasons_for=reason_lines(reasons[name].speaks_for),
            reasons_against=reason_lines(reasons[name].speaks_against),
            severity="" if name == NOT_LISTED else compiled.causes[name].severity,
            repair=None if name == NOT_LISTED else compiled.causes[name].repair,
        )
        for name in chosen
    )


@dataclass(frozen=True, slots=True)
class Counting:
    """What a job's plan counts with, and how its money is said."""

    terms: Terms
    rates: Rates
    places: int  # digits after the point
    tools: ToolTerms


def next_lines(compiled: CompiledPack, belief: Belief, library: Library, counting: Counting) -> tuple[NextLine, ...]:
    """Give what can be done next, best first."""
    return lines_of_steps(compiled, belief, library, rank(compiled, belief, counting.terms), counting)


def lines_of_steps(
    compiled: CompiledPack, belief: Belief, library: Library, steps: Iterable[NextStep], counting: Counting
) -> tuple[NextLine, ...]:
    """Say steps as lines, each with its money; what takes a tool that is not there says so and does not stand first."""
    tooled = with_tools(compiled, belief, tuple(steps), counting.tools.missing)
    return tuple(
        replace(
            _next(compiled, one, belief, library),
            ahead=_ahead(one, counting),
            lacking=lacking_line(tooled.lacking.get((one.kind, one.id)), library, counting.tools),
        )
        for one in tooled.steps
    )


def _ahead(step: NextStep, counting: Counting) -> ExpectedLine:
    rates, places = counting.rates, counting.places
    return ExpectedLine(
        work_minutes=step.work_minutes,
        price=money_expected(step.work_minutes, step.parts_money, rates, places),
        parts=money_expected(0.0, step.parts_money, rates, places),
        given_up=step.given_up,
        says_no=step.says_no,
    )


def _next(compiled: CompiledPack, step: NextStep, belief: Belief, library: Library) -> NextLine:
    one = compiled.checks.get(step.id) if step.kind == "check" else compiled.repairs.get(step.id)
    chances = dict(step.outcomes)
    results = compiled.checks[step.id].results if step.kind == "check" else ()
    scale = compiled.checks[step.id].scale if step.kind == "check" else None
    return NextLine(
        kind=step.kind,
        id=step.id,
        words=step.words,
        why=step.why,
        minutes=step.minutes,
        access_minutes=step.access_minutes,
        expected_minutes=step.expected_minutes,
        saves_per_minute=step.saves_per_minute,
        choices=tuple(ChoiceLine(result.id, result.words, chances[result.id]) for result in results),
        tools=one.tools if one else (),
        off_first=one.off_first if one else (),
        open_first=tuple(compiled.accesses[name].words for name in step.open_first),
        cautions=caution_lines(one.hazards if one else (), library.hazards),
        target=_target(compiled, step),
        outcomes=outcomes_open(compiled, belief.case, step.id) if step.kind == "repair" else (),
        reading_unit=scale.unit if scale else "",
        instrument=scale.words() if scale else "",
    )


def _target(compiled: CompiledPack, step: NextStep) -> str | None:
    """Give the part of the assembly the step leads to, when a way to it is known."""
    parts = {part for assembly in compiled.pack.assemblies for part in assembly.targets}
    if step.kind == "repair" and compiled.repairs[step.id].target in parts:
        return compiled.repairs[step.id].target
    opens = [compiled.accesses[name].opens for name in step.open_first]
    return next((part for part in reversed(opens) if part in parts), None)


def caution_lines(names: Iterable[str], hazards: Mapping[str, Hazard]) -> tuple[CautionLine, ...]:
    """Give the cautions, the gravest first, at most one DANGER."""
    known = [hazards[name] for name in dict.fromkeys(names)]
    known.sort(key=lambda hazard: SIGNALS.index(hazard.signal))
    dangers = [hazard for hazard in known if hazard.signal == SIGNALS[0]][:MOST_DANGERS]
    rest = [hazard for hazard in known if hazard.signal != SIGNALS[0]]
    return tuple(
        CautionLine(hazard.id, hazard.signal, hazard.control, hazard.consequence, hazard.source)
        for hazard in (*dangers, *rest)
    )


def cure_line(compiled: CompiledPack, belief: Belief) -> CureLine:
    """Say whether it is likely cured, and what else to look for."""
    repairs = [event for event in belief.case.events if isinstance(event, Repaired)]
    if not repairs:
        return CureLine("open", "", ())
    also = lines_of(compiled, belief, (companion.cause for companion in look_also(compiled, belief)))
    last = compiled.repairs[repairs[-1].repair].words
    if belief.case.cured and not belief.cured:
        told = {one.id: one.words for one in compiled.pack.complaints}
        left = " and ".join(f"“{told[one]}”" for one in still_standing(compiled, belief.case))
        return CureLine("open", f"“{last}” cured a part of it, but {left} still stands. Go on with that.", also)
    if belief.cured:
        words = f"“{last}” cured it."
        began = _began_with(compiled, belief)
        if began:
            words += f" It most likely began with this: {began}."
        if also:
            words += " That may have done more: look for these before it is closed."
        return CureLine("cured", words, also)
    if repairs[-1].outcome == "not-tried":
        return CureLine("open", f"“{last}” is done but not tried: start it and record what it does.", also)
    return CureLine("not cured", f"“{last}” did not cure it; the causes are weighed anew with that.", also)


def _began_with(compiled: CompiledPack, belief: Belief) -> str:
    events = [name for name in compiled.causes if is_event(compiled, name) and belief.now[name] >= LIKELY_EVENT]
    return ", ".join(f"{compiled.causes[name].words} ({how_sure(belief.now[name])})" for name in events)
