"""Filling in the way in and out of a job sheet."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from bellcrank.knowledge.assembly import Fastener
from bellcrank.knowledge.model import Library
from bellcrank.shop.hand import PersonHand, hand_beside
from bellcrank.shop.step_lines import fetch_lines, lines_in, lines_out
from bellcrank.shop.storage.things import KeptTorque
from bellcrank.shop.tools import ToolTerms
from bellcrank.shop.words import part_words
from bellcrank.shop.work import IN, OUT, Way
from bellcrank.shop.work_sheet import FastenerLine, ReckonedLine, RepairLine, TorqueLine, WorkSheet
from bellcrank.sources import Basis
from bellcrank.teardown.changeover import changeover_of
from bellcrank.teardown.search import HAIR
from bellcrank.teardown.steps import minutes_of, on_the_tray, tools_in_order
from bellcrank.teardown.torques import KnownTorque, NoTorque, torque_for
from bellcrank.teardown.way_out import way_out


@dataclass(frozen=True, slots=True)
class KeptForWork:
    """What is kept that the steps of a way show."""

    torques: Mapping[str, KeptTorque]  # known for this machine, by fastener
    reckoned: Mapping[str, tuple[ReckonedLine, ...]]  # worked out, by step
    hand: PersonHand  # the mechanic's
    terms: ToolTerms  # which tools are not here


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
    steps_in = tuple(
        replace(line, done=(IN, line.operation) in way.done, reckoned=kept.reckoned.get(line.operation, ()))
        for line in lines_in(way.assembly, way.steps, lines, library)
    )
    back = way_out(way.assembly, way.order, lies=way.lies, methods=way.methods, known=frozenset(kept.torques))
    steps_out = tuple(
        replace(line, done=(OUT, line.operation) in way.done, reckoned=kept.reckoned.get(line.operation, ()))
        for line in lines_out(way.assembly, back.steps, lines, library)
    )
    tools = tools_in_order(one for step in (*steps_in, *steps_out) for one in step.tool.split(", "))
    return WorkSheet(
        targets=way.targets,
        target_words=part_words(way.targets),
        steps_in=steps_in,
        steps_out=steps_out,
        tools=tools,
        fetch=fetch_lines(tools, library.tools, kept.terms),
        minutes_in=minutes_of(way.assembly, way.steps, changeover_of(way.assembly)),
        minutes_out=back.minutes,
        bound_out=back.bound,
        proven=way.gap <= HAIR,
        gap=way.gap,
        current=next((step for step in (*steps_in, *steps_out) if not step.done), None),
        work_between=between,
        on_the_tray=on_the_tray(way.assembly, way.off),
        repairs=repairs,
        torque_unit=torque_unit,
        views=way.assembly.views,
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
