"""The way in: what must come off to free the targets, in the order that takes least time."""

from dataclasses import dataclass

from bellcrank.errors import KnowledgeFault, NotFound
from bellcrank.knowledge.model import Assembly
from bellcrank.teardown.changeover import UPRIGHT, USUAL, Changeover
from bellcrank.teardown.chart import Chart, chart
from bellcrank.teardown.order import Order, Stand, best_order
from bellcrank.teardown.steps import PlannedStep, WayIn, tools_in_order
from bellcrank.teardown.what_comes_off import closed_sets, one_closed_set

NO_TOOL = ""


@dataclass(frozen=True, slots=True)
class _Best:
    chosen: int
    order: Order
    minutes: float


def way_in(
    assembly: Assembly,
    targets: tuple[str, ...],
    *,
    already_done: frozenset[str] = frozenset(),
    lies: str = UPRIGHT,
    changeover: Changeover = USUAL,
) -> WayIn:
    """Plan the least-time legal sequence that frees the targets, going on from what is already done."""
    laid_out = chart(
        assembly,
        {operation.id: operation.tool for operation in assembly.operations},
        {operation.id: operation.minutes for operation in assembly.operations},
    )
    wanted = laid_out.set_of(_operation_for(assembly, target) for target in targets)
    done = laid_out.set_of(already_done)
    best, bound, proven = _search(laid_out, wanted, Stand(done, NO_TOOL, lies), changeover)
    steps = tuple(_step(assembly, placed.number, placed.lies, placed.turned) for placed in best.order.steps)
    work = laid_out.work(best.chosen)
    return WayIn(
        targets=targets,
        already_done=already_done,
        steps=steps,
        minutes=best.minutes,
        work_minutes=work,
        changeover_minutes=best.order.changeover,
        tools=tools_in_order(step.tool for step in steps),
        ends_lying=best.order.steps[-1].lies if best.order.steps else lies,
        proven=proven,
        bound=bound,
    )


def _operation_for(assembly: Assembly, target: str) -> str:
    if target not in assembly.targets:
        known = ", ".join(assembly.targets)
        raise NotFound(f"There is no way in to “{target}” on this machine. It must be one of {known}.")
    return assembly.targets[target]


def _search(laid_out: Chart, wanted: int, start: Stand, changeover: Changeover) -> tuple[_Best, float, bool]:
    first = one_closed_set(laid_out, wanted, start.done)
    best = _with_order(laid_out, first, start, changeover, most=float("inf"))
    if best is None:
        raise KnowledgeFault("The assembly has no legal way in to this part. Mend what its steps need.")
    found = closed_sets(laid_out, wanted, start.done, most_work=best.minutes)
    proven = best.order.proven and found.least_work_unseen is None
    for chosen in found.sets:
        work = laid_out.work(chosen)
        if work >= best.minutes:
            break
        better = _with_order(laid_out, chosen, start, changeover, most=best.minutes - work)
        if better and better.minutes < best.minutes:
            best = better
            proven = proven and better.order.proven
    bound = best.minutes if proven else min((laid_out.work(one) for one in found.sets), default=0.0)
    return best, bound, proven


def _with_order(laid_out: Chart, chosen: int, start: Stand, changeover: Changeover, *, most: float) -> _Best | None:
    order = best_order(laid_out, chosen, start, changeover, most=most)
    return _Best(chosen, order, laid_out.work(chosen) + order.changeover) if order else None


def _step(assembly: Assembly, number: int, lies: str, turned: bool) -> PlannedStep:
    operation = assembly.operations[number]
    return PlannedStep(
        operation=operation,
        words=operation.do,
        tool=operation.tool,
        minutes=operation.minutes,
        orientation=lies,
        turn_first=turned,
        fasteners=operation.fasteners,
        hazards=operation.hazards,
        checks=(),
    )
