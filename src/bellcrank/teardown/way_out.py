"""The way out: everything back in the reverse order, torque on every thread, the plug lead last.

The reverse of a legal way in is legal going back: whatever a step needed gone before it is still gone when it is
undone. So nothing is searched anew and the bench meets its own steps again; what changes is the tool, the checks and
the cautions.
"""

from collections.abc import Mapping
from dataclasses import replace

from bellcrank.errors import NotAllowedNow
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.assembly import Assembly, Fastener, Operation
from bellcrank.teardown.changeover import UPRIGHT, Changeover, changeover_of
from bellcrank.teardown.chart import chart
from bellcrank.teardown.order import Errand, errand, least_changing
from bellcrank.teardown.planned import method_of
from bellcrank.teardown.safety import lead_steps, made_safe
from bellcrank.teardown.search import HAIR
from bellcrank.teardown.steps import PlannedStep, WayOut, minutes_of, tools_in_order

TORQUE_WRENCH = "torque wrench"
SMALL_TORQUE_WRENCH = "small torque wrench"  # reads in in·lb or from 2 N·m up
SMALL_UP_TO = 0.0065  # [m] M6 and 1/4 in take 3 to 10 N·m, below the scale of the usual shop wrench; common practice


def way_out(
    assembly: Assembly,
    off: tuple[str, ...],
    *,
    lies: Mapping[str, str] | None = None,
    methods: Mapping[str, str] | None = None,
    known: frozenset[str] = frozenset(),
    changeover: Changeover | None = None,
) -> WayOut:
    """Plan the way back for operations that were done in the order ``off``.

    ``lies`` tells how the machine lay at each, ``methods`` which came off another way than the usual, ``known`` which
    fasteners somebody typed a torque for.
    """
    assembly = made_safe(assembly)
    off = _lead_first(assembly, off)
    came_off = methods or {}
    operations = {one.id: _as_it_came_off(one, came_off.get(one.id, "")) for one in assembly.operations}
    assembly = replace(assembly, operations=tuple(operations.values()))
    back = _lying(off, lies or {})
    now = back[0][1] if back else UPRIGHT
    before = (now, *(lying for _, lying in back))
    tools = {operation.id: tool_back(operation, known) for operation in assembly.operations}
    steps = tuple(
        _step(operations[name], lying, tools[name], turned=lying != lay)
        for (name, lying), lay in zip(back, before, strict=False)
    )
    work = sum(step.minutes for step in steps)
    task = _errand(assembly, tools, changeover or changeover_of(assembly), now)
    changing = minutes_of(assembly, steps, task.changeover, now, UPRIGHT) - work
    bound = work + least_changing(task, task.chart.set_of(off), "", now)
    return WayOut(
        steps=steps,
        minutes=work + changing,
        work_minutes=work,
        changeover_minutes=changing,
        tools=tools_in_order(step.tool for step in steps),
        turn_last=before[-1] != UPRIGHT,
        proven=work + changing - bound < HAIR,
        bound=bound,
    )


def _lead_first(assembly: Assembly, off: tuple[str, ...]) -> tuple[str, ...]:
    """Put the plug lead before all else that came off, so that it goes back last."""
    leads = lead_steps(assembly)
    turning = next((one.id for one in assembly.operations if one.id in off and one.turns_crank), None)
    if turning is not None and not any(name in off for name in leads):
        raise NotAllowedNow(
            f"Step “{turning}” turns the engine and the plug lead is on. Take the plug lead off, tie it back and tick "
            "that."
        )
    return (*(name for name in off if name in leads), *(name for name in off if name not in leads))


def _as_it_came_off(operation: Operation, method: str) -> Operation:
    """Give the step as its own way back has it: what it needed, and how it goes on again."""
    if not method:
        return operation
    way = method_of(operation, method)
    return replace(
        operation,
        needs=way.needs,
        reasons=(),
        orientations=way.orientations,
        undo=way.undo or operation.undo,
        undo_minutes=operation.undo_minutes if way.undo_minutes is None else way.undo_minutes,
        undo_hazards=operation.undo_hazards if way.undo_hazards is None else way.undo_hazards,
    )


def tool_back(operation: Operation, known: frozenset[str] = frozenset()) -> str:
    """The tool for putting back: a torque wrench, large or small, wherever a torque can be told or was typed."""
    diameters = [parse_thread(one.thread).diameter for one in operation.fasteners if _has_torque(one, known)]
    if not diameters:
        return operation.tool
    wrench = SMALL_TORQUE_WRENCH if max(diameters) <= SMALL_UP_TO else TORQUE_WRENCH
    return f"{wrench}, {operation.tool}"


def _has_torque(fastener: Fastener, known: frozenset[str]) -> bool:
    told = bool(fastener.strength) or fastener.published_torque_nm is not None or fastener.id in known
    return bool(fastener.thread) and told


def _lying(off: tuple[str, ...], lies: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Operations to undo, each with how the machine lies; as it lay before where nothing is known."""
    back: list[tuple[str, str]] = []
    lying = UPRIGHT
    for name in reversed(off):
        lying = lies.get(name, lying)
        back.append((name, lying))
    return tuple(back)


def _errand(assembly: Assembly, tools: Mapping[str, str], changeover: Changeover, now: str) -> Errand:
    laid_out = chart(assembly, tools, {operation.id: operation.back_minutes for operation in assembly.operations})
    return errand(laid_out, changeover, lies=now, ends_lying=UPRIGHT)


def _step(operation: Operation, lies: str, tool: str, *, turned: bool) -> PlannedStep:
    return PlannedStep(
        operation=operation,
        words=operation.undo,
        tool=tool,
        minutes=operation.back_minutes,
        orientation=lies,
        turn_first=turned,
        fasteners=operation.fasteners,
        hazards=operation.undo_hazards,
        checks=operation.undo_checks,
    )
