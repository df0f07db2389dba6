"""Which ways of a step are ruled out: by what was found there, by a lacking tool, or on purpose."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from bellcrank.errors import KnowledgeFault, NotAllowedNow, NotFound
from bellcrank.knowledge.assembly import Assembly
from bellcrank.teardown.chart import Chart
from bellcrank.teardown.sequencing import numbers_in


@dataclass(frozen=True, slots=True)
class RuledOut:
    """What a plan must do without.

    Parameters
    ----------
    barred : frozenset of str
        Steps not to do (``"blade-off"``), or one way of a step: ``"blade-off:impact"``, ``"blade-off:"`` the usual one.
    conditions : mapping of str to frozenset of str
        What was found at a step, of CONDITIONS, by operation.
    lacking : frozenset of str
        Tools the shop does not have.
    """

    barred: frozenset[str] = frozenset()
    conditions: Mapping[str, frozenset[str]] = field(default_factory=dict)
    lacking: frozenset[str] = frozenset()


NOTHING = RuledOut()


def tools_of(tool: str) -> frozenset[str]:
    """Give the single tools of a way of a step: a torque wrench and a socket are two tools in one hand."""
    return frozenset(part.strip() for part in tool.split(","))


def forbidding(assembly: Assembly, step: str, method: str, found: frozenset[str]) -> tuple[str, ...]:
    """Give what of the conditions found at a step forbids one way of it."""
    operation = next(one for one in assembly.operations if one.id == step)
    not_when = next((one.not_when for one in operation.methods if one.id == method), operation.not_when)
    return tuple(condition for condition in not_when if condition in found)


def allowed_ways(chart: Chart, assembly: Assembly, out: RuledOut) -> int:
    """Give the ways of all steps that are neither barred nor forbidden by what was found; tools are not looked at."""
    _refuse_unknown(chart, out)
    allowed = 0
    for number, (step, method) in enumerate(zip(chart.ids, chart.methods, strict=True)):
        barred = out.barred & {step, f"{step}:{method}"}
        if not barred and not forbidding(assembly, step, method, out.conditions.get(step, frozenset())):
            allowed |= 1 << number
    return allowed


def ways_without(chart: Chart, lacking: frozenset[str]) -> int:
    """Give the ways of all steps that take none of these tools."""
    return sum(1 << number for number, tool in enumerate(chart.tools) if not tools_of(tool) & lacking)


def tools_needed(
    chart: Chart, wanted: tuple[int, ...], done: int, allowed: int, lacking: frozenset[str]
) -> frozenset[str]:
    """Give the fewest of the lacking tools that must be had: none can be left out of them."""
    needed = set(lacking)
    for tool in sorted(lacking):
        free = chart.reachable(allowed & ways_without(chart, lacking - (needed - {tool})), done)
        if all(free & group for group in wanted):
            needed.discard(tool)
    return frozenset(needed)


def refusal(
    assembly: Assembly, chart: Chart, wanted: tuple[int, ...], done: int, out: RuledOut
) -> KnowledgeFault | NotAllowedNow:
    """Say which step stops the way in, and why."""
    allowed = allowed_ways(chart, assembly, out)
    if not all(chart.reachable(chart.everything, done) & group for group in wanted):
        return KnowledgeFault("The assembly has no legal way in to this part. Mend what its steps need.")
    free = chart.reachable(allowed, done)
    stuck = next(_stuck(chart, wanted, free))
    step = chart.ids[stuck.bit_length() - 1]
    operation = next(one for one in assembly.operations if one.id == step)
    ways = [chart.methods[number] for number in range(len(chart.ids)) if chart.ids[number] == step]
    reasons = "; ".join(_why_not(assembly, step, method, out) for method in ways)
    return NotAllowedNow(
        f"There is no way in as things are: “{operation.do}” cannot be done ({reasons}). "
        "Free it another way first, or take back what was said of it."
    )


def _stuck(chart: Chart, wanted: tuple[int, ...], free: int) -> Iterator[int]:
    """Follow what cannot be reached down to a way that could be done next, were it not ruled out."""
    seen = 0
    groups = list(wanted)
    while groups:
        group = groups.pop(0)
        if group & free:
            continue
        for number in numbers_in(group & ~seen):
            seen |= 1 << number
            if chart.may_do(number, free):
                yield 1 << number
            groups.extend(chart.needs[number])


def _why_not(assembly: Assembly, step: str, method: str, out: RuledOut) -> str:
    operation = next(one for one in assembly.operations if one.id == step)
    words = next((one.words for one in operation.methods if one.id == method), operation.words or "the usual way")
    found = forbidding(assembly, step, method, out.conditions.get(step, frozenset()))
    if out.barred & {step, f"{step}:{method}"}:
        return f"{words}: left out on purpose"
    if found:
        return f"{words}: not when {' and '.join(found)}"
    return f"{words}: something before it cannot be done"


def _refuse_unknown(chart: Chart, out: RuledOut) -> None:
    known = {f"{step}:{method}" for step, method in zip(chart.ids, chart.methods, strict=True)}
    unknown = sorted(name for name in out.barred if name not in known and name not in chart.ids)
    unknown += sorted(name for name in out.conditions if name not in chart.ids)
    if unknown:
        raise NotFound(f"There is no step “{unknown[0]}” in this machine's way apart. Pick one from its list.")
