"""An independent look at plans and models: walk the model step by step and tell what is not allowed."""

from collections.abc import Iterable

from bellcrank.knowledge.model import Assembly

MAKE_SAFE = "make-safe"


def plan_problems(assembly: Assembly, done_in_order: Iterable[str], already: frozenset[str] = frozenset()) -> list[str]:
    """Walk a way in and name every step that was not yet allowed."""
    operations = {operation.id: operation for operation in assembly.operations}
    done = set(already)
    found = []
    for name in done_in_order:
        operation = operations[name]
        for group in operation.needs:
            if not done.intersection(group):
                found.append(f"“{name}” before any of {', '.join(group)}")
        if operation.turns_crank and not any(operations[one].kind == MAKE_SAFE for one in done):
            found.append(f"“{name}” turns the engine before it is made safe")
        if name in done:
            found.append(f"“{name}” twice")
        done.add(name)
    return found


def assembly_problems(assembly: Assembly) -> list[str]:
    """Name what is wrong with a model: parts out of reach, needs that cannot be met, steps that are not made safe."""
    names = {operation.id for operation in assembly.operations}
    found = [
        f"“{operation.id}” needs “{name}”, which is no step"
        for operation in assembly.operations
        for group in operation.needs
        for name in group
        if name not in names
    ]
    reached = _reachable(assembly)
    found.extend(f"“{name}” can never be done" for name in sorted(names - reached))
    for part, name in assembly.targets.items():
        if name not in names:
            found.append(f"target “{part}” is freed by “{name}”, which is no step")
    safe = {operation.id for operation in assembly.operations if operation.kind == MAKE_SAFE}
    for operation in assembly.operations:
        if operation.id not in safe and operation.id in _reachable(assembly, without=safe):
            found.append(f"“{operation.id}” can be done before the machine is made safe")
        for fastener in operation.fasteners:
            if fastener.thread and not (fastener.into or fastener.under_head):
                found.append(f"“{fastener.id}” screws into nothing")
    return found


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
