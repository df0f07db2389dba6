"""What else could be done at each either-or of a plan, and what it would take: the impact driver or holding the blade.

Each other choice is planned anew with all else that would serve barred, so what is compared are whole plans.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bellcrank.errors import NotAllowedNow
from bellcrank.knowledge.assembly import Assembly
from bellcrank.teardown.changeover import UPRIGHT, Changeover
from bellcrank.teardown.planned import needs_of
from bellcrank.teardown.ruled_out import NOTHING, RuledOut, forbidding
from bellcrank.teardown.search import Effort
from bellcrank.teardown.steps import PlannedStep, WayIn, tools_in_order
from bellcrank.teardown.way_in import way_in

A_LOOK = Effort(most_states=600)  # [-] half-finished orders for each alternative: a glance, not the last minute


@dataclass(frozen=True, slots=True)
class Choice:
    """One way of one step."""

    step: str  # operation
    method: str  # "" for the usual way
    words: str  # imperative


@dataclass(frozen=True, slots=True)
class Alternative:
    """A plan with another choice, held against the plan that was made."""

    used: Choice
    instead: Choice
    minutes: float | None  # of the whole plan with it; None when it cannot be [min]
    more: float | None  # than the plan takes; below zero when only a lacking tool makes it longer [min]
    tools: tuple[str, ...]  # to fetch for it that the plan does without
    spared: tuple[str, ...]  # tools of the plan that it does without
    lacking: tuple[str, ...]  # tools the shop lacks and it cannot do without
    proven: bool
    why_not: str  # why it cannot be; "" when it can
    barred: frozenset[str]  # what to bar to get a plan with it


def alternatives(
    assembly: Assembly,
    way: WayIn,
    *,
    lies: str = UPRIGHT,
    changeover: Changeover | None = None,
    ruled_out: RuledOut = NOTHING,
    effort: Effort = A_LOOK,
) -> tuple[Alternative, ...]:
    """Give every other choice a plan leaves, the quickest first, then what cannot be.

    Start, changeover and what is ruled out are as they were when it was planned.
    """

    def planned(out: RuledOut) -> WayIn:
        return way_in(
            assembly,
            way.targets,
            already_done=way.already_done,
            lies=lies,
            changeover=changeover,
            ruled_out=out,
            effort=effort,
        )

    found = []
    for used, instead, barred in dict.fromkeys(_choices(assembly, way)):
        out = replace(ruled_out, barred=ruled_out.barred | barred)
        try:
            other = planned(out)
        except NotAllowedNow as refusal:
            if _could_be(assembly, way, instead, barred):
                found.append(_cannot_be(assembly, used, instead, barred, ruled_out, refusal))
            continue
        if any((step.operation.id, step.method) == (instead.step, instead.method) for step in other.steps):
            found.append(_compared(way, other, used, instead, barred))
    return tuple(sorted(found, key=lambda one: (one.minutes is None, one.minutes or 0.0)))


def _choices(assembly: Assembly, way: WayIn) -> Iterator[tuple[Choice, Choice, frozenset[str]]]:
    """Each either-or of a plan: what was chosen, what could be instead, and what must be barred for that."""
    place = {step.operation.id: number for number, step in enumerate(way.steps)}
    for step in way.steps:
        yield from _other_ways(step)
        for group in needs_of(step.operation, step.method):
            if way.already_done.isdisjoint(group):
                earliest = way.steps[min(place[name] for name in group if name in place)]
                used = Choice(earliest.operation.id, earliest.method, earliest.words)
                for name in group:
                    if name != used.step:
                        operation = next(one for one in assembly.operations if one.id == name)
                        yield used, Choice(name, "", operation.do), frozenset(group) - {name}


def _other_ways(step: PlannedStep) -> Iterator[tuple[Choice, Choice, frozenset[str]]]:
    operation = step.operation
    ways = {"": operation.do, **{one.id: one.do for one in operation.methods}}
    used = Choice(operation.id, step.method, step.words)
    for method, words in ways.items():
        if method != step.method:
            barred = frozenset(f"{operation.id}:{other}" for other in ways if other != method)
            yield used, Choice(operation.id, method, words), barred


def _could_be(assembly: Assembly, way: WayIn, instead: Choice, barred: frozenset[str]) -> bool:
    """Whether the other choice is one at all: the model has a way with it, were nothing else ruled out."""
    try:
        other = way_in(
            assembly, way.targets, already_done=way.already_done, ruled_out=RuledOut(barred), effort=Effort(0)
        )
    except NotAllowedNow:
        return False
    return any(step.operation.id == instead.step for step in other.steps)


def _cannot_be(
    assembly: Assembly, used: Choice, instead: Choice, barred: frozenset[str], out: RuledOut, refusal: NotAllowedNow
) -> Alternative:
    found = forbidding(assembly, instead.step, instead.method, out.conditions.get(instead.step, frozenset()))
    why_not = f"Not while it is {' and '.join(found)}." if found else refusal.sentence
    return Alternative(used, instead, None, None, (), (), (), proven=True, why_not=why_not, barred=barred)


def _compared(way: WayIn, other: WayIn, used: Choice, instead: Choice, barred: frozenset[str]) -> Alternative:
    return Alternative(
        used=used,
        instead=instead,
        minutes=other.minutes,
        more=other.minutes - way.minutes,
        tools=tools_in_order(tool for tool in other.tools if tool not in way.tools),
        spared=tools_in_order(tool for tool in way.tools if tool not in other.tools),
        lacking=other.lacking,
        proven=other.proven,
        why_not="",
        barred=barred,
    )
