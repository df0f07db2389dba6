"""The order of work: least minutes of changing tools and turning the machine, by exact search.

Hands-on minutes do not depend on the order, and no detour between tools or ways of lying is shorter than the direct
change. Then whatever can be done with the tool in the hand, as the machine lies, can be done at once without loss:
moving it forward there costs nothing and only opens more. So the search chooses campaigns (a tool and a way of lying),
not single screws. Best first with a bound that never promises too little makes the first finish the least.

References
----------
P. E. Hart, N. J. Nilsson, B. Raphael, A formal basis for the heuristic determination of minimum cost paths, 1968
(from memory); the campaign argument is our own and is tried against plain search in the tests.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from heapq import heappop, heappush
from itertools import count

from bellcrank.teardown.changeover import HAND, Changeover
from bellcrank.teardown.chart import Chart, numbers_in

NARROW, WIDE = 6, 60  # [-] half-finished orders kept side by side: for a first guess, for want of a proof
HAIR = 1e-9  # [min] closer than this two times are the same


@dataclass(frozen=True, slots=True)
class Errand:
    """What is to be put in order, from which state of the machine to which."""

    chart: Chart
    changeover: Changeover
    done: int  # operations done before
    lies: str  # how the machine lies at the start
    ends_lying: str | None  # how it must lie at the end; None: any way will do
    turns: Mapping[tuple[str, str], float]  # [min]
    by_tool: Mapping[str, int]  # the operations that take a tool
    only_lying: Mapping[str, int]  # the operations that can be done in one way of lying only


@dataclass(frozen=True, slots=True)
class Placed:
    """An operation in its place: how the machine lies when its turn comes."""

    number: int
    lying: str


@dataclass(frozen=True, slots=True)
class Order:
    """A legal order of the operations of one closed set."""

    placed: tuple[Placed, ...]
    minutes: float  # work and changeovers [min]
    work_minutes: float
    proven: bool
    bound: float  # no order of any set offered takes less [min]


@dataclass(frozen=True, slots=True)
class _State:
    chosen: int
    done: int
    tool: str
    lying: str
    changed: float  # changeover minutes so far [min]
    least: float  # minutes a finished order through here takes at least [min]
    before: "_State | None"
    just_done: tuple[int, ...]


def errand(
    chart: Chart, changeover: Changeover, *, done: int = 0, lies: str = "", ends_lying: str | None = None
) -> Errand:
    """Prepare the search: which operations take which tool, and which turns the machine can make."""
    ways = dict.fromkeys([lies, *([ends_lying] if ends_lying else []), *(w for o in chart.orientations for w in o)])
    by_tool: dict[str, int] = {}
    only_lying: dict[str, int] = {}
    for number, (tool, orientations) in enumerate(zip(chart.tools, chart.orientations, strict=True)):
        if tool != HAND:
            by_tool[tool] = by_tool.get(tool, 0) | 1 << number
        if len(orientations) == 1:
            only_lying[orientations[0]] = only_lying.get(orientations[0], 0) | 1 << number
    turns = changeover.turns_between(ways)
    return Errand(chart, changeover, done, lies, ends_lying, turns, by_tool, only_lying)


def least_order(task: Errand, sets: tuple[int, ...], known: Order, *, most_states: int) -> Order:
    """Give the least-time order over all the sets, or the best found with the bound it is known to lie above.

    ``known`` is an order found before; the search only looks for better ones.
    """
    ticket = count()
    heap: list[tuple[float, int, int, _State]] = []
    best_changed: dict[tuple[int, int, str, str], float] = {}
    _offer(heap, ticket, best_changed, (s for s in _starts(task, sets) if s.least < known.minutes - HAIR))
    for _ in range(most_states):
        if not heap:
            return Order(known.placed, known.minutes, known.work_minutes, proven=True, bound=known.minutes)
        least, _, _, state = heappop(heap)
        if _finished(state):
            return _order(task, state, proven=True, bound=least)
        if state.changed > best_changed[_key(state)] + HAIR:
            continue
        _offer(heap, ticket, best_changed, (s for s in _next_states(task, state) if s.least < known.minutes - HAIR))
    bound = min([known.minutes, *(entry[0] for entry in heap)])
    return Order(known.placed, known.minutes, known.work_minutes, proven=known.minutes - bound < HAIR, bound=bound)


def quick_order(task: Errand, sets: tuple[int, ...], width: int = NARROW) -> Order:
    """Give a good order fast by keeping only the most promising half-finished ones side by side."""
    layer = list(_starts(task, sets))
    bound = min(state.least for state in layer)
    finished: list[_State] = []
    while layer:
        finished += [state for state in layer if _finished(state)]
        best: dict[tuple[int, int, str, str], _State] = {}
        for state in (child for parent in layer if not _finished(parent) for child in _next_states(task, parent)):
            if _key(state) not in best or state.least < best[_key(state)].least:
                best[_key(state)] = state
        layer = sorted(best.values(), key=lambda state: state.least)[:width]
    winner = min(finished, key=lambda state: state.least)
    return _order(task, winner, proven=winner.least - bound < HAIR, bound=bound)


def _starts(task: Errand, sets: Iterable[int]) -> Iterator[_State]:
    for chosen in sets:
        yield _arrive(task, _State(chosen, task.done, "", task.lies, 0.0, 0.0, None, ()))


def _next_states(task: Errand, state: _State) -> Iterator[_State]:
    """One state for each campaign that something can be done in now."""
    chart = task.chart
    campaigns: dict[tuple[str, str], None] = {}
    for number in numbers_in(state.chosen & ~state.done):
        if chart.may_do(number, state.done):
            tool = state.tool if chart.tools[number] == HAND else chart.tools[number]
            ways = chart.orientations[number] or (state.lying,)
            campaigns |= dict.fromkeys((tool, way) for way in ((state.lying,) if state.lying in ways else ways))
    for tool, lying in campaigns:
        spent = task.changeover.tool(state.tool, tool) + task.turns[state.lying, lying]
        yield _arrive(task, _State(state.chosen, state.done, tool, lying, state.changed + spent, 0.0, state, ()))


def _arrive(task: Errand, state: _State) -> _State:
    """Do everything that takes no other tool and no turning, and look at what is left."""
    done, just_done = state.done, []
    more = True
    while more:
        more = False
        for number in numbers_in(state.chosen & ~done):
            if _costs_nothing(task.chart, number, state) and task.chart.may_do(number, done):
                done |= 1 << number
                just_done.append(number)
                more = True
    left = state.chosen & ~done
    least = task.chart.work(state.chosen) + state.changed + least_changing(task, left, state.tool, state.lying)
    return replace(state, done=done, least=least, just_done=tuple(just_done))


def _costs_nothing(chart: Chart, number: int, state: _State) -> bool:
    ways = chart.orientations[number]
    return chart.tools[number] in (HAND, state.tool) and (not ways or state.lying in ways)


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


def _offer(
    heap: list[tuple[float, int, int, _State]],
    ticket: "count[int]",
    best_changed: dict[tuple[int, int, str, str], float],
    states: Iterable[_State],
) -> None:
    for state in states:
        if state.changed < best_changed.get(_key(state), float("inf")) - HAIR:
            best_changed[_key(state)] = state.changed
            heappush(heap, (state.least, (state.chosen & ~state.done).bit_count(), next(ticket), state))


def _key(state: _State) -> tuple[int, int, str, str]:
    return state.chosen, state.done, state.tool, state.lying


def _finished(state: _State) -> bool:
    return state.chosen & ~state.done == 0


def _order(task: Errand, last: _State, *, proven: bool, bound: float) -> Order:
    campaigns: list[_State] = []
    state: _State | None = last
    while state is not None:
        campaigns.append(state)
        state = state.before
    placed = tuple(Placed(number, s.lying) for s in reversed(campaigns) for number in s.just_done)
    return Order(placed, last.least, task.chart.work(last.chosen), proven=proven, bound=bound)
