"""Torques as lines of text: of a job's fasteners, and one computed from a joint."""

from dataclasses import dataclass

from bellcrank.both_systems import both_forces, both_torques, both_windows
from bellcrank.cli.show_work import NO_WORK, fastener_lines
from bellcrank.cli.terminal import wrap
from bellcrank.cli.torque_answer import TorqueAnswer, YieldAnswer
from bellcrank.fastening.joint import Joint
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.work_sheet import FastenerLine


@dataclass(frozen=True, slots=True)
class StepFastener:
    """A group of fasteners with the step it belongs to."""

    operation: str
    do: str
    fastener: FastenerLine


def fasteners_of(sheet: JobSheet) -> tuple[StepFastener, ...]:
    """Give every fastener of the way back, in the order it goes home."""
    if sheet.work is None:
        return ()
    return tuple(
        StepFastener(step.operation, step.do, fastener) for step in sheet.work.steps_out for fastener in step.fasteners
    )


def job_torque_lines(sheet: JobSheet) -> list[str]:
    """List every fastener of the way back with its torque."""
    if sheet.work is None:
        return [wrap(NO_WORK)]
    lines: list[str] = []
    for one in fasteners_of(sheet):
        lines += ["", wrap(f"{one.do} ({one.operation})")]
        lines += fastener_lines(one.fastener, "  ", sheet.work.torque_unit)
        lines.append(f"    id: {one.fastener.fastener.id}")
    if not lines:
        return ["No fastener of this way takes a torque."]
    keep = f'  bellcrank torque {sheet.number} --fastener ID --set "80 in·lb" --published "where"'
    return [*lines, "", "keep the maker's number:", keep]


def yield_lines(joint: Joint, answer: YieldAnswer, unit: str) -> list[str]:
    """Say a torque to a share of yield."""
    return [
        wrap(f"{joint.thread.name}, {joint.strength.words}, to {answer.share:g} of its yield"),
        "",
        f"  torque   {both_torques(answer.torque_nm, unit)}, computed",
        f"  clamp    at most {both_forces(answer.preload_n, unit)}, at least {both_forces(answer.preload_low_n, unit)}",
        f"  stress area {answer.stress_area_mm2:.2f} mm²",
        "",
        *(wrap(one, first="  - ", indent="    ") for one in answer.assumptions),
    ]


def answer_lines(joint: Joint, answer: TorqueAnswer, unit: str) -> list[str]:
    """Say a computed torque, what limits it, and what was assumed."""
    into = f"into {joint.into.words}" if joint.into else "with a nut"
    lines = [
        wrap(f"{joint.thread.name}, {joint.strength.words}, {joint.head} head on {joint.under_head.words}, {into}"),
        "",
        f"  torque   {both_torques(answer.torque_nm, unit)}, {answer.basis}",
        f"  window   {both_windows(answer.torque_low_nm, answer.torque_high_nm, unit)}",
        f"  clamp    {both_forces(answer.preload_n, unit)}; at most {both_forces(answer.preload_high_n, unit)}, "
        f"at least {both_forces(answer.preload_low_n, unit)}",
        f"  stress area {answer.stress_area_mm2:.2f} mm²",
        wrap(answer.governs, first="  limit    ", indent=" " * 11),
    ]
    if answer.doubt:
        lines.append(wrap(answer.doubt, first="  doubt    ", indent=" " * 11))
    if answer.widen:
        lines.append(wrap(answer.widen, first="  wider    ", indent=" " * 11))
    return [*lines, "", *(wrap(one, first="  - ", indent="    ") for one in answer.assumptions)]
