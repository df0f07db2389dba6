"""An independent look at plans and models: walk the model step by step and tell what is not allowed.

Nothing here is shared with the planner, so that the one can be held against the other.
"""

from collections.abc import Iterable, Iterator

from bellcrank.knowledge.assembly import Assembly, Fastener, Operation
from bellcrank.sources import Basis
from bellcrank.teardown.changeover import HAND
from bellcrank.teardown.model_problems import circle_problems, outline_problems, step_problems

PLUG_LEAD = "plug-lead"  # the part whose step makes an engine safe to turn
KINDS = ("unfasten", "disconnect", "remove", "swing-aside", "make-safe")


def plan_problems(
    assembly: Assembly, done_in_order: Iterable[str | tuple[str, str]], already: frozenset[str] = frozenset()
) -> list[str]:
    """Walk a way in and name every step that was not yet allowed.

    A step is named alone when it is done in its usual way, else with its method.
    """
    operations = {operation.id: operation for operation in assembly.operations}
    leads = _lead_steps(assembly)
    done = set(already)
    found = []
    for step in done_in_order:
        name, method = (step, "") if isinstance(step, str) else step
        needs, turns_crank = _as_done(operations[name], method)
        for group in needs:
            if not done.intersection(group):
                found.append(f"“{name}” before any of {', '.join(group)}")
        if turns_crank and not done & leads:
            found.append(f"“{name}” turns the engine while the plug lead is on")
        if name in done:
            found.append(f"“{name}” twice")
        done.add(name)
    return found


def back_problems(assembly: Assembly, off: Iterable[str | tuple[str, str]], back_in_order: Iterable[str]) -> list[str]:
    """Walk a way out and name every step that shuts in something still off, or leaves something out.

    A step that came off is named alone when that was its usual way, else with its method.
    """
    methods = dict((step, "") if isinstance(step, str) else step for step in off)
    operations = {operation.id: operation for operation in assembly.operations}
    leads = _lead_steps(assembly)
    left = set(methods)
    found = []
    for name in back_in_order:
        if name not in left:
            found.append(f"“{name}” is not off")
        left.discard(name)
        for other in sorted(left):
            needs, _ = _as_done(operations[other], methods[other])
            if not all(left.intersection(group) for group in needs):
                found.append(f"“{name}” back while “{other}” is still off")
        if name in leads and left:
            found.append(f"“{name}” back before {', '.join(sorted(left))}")
    found.extend(f"“{name}” never goes back" for name in sorted(left))
    return found


def assembly_problems(assembly: Assembly) -> list[str]:
    """Name what is wrong with a model: what cannot be reached, is not made safe, never comes back, holds nothing."""
    names = [operation.id for operation in assembly.operations]
    found = [f"“{name}” stands twice" for name in sorted({name for name in names if names.count(name) > 1})]
    found.extend(_unknown_needs(assembly))
    never = frozenset(names) - _reachable(assembly)
    found.extend(f"“{name}” can never be done" for name in sorted(never))
    found.extend(circle_problems(assembly, never))
    found.extend(_target_problems(assembly, never))
    found.extend(_lead_problems(assembly))
    found.extend(_method_problems(assembly))
    found.extend(outline_problems(assembly))
    for operation in assembly.operations:
        found.extend(_operation_problems(operation, recorded=assembly.origin.basis is Basis.OWN_SHOP))
        found.extend(f"“{operation.id}” {words}" for words in step_problems(operation, assembly.lying))
    fasteners = [fastener.id for operation in assembly.operations for fastener in operation.fasteners]
    found.extend(f"fastener “{name}” stands twice" for name in sorted({n for n in fasteners if fasteners.count(n) > 1}))
    return found


def _as_done(operation: Operation, method: str) -> tuple[tuple[tuple[str, ...], ...], bool]:
    """Give what a step needs and whether it turns the crank, done this way."""
    for one in operation.methods:
        if one.id == method:
            return one.needs, one.turns_crank
    return operation.needs, operation.turns_crank


def _unknown_needs(assembly: Assembly) -> Iterator[str]:
    names = {operation.id for operation in assembly.operations}
    for operation in assembly.operations:
        groups = (*operation.needs, *(group for method in operation.methods for group in method.needs))
        named = dict.fromkeys(name for group in groups for name in group)
        yield from (f"“{operation.id}” needs “{name}”, which is no step" for name in named if name not in names)
        if not all(groups):
            yield f"“{operation.id}” needs one of none; leave the empty group out"


