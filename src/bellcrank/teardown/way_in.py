"""The way in: what must come off to free the targets, in the order that takes least time."""

from bellcrank.errors import KnowledgeFault, NotFound
from bellcrank.knowledge.assembly import Assembly, Operation
from bellcrank.teardown.changeover import UPRIGHT, Changeover, changeover_of
from bellcrank.teardown.chart import chart
from bellcrank.teardown.order import HAIR, WIDE, Errand, Order, errand, least_order, quick_order
from bellcrank.teardown.safety import made_safe
from bellcrank.teardown.steps import PlannedStep, WayIn, tools_in_order
from bellcrank.teardown.what_comes_off import closed_sets, one_closed_set

MOST_STATES = 5_000  # [-] half-finished orders looked at before the planner says "not proven"; about half a second
SETS_TRIED = 8  # [-] sets a good order is looked for in when nothing can be proven


def way_in(
    assembly: Assembly,
    targets: tuple[str, ...],
    *,
    already_done: frozenset[str] = frozenset(),
    lies: str = UPRIGHT,
    changeover: Changeover | None = None,
    most_states: int = MOST_STATES,
) -> WayIn:
    """Plan the least-time legal sequence that frees the targets, going on from what is already done.

    Past ``most_states`` the answer is the best found: ``proven`` is false and no sequence takes less than ``bound``.
    """
    assembly = made_safe(assembly)
    operations = assembly.operations
    laid_out = chart(assembly, {one.id: one.tool for one in operations}, {one.id: one.in_minutes for one in operations})
    task = errand(laid_out, changeover or changeover_of(assembly), done=laid_out.set_of(already_done), lies=lies)
    order = _search(task, laid_out.set_of(_operation_for(assembly, target) for target in targets), most_states)
    steps = _steps(operations, order, lies)
    return WayIn(
        targets=targets,
        already_done=already_done,
        steps=steps,
        minutes=order.minutes,
        work_minutes=order.work_minutes,
        changeover_minutes=order.minutes - order.work_minutes,
        tools=tools_in_order(step.tool for step in steps),
        ends_lying=steps[-1].orientation if steps else lies,
        proven=order.proven,
        bound=order.bound,
    )


def _operation_for(assembly: Assembly, target: str) -> str:
    if target not in assembly.targets:
        known = ", ".join(assembly.targets)
        raise NotFound(f"There is no way in to “{target}” on this machine. It must be one of {known}.")
    return assembly.targets[target]


def _search(task: Errand, wanted: int, most_states: int) -> Order:
    everything = (1 << len(task.chart.ids)) - 1
    if wanted & ~task.chart.reachable(everything, task.done):
        raise KnowledgeFault("The assembly has no legal way in to this part. Mend what its steps need.")
    guess = quick_order(task, (one_closed_set(task.chart, wanted, task.done),))
    found = closed_sets(task.chart, wanted, task.done, most_work=guess.minutes + HAIR)
    order = least_order(task, found.sets, guess, most_states=most_states)
    if not order.proven and found.sets:
        order = _better(order, quick_order(task, found.sets[:SETS_TRIED], WIDE))
    if found.least_work_unseen is None:
        return order
    return _bounded(order, min(order.bound, found.least_work_unseen))


def _better(order: Order, other: Order) -> Order:
    """Give the shorter of two orders; what the first knows of the bound holds for both."""
    shorter = min(order, other, key=lambda one: one.minutes)
    return _bounded(shorter, min(order.bound, shorter.minutes))


def _bounded(order: Order, bound: float) -> Order:
    return Order(order.placed, order.minutes, order.work_minutes, proven=order.minutes - bound < HAIR, bound=bound)


def _steps(operations: tuple[Operation, ...], order: Order, lies: str) -> tuple[PlannedStep, ...]:
    before = (lies, *(placed.lying for placed in order.placed))
    return tuple(
        _step(operations[placed.number], placed.lying, turned=placed.lying != lay)
        for placed, lay in zip(order.placed, before, strict=False)
    )


def _step(operation: Operation, lies: str, *, turned: bool) -> PlannedStep:
    return PlannedStep(
        operation=operation,
        words=operation.do,
        tool=operation.tool,
        minutes=operation.in_minutes,
        orientation=lies,
        turn_first=turned,
        fasteners=operation.fasteners,
        hazards=operation.hazards,
        checks=(),
    )
