"""A found order told as steps: what to do in the way that was chosen, and what each step is done for."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from bellcrank.knowledge.assembly import Assembly, Method, Operation
from bellcrank.teardown.steps import TARGET, Because, PlannedStep


@dataclass(frozen=True, slots=True)
class Chosen:
    """A step in its place: which way it is done, and how the machine lies when its turn comes."""

    step: str
    method: str  # "" for the usual way
    lying: str


def steps_in(
    assembly: Assembly, order: Iterable[Chosen], lies: str, already_done: frozenset[str] = frozenset()
) -> tuple[PlannedStep, ...]:
    """Tell an order as steps, from how the machine lies."""
    operations = {operation.id: operation for operation in assembly.operations}
    chosen = [(operations[one.step], one) for one in order]
    reasons = _reasons([(operation, one.method) for operation, one in chosen], already_done)
    steps = []
    for operation, one in chosen:
        step = _other(operation, method_of(operation, one.method)) if one.method else _usual(operation)
        why = tuple(reasons[operation.id])
        steps.append(replace(step, orientation=one.lying, turn_first=one.lying != lies, why=why))
        lies = one.lying
    return tuple(steps)


def method_of(operation: Operation, method: str) -> Method:
    """Give one of the other ways of a step by its name."""
    return next(one for one in operation.methods if one.id == method)


def needs_of(operation: Operation, method: str) -> tuple[tuple[str, ...], ...]:
    """Give what must be done before a step that is done this way."""
    return method_of(operation, method).needs if method else operation.needs


def _usual(operation: Operation) -> PlannedStep:
    return PlannedStep(
        operation=operation,
        words=operation.do,
        tool=operation.tool,
        minutes=operation.in_minutes,
        orientation="",
        turn_first=False,
        fasteners=operation.fasteners,
        hazards=operation.hazards,
        checks=(),
    )


def _other(operation: Operation, method: Method) -> PlannedStep:
    return replace(
        _usual(operation),
        words=method.do,
        tool=method.tool,
        minutes=method.minutes + operation.access_minutes,
        hazards=method.hazards,
        method=method.id,
    )


def _reasons(chosen: Sequence[tuple[Operation, str]], already_done: frozenset[str]) -> dict[str, list[Because]]:
    """For each step what it is done for: the steps of which it is the first done of a group they need."""
    place = {operation.id: number for number, (operation, _) in enumerate(chosen)}
    reasons: dict[str, list[Because]] = {name: [] for name in place}
    for operation, method in chosen:
        for group in needs_of(operation, method):
            if not already_done.intersection(group):
                earliest = min((name for name in group if name in place), key=place.__getitem__)
                reasons[earliest].append(Because(operation.why(group), operation.id))
    return {name: found or [Because(TARGET, "")] for name, found in reasons.items()}