def _target_problems(assembly: Assembly, never: frozenset[str]) -> Iterator[str]:
    operations = {operation.id: operation for operation in assembly.operations}
    for part, name in assembly.targets.items():
        if name not in operations:
            yield f"target “{part}” is freed by “{name}”, which is no step"
        elif operations[name].part != part:
            yield f"target “{part}” is freed by “{name}”, which frees “{operations[name].part}”"
        elif name in never:
            yield f"target “{part}” can never be reached"


def _lead_problems(assembly: Assembly) -> Iterator[str]:
    leads = _lead_steps(assembly)
    if not leads:
        yield f"no step takes the “{PLUG_LEAD}” off"
        return
    for operation in assembly.operations:
        if operation.id in leads and (operation.needs or any(method.needs for method in operation.methods)):
            yield f"“{operation.id}” takes the plug lead off and waits for another step"
    yield from (f"“{name}” can be done with the plug lead on" for name in sorted(_reachable(assembly, without=leads)))


def _method_problems(assembly: Assembly) -> Iterator[str]:
    """Hold every other way of a step against the same rules: reachable, and never with the plug lead on."""
    leads = _lead_steps(assembly)
    in_reach, with_lead_on = _reachable(assembly), _reachable(assembly, without=leads)
    for operation in assembly.operations:
        for method in operation.methods:
            if not all(in_reach.intersection(group) for group in method.needs):
                yield f"“{operation.id}” by “{method.id}” can never be done"
            if operation.id not in leads and all(with_lead_on.intersection(group) for group in method.needs):
                yield f"“{operation.id}” by “{method.id}” can be done with the plug lead on"
            safe = {one.id for one in assembly.operations if one.kind == "make-safe"} - leads
            left_out = (group for group in operation.needs if group not in method.needs)
            if not method.undo and any(safe.intersection(group) for group in left_out):
                yield f"“{operation.id}” by “{method.id}” is not made safe as usual and does not say how it goes back"


def _operation_problems(operation: Operation, *, recorded: bool) -> Iterator[str]:
    where = f"“{operation.id}”"
    if operation.kind not in KINDS:
        yield f"{where} is of kind “{operation.kind}”; it must be one of {', '.join(KINDS)}"
    if not operation.do or not operation.undo:
        yield f"{where} does not say how it is done and how it is undone"
    if operation.minutes <= 0 or operation.undo_minutes <= 0:
        yield f"{where} takes no time"
    if not operation.tool:
        yield f"{where} names no tool; write “{HAND}” for bare hands"
    if operation.kind == "unfasten" and not operation.fasteners:
        yield f"{where} unfastens nothing"
    for fastener in operation.fasteners:
        yield from _fastener_problems(fastener, recorded=recorded)


def _fastener_problems(fastener: Fastener, *, recorded: bool) -> Iterator[str]:
    where = f"fastener “{fastener.id}”"
    if fastener.count < 1:
        yield f"{where} counts {fastener.count}"
    if not 0 <= fastener.missing <= fastener.count:
        yield f"{where} misses {fastener.missing} of {fastener.count}"
    if not fastener.where:
        yield f"{where} does not say where it sits"
    nothing_said = not (fastener.strength or fastener.into or fastener.under_head)
    if not fastener.thread or (recorded and nothing_said):  # at the bench nobody need say what a screw is made of
        return
    if fastener.length_mm is not None and not fastener.into:  # a nut has no length under the head
        yield f"{where} screws into nothing"
    if not fastener.under_head:
        yield f"{where} presses on nothing"
    if fastener.into and fastener.engaged_mm is None:
        yield f"{where} does not say how much thread is engaged"


def _lead_steps(assembly: Assembly) -> frozenset[str]:
    return frozenset(operation.id for operation in assembly.operations if operation.part == PLUG_LEAD)


def _reachable(assembly: Assembly, without: Iterable[str] = ()) -> set[str]:
    left_out = set(without)
    done: set[str] = set()
    while True:
        ready = {
            operation.id
            for operation in assembly.operations
            if operation.id not in done | left_out and all(done.intersection(group) for group in operation.needs)
        }
        if not ready:
            return done
        done |= ready
