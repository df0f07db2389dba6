"""A machine's steps as a problem for the search: the tool in the hand and how the machine lies are what is changed."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from bellcrank.teardown.changeover import HAND, Changeover
from bellcrank.teardown.chart import Chart
from bellcrank.teardown.sequencing import Aspect, Sequencing

EMPTY = ""  # the hand holds no tool


@dataclass(frozen=True, slots=True)
class Problem:
    """The steps of a machine put to the search, with the names of what the search knows by number."""

    sequencing: Sequencing
    tools: tuple[str, ...]
    ways: tuple[str, ...]  # of lying


def problem_of(chart: Chart, changeover: Changeover, *, done: int, lies: str) -> Problem:
    """Put the steps of a machine to the search, from how it lies, with empty hands."""
    tools = tuple(dict.fromkeys((EMPTY, *(tool for tool in chart.tools if tool != HAND))))
    ways = tuple(dict.fromkeys((lies, *(way for each in chart.orientations for way in each))))
    turns = changeover.turns_between(ways)
    every_change = tuple(tuple(changeover.tool(held, wanted) for wanted in tools) for held in tools)
    in_the_hand = Aspect(every_change, tuple(_set([tool], tools) for tool in chart.tools), 0, nothing=0)
    lying = Aspect(
        tuple(tuple(turns[a, b] for b in ways) for a in ways), tuple(_set(each, ways) for each in chart.orientations), 0
    )
    return Problem(Sequencing(chart.needs, chart.minutes, (in_the_hand, lying), done), tools, ways)


def least_minutes(problem: Sequencing) -> Callable[[int], float]:
    """Give what tells how much a set of operations takes at least from the start, at a glance."""
    into = [_into(aspect) for aspect in problem.aspects]

    def least(chosen: int) -> float:
        minutes = problem.work(chosen)
        for states in into:
            minutes += sum(cost for cost, only in states if chosen & only)
        return minutes

    return least


def _into(aspect: Aspect) -> list[tuple[float, int]]:
    """For each state but the first one the cheapest change into it, and the operations that can be done in no other."""
    found = []
    for state in range(len(aspect.costs)):
        cheapest = min((row[state] for s, row in enumerate(aspect.costs) if s != state), default=0.0)
        only = sum(1 << number for number, fits in enumerate(aspect.fits) if fits == 1 << state)
        if state != aspect.start and only and cheapest:
            found.append((cheapest, only))
    return found


def _set(names: Iterable[str], known: tuple[str, ...]) -> int:
    return sum(1 << known.index(name) for name in names if name != HAND)


@dataclass(frozen=True, slots=True)
class Errand:
    """The way back, whose order stands: what changing it takes at least."""

    chart: Chart
    changeover: Changeover
    ends_lying: str | None  # how the machine must lie at the end; None: any way will do
    turns: Mapping[tuple[str, str], float]  # [min]
    by_tool: Mapping[str, int]  # the operations that take a tool
    only_lying: Mapping[str, int]  # the operations that can be done in one way of lying only


def errand(chart: Chart, changeover: Changeover, *, lies: str = "", ends_lying: str | None = None) -> Errand:
    """Tell which operations take which tool, and which turns the machine can make."""
    ways = dict.fromkeys([lies, *([ends_lying] if ends_lying else []), *(w for o in chart.orientations for w in o)])
    by_tool: dict[str, int] = {}
    only_lying: dict[str, int] = {}
    for number, (tool, orientations) in enumerate(zip(chart.tools, chart.orientations, strict=True)):
        if tool != HAND:
            by_tool[tool] = by_tool.get(tool, 0) | 1 << number
        if len(orientations) == 1:
            only_lying[orientations[0]] = only_lying.get(orientations[0], 0) | 1 << number
    turns = changeover.turns_between(ways)
    return Errand(chart, changeover, ends_lying, turns, by_tool, only_lying)


def least_changing(task: Errand, left: int, tool: str, lying: str) -> float:
    """Minutes of changing tools and turning that the rest takes whatever its order; never too many. [min]"""
    tools = sum(1 for name, users in task.by_tool.items() if name != tool and users & left)
    places = {way for way, users in task.only_lying.items() if way != lying and users & left}
    visits = len(places)
    if task.ends_lying is not None:
        visits += 1 if (task.ends_lying == lying and places) else 0
        places |= {task.ends_lying} - {lying}
        visits = max(visits, len(places))
    farthest = max((task.turns[lying, place] for place in places), default=0.0)
    shortest = min((minutes for (a, b), minutes in task.turns.items() if a != b), default=0.0)
    return tools * task.changeover.tool_minutes + max(visits * shortest, farthest)
