"""The way out: everything back in the reverse order, torque on every thread, the plug lead last.

The reverse of a legal way in is legal going back: whatever a step needed gone before it is still gone when it is
undone. So nothing is searched anew; what changes is the tool, the checks and the cautions.
"""

from bellcrank.knowledge.model import Assembly, Operation
from bellcrank.teardown.changeover import HAND, UPRIGHT, USUAL, Changeover
from bellcrank.teardown.steps import PlannedStep, WayOut, tools_in_order

TORQUE_WRENCH = "torque wrench"


def way_out(
    assembly: Assembly,
    off: tuple[str, ...],
    *,
    lies: dict[str, str] | None = None,
    changeover: Changeover = USUAL,
) -> WayOut:
    """Plan the way back for operations that were done in the order ``off``; ``lies`` tells how the machine lay."""
    operations = {operation.id: operation for operation in assembly.operations}
    lay = lies or {}
    steps: list[PlannedStep] = []
    lying = lay.get(off[-1], UPRIGHT) if off else UPRIGHT
    changed = 0.0
    held = ""
    for name in reversed(off):
        operation = operations[name]
        wanted = lay.get(name, lying)
        tool = _tool(operation)
        changed += changeover.tool(held, tool) + changeover.turn(lying, wanted)
        held = held if tool == HAND else tool
        steps.append(_step(operation, tool, wanted, turned=wanted != lying))
        lying = wanted
    work = sum(step.minutes for step in steps)
    changed += changeover.turn(lying, UPRIGHT)
    return WayOut(
        steps=tuple(steps),
        minutes=work + changed,
        work_minutes=work,
        changeover_minutes=changed,
        tools=tools_in_order(step.tool for step in steps),
        turn_last=lying != UPRIGHT,
        proven=False,
        bound=work,
    )


def _tool(operation: Operation) -> str:
    threaded = any(fastener.thread for fastener in operation.fasteners)
    return TORQUE_WRENCH if threaded else operation.tool


def _step(operation: Operation, tool: str, lies: str, *, turned: bool) -> PlannedStep:
    return PlannedStep(
        operation=operation,
        words=operation.undo,
        tool=tool,
        minutes=operation.undo_minutes,
        orientation=lies,
        turn_first=turned,
        fasteners=operation.fasteners,
        hazards=operation.undo_hazards,
        checks=operation.undo_checks,
    )
