"""What is wrong with a model beside its order: outlines, places, rounds of tightening, gaps, other ways of a step."""

from collections.abc import Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise

from bellcrank.knowledge.assembly import (
    BEHIND,
    CONDITIONS,
    FIRST,
    HELD,
    Assembly,
    Fastener,
    Method,
    Operation,
    View,
)
from bellcrank.teardown.changeover import HAND, UPRIGHT

REASONS = (FIRST, HELD, BEHIND)
LEAST_CORNERS = 3  # [-] of a closed line


def circle_problems(assembly: Assembly, never: frozenset[str]) -> Iterator[str]:
    """Name the steps that wait for each other, each through a group of which none can be done."""
    waits = {
        operation.id: {name for group in operation.needs if never.issuperset(group) for name in group}
        for operation in assembly.operations
        if operation.id in never
    }
    try:
        TopologicalSorter(waits).prepare()
    except CycleError as circle:
        yield f"steps wait for each other in a circle: {' → '.join(circle.args[1])}"


def outline_problems(assembly: Assembly) -> Iterator[str]:
    """Tell which outlines are drawn beyond their own edge, and which places lie on no outline."""
    views = {view.id: view for view in assembly.views}
    for view in assembly.views:
        yield from _view_problems(view)
    for operation in assembly.operations:
        for fastener in operation.fasteners:
            yield from (f"fastener “{fastener.id}” {words}" for words in _place_problems(fastener, views))


def _view_problems(view: View) -> Iterator[str]:
    if view.width <= 0 or view.height <= 0:
        yield f"view “{view.id}” is {view.width:g} by {view.height:g} mm"
    for shape in view.shapes:
        where = f"view “{view.id}”, shape “{shape.words}”"
        if shape.radius and len(shape.points) != 1:
            yield f"{where} is a circle and takes one point, its middle"
        if not shape.radius and len(shape.points) < LEAST_CORNERS:
            yield f"{where} has fewer than {LEAST_CORNERS} corners"
        for point in _outside(view, shape.points, shape.radius):
            yield f"{where} sticks out at {point[0]:g}, {point[1]:g}"


def _place_problems(fastener: Fastener, views: Mapping[str, View]) -> Iterator[str]:
    if bool(fastener.view) != bool(fastener.places):
        yield "has a view without places or places without a view"
    if fastener.places and len(fastener.places) != fastener.count:
        yield f"counts {fastener.count} and has {len(fastener.places)} places"
    if fastener.view and fastener.view not in views:
        yield f"sits in the view “{fastener.view}”, which there is not"
    elif fastener.view:
        for point in _outside(views[fastener.view], fastener.places):
            yield f"sits at {point[0]:g}, {point[1]:g}, outside of the view “{fastener.view}”"
    rounds = (0.0, *fastener.stages)
    if fastener.stages and (fastener.stages[-1] != 1 or any(a >= b for a, b in pairwise(rounds))):
        yield f"is tightened in rounds of {', '.join(f'{one:g}' for one in fastener.stages)}; they must rise to 1"


def _outside(view: View, points: Iterable[tuple[float, float]], margin: float = 0.0) -> Iterator[tuple[float, float]]:
    for across, down in points:
        if not (margin <= across <= view.width - margin and margin <= down <= view.height - margin):
            yield across, down


def step_problems(operation: Operation, lying: Iterable[str]) -> Iterator[str]:
    """Name what is wrong with one step: reasons, gaps, ways of lying without words, cautions, other ways."""
    told = {UPRIGHT, *lying}
    for reason in operation.reasons:
        if reason not in REASONS:
            yield f"gives “{reason}” as a reason; it must be one of {', '.join(REASONS)}"
    if operation.reasons and len(operation.reasons) != len(operation.needs):
        yield f"has {len(operation.needs)} needs and {len(operation.reasons)} reasons"
    if operation.access_minutes < 0:
        yield "takes less than no time to reach"
    for gap in operation.gaps:
        if not 0 < gap.low_mm <= gap.high_mm:
            yield f"sets “{gap.where}” to {gap.low_mm:g} to {gap.high_mm:g} mm; it must be above 0 and rise"
    ways = (*operation.orientations, *(way for method in operation.methods for way in method.orientations))
    yield from (f"is done “{way}”, which [lying] has no words for" for way in dict.fromkeys(ways) if way not in told)
    if any(fastener.safety_joint for fastener in operation.fasteners) and not operation.hazards:
        yield "undoes a safety joint without a caution"
    yield from _way_problems(operation)


def _way_problems(operation: Operation) -> Iterator[str]:
    if operation.methods and not operation.words:
        yield "has other ways, but its usual way has no words"
    names = [method.id for method in operation.methods]
    yield from (f"has the way “{name}” twice" for name in sorted({one for one in names if names.count(one) > 1}))
    for method in operation.methods:
        yield from (f"by “{method.id}” {words}" for words in _method_problems(method))
    every_way = (operation.not_when, *(method.not_when for method in operation.methods))
    for condition in dict.fromkeys(name for names in every_way for name in names):
        if condition not in CONDITIONS:
            yield f"is not done when “{condition}”; it must be one of {', '.join(CONDITIONS)}"
        elif all(condition in names for names in every_way):
            yield f"cannot be done in any way when {condition}"


def _method_problems(method: Method) -> Iterator[str]:
    if not method.words or not method.do:
        yield "does not say how it is done"
    if method.minutes <= 0:
        yield "takes no time"
    if not method.tool:
        yield f"names no tool; write “{HAND}” for bare hands"
