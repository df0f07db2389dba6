"""Filling in the way in and out of a job sheet."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from bellcrank.knowledge.assembly import Fastener
from bellcrank.knowledge.model import Library
from bellcrank.shop.fill_causes import caution_lines
from bellcrank.shop.hand import PersonHand, hand_beside
from bellcrank.shop.sheet import FastenerLine, ReckonedLine, RepairLine, StepLine, TorqueLine, WorkSheet
from bellcrank.shop.storage.things import KeptTorque
from bellcrank.shop.work import IN, OUT, Way
from bellcrank.sources import Basis
from bellcrank.teardown.changeover import HAND, UPRIGHT, USUAL
from bellcrank.teardown.steps import WayOut, on_the_tray, tools_in_order, turn_words
from bellcrank.teardown.torques import KnownTorque, NoTorque, torque_for
from bellcrank.teardown.way_out import way_out


@dataclass(frozen=True, slots=True)
class KeptForWork:
    """What is kept that the steps of a way show."""

    torques: Mapping[str, KeptTorque]  # known for this machine, by fastener
    reckoned: Mapping[str, tuple[ReckonedLine, ...]]  # worked out, by step
    hand: PersonHand  # the mechanic's


def work_sheet(
    way: Way, library: Library, kept: KeptForWork, between: str, repairs: tuple[RepairLine, ...], torque_unit: str
) -> WorkSheet:
    """Lay out the way with ticks, torques, what was worked out for its steps, and what the mechanic's hand does."""
    lines = {
        fastener.id: _with_hand(
            fastener_line(fastener, library, kept.torques.get(fastener.id), torque_unit), kept.hand, torque_unit
        )
        for name in way.order
        for fastener in way.operation(name).fasteners
    }
    steps_in = _steps_in(way, library, lines, kept.reckoned)
    back = way_out(way.assembly, way.order, lies=way.lies, known=frozenset(kept.torques))
    steps_out = _steps_out(way, library, lines, back, kept.reckoned)
    current = next((step for step in (*steps_in, *steps_out) if not step.done), None)
    return WorkSheet(
        target=way.target,
        target_words=way.target.replace("-", " "),
        steps_in=steps_in,
        steps_out=steps_out,
        tools=tools_in_order(one for step in (*steps_in, *steps_out) for one in step.tool.split(", ")),
        minutes_in=sum(step.minutes for step in steps_in) + _changeovers(steps_in),
        minutes_out=back.minutes,
        proven=way.proven,
        current=current,
        work_between=between,
        on_the_tray=on_the_tray(way.assembly, way.off),
        repairs=repairs,
        torque_unit=torque_unit,
        views=way.assembly.views,
    )


def _changeovers(steps: tuple[StepLine, ...]) -> float:
    """Minutes for turning the machine and changing tools along the steps."""
    turns = sum(USUAL.turn_minutes for step in steps if step.turn_first)
    held, changes = "", 0.0
    for step in steps:
        changes += USUAL.tool(held, step.tool)
        held = held if step.tool == HAND else step.tool
    return turns + changes


def _steps_in(
    way: Way, library: Library, lines: Mapping[str, FastenerLine], reckoned: Mapping[str, tuple[ReckonedLine, ...]]
) -> tuple[StepLine, ...]:
    steps = []
    lying = UPRIGHT
    for place, name in enumerate(way.order, start=1):
        operation, lies = way.operation(name), way.lies[name]
        steps.append(
            StepLine(
                number=place,
                direction=IN,
                operation=name,
                do=operation.do,
                tool=operation.tool,
                minutes=operation.minutes,
                orientation=lies,
                turn_first="" if lies == lying else turn_words(way.assembly, lies),
                fasteners=tuple(lines[fastener.id] for fastener in operation.fasteners),
                cautions=caution_lines(operation.hazards, library.hazards),
                checks=(operation.gives[:1].upper() + operation.gives[1:],) if operation.gives else (),
                done=(IN, name) in way.done,
                numbers=operation.numbers,
                reckoned=reckoned.get(name, ()),
            )
        )
        lying = lies
    return tuple(steps)


def _steps_out(
    way: Way,
    library: Library,
    lines: Mapping[str, FastenerLine],
    plan: WayOut,
    reckoned: Mapping[str, tuple[ReckonedLine, ...]],
) -> tuple[StepLine, ...]:
    return tuple(
        StepLine(
            number=place,
            direction=OUT,
            operation=step.operation.id,
            do=step.words,
            tool=step.tool,
            minutes=step.minutes,
            orientation=step.orientation,
            turn_first=turn_words(way.assembly, step.orientation) if step.turn_first else "",
            fasteners=tuple(lines[fastener.id] for fastener in step.fasteners),
            cautions=caution_lines(step.hazards, library.hazards),
            checks=step.checks,
            done=(OUT, step.operation.id) in way.done,
            numbers=step.operation.numbers,
            reckoned=reckoned.get(step.operation.id, ()),
        )
        for place, step in enumerate(plan.steps, start=1)
    )


def _with_hand(line: FastenerLine, hand: PersonHand, unit: str) -> FastenerLine:
    if line.torque is None or not line.fastener.thread or not hand.lines:
        return line
    safety = line.fastener.safety_joint
    return replace(line, by_hand=hand_beside(hand, line.fastener.thread, line.torque, unit, safety_joint=safety))


def fastener_line(fastener: Fastener, library: Library, kept: KeptTorque | None, unit: str = "N·m") -> FastenerLine:
    """Give a fastener with its torque, or with why it has none."""
    known = KnownTorque(kept.torque_nm, kept.typed, Basis(kept.basis), kept.source) if kept else None
    found = torque_for(fastener, library.materials, library.strength_classes, known, unit)
    if isinstance(found, NoTorque):
        return FastenerLine(fastener, None, found.words)
    return FastenerLine(
        fastener,
        TorqueLine(
            low_nm=found.low,
            target_nm=found.target,
            high_nm=found.high,
            basis=found.basis,
            source=found.source,
            governs=found.governs,
            widen=found.widen,
            typed=found.typed,
            doubt=found.doubt,
        ),
        "",
    )
