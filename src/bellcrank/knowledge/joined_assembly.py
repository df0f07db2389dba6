"""An assembly's tables put together: those of the systems it joins, and its own, which come last.

A system's ``assembly.toml`` (recoil starter, float carburettor, cylinder head ...) says how that part of a machine
comes apart, wherever it is built in. A kind's own step, view or target with the same name takes the place of the
system's; ``also_needs`` adds what is in the way on this kind of machine, ``orientations`` says how this machine lies
at a step; what it leaves out is dropped wherever it is named.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from bellcrank.errors import KnowledgeFault
from bellcrank.knowledge.assembly_text import NEEDS

Table = Mapping[str, Any]


def joined(file: str, text: Table, systems: Mapping[str, Table]) -> Table:
    """Put the tables of an assembly's file behind those of the systems it joins, by system.

    Raises
    ------
    KnowledgeFault
        For a system that has no assembly, and for a step left out or added to that no system has.
    """
    about = text.get("assembly", {})
    for name in about.get("joins", ()):
        if name not in systems:
            known = ", ".join(sorted(systems))
            raise KnowledgeFault(
                f"{file}: it joins “{name}”, which has no assembly; there are: {known}. Mend the name."
            )
    shared = [(f"systems/{name}/assembly.toml", systems[name]) for name in about.get("joins", ())]
    parts = [*shared, (file, text)]
    operations = {one["id"]: {**one, "file": where} for where, part in parts for one in part.get("operation", ())}
    left_out = frozenset(about.get("leave_out", ()))
    also, lies = text.get("also_needs", {}), text.get("orientations", {})
    for name in (*sorted(left_out), *also, *lies):
        if name not in operations:
            raise KnowledgeFault(f"{file}: there is no step “{name}” in what it joins. Mend the name.")
    targets = {part: step for _, one in parts for part, step in one.get("targets", {}).items() if step not in left_out}
    return {
        **text,
        "operation": [
            _without(_on_this_machine(one, also.get(name, []), lies.get(name)), left_out)
            for name, one in operations.items()
            if name not in left_out
        ],
        "targets": targets,
        "view": list({one["id"]: one for _, part in parts for one in part.get("view", ())}.values()),
        "lying": {way: words for _, part in parts for way, words in part.get("lying", {}).items()},
    }


def _on_this_machine(operation: Table, also: Iterable[Iterable[str]], lies: Iterable[str] | None) -> Table:
    """Add to a step what else is in its way here, and how this machine lies then."""
    needed = {**operation, "needs": [*operation.get("needs", []), *also]}
    return needed if lies is None else {**needed, "orientations": list(lies)}


def _without(operation: Table, left_out: frozenset[str]) -> Table:
    """Drop what is not there from what a step needs: it holds nothing and stands in nobody's way."""
    cleaned = {column: _groups(operation[column], left_out) for column in NEEDS if column in operation}
    methods = [
        {**one, "needs": _groups(one["needs"], left_out)} if "needs" in one else one
        for one in operation.get("method", ())
    ]
    return {**operation, **cleaned, "method": methods}


def _groups(groups: Iterable[Iterable[str]], left_out: frozenset[str]) -> list[list[str]]:
    there = ([name for name in group if name not in left_out] for group in groups)
    return [group for group in there if group]
