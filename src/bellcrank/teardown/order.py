"""The best order of a chosen set of operations: campaigns with one tool in one way of lying.

With changeovers that no detour shortens and minutes that do not depend on order, everything chosen that can be done
without a changeover may be done at once: doing it earlier delays nothing and only enables more. So the search branches
on the next change of tool or of lying, not on single screws, and a shortest-path search over what is left is exact.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import count

from bellcrank.teardown.changeover import HAND, Changeover
from bellcrank.teardown.chart import Chart, numbers_in

MOST_STATES = 60_000  # [-] states looked at before the search says "not proven"; about half a second


@dataclass(frozen=True, slots=True)
class Placed:
    """An operation with the way the machine lies for it."""

    number: int
    lies: str
    turned: bool


@dataclass(frozen=True, slots=True)
class Order:
    """An order of all chosen operations."""

    steps: tuple[Placed, ...]
    changeover: float  # [min]
    proven: bool


@dataclass(frozen=True, slots=True)
class Stand:
    """Where the work stands: what is done, the tool in the hand, how the machine lies."""

    done: int
    tool: str
    lies: str


def best_order(
    chart: Chart, chosen: int, start: Stand, changeover: Changeover, *, most: float, most_states: int = MOST_STATES
) -> Order | None:
    """Give the order with the least changeover minutes below ``most``, None when there is none."""
    first, steps = _do_all_free(chart, chosen, start)
    ticket = count()
    heap = [(0.0, next(ticket), first, steps)]
    best = {first: 0.0}
    looked_at = 0
    while heap:
        cost, _, stand, steps = heappop(heap)
        if cost >= most:
            return None
        if chosen & ~stand.done == 0:
            return Order(steps, cost, proven=True)
        if cost > best[stand]:
            continue
        looked_at += 1
        if looked_at > most_states:
            return _greedily(chart, chosen, stand, steps, cost, changeover)
        for change, tool, lies in _campaigns(chart, chosen, stand, changeover):
            reached, more = _do_all_free(chart, chosen, Stand(stand.done, tool, lies), turned=lies != stand.lies)
            total = cost + change
            if total < best.get(reached, float("inf")):
                best[reached] = total
                heappush(heap, (total, next(ticket), reached, steps + more))
    return None


def _do_all_free(chart: Chart, chosen: int, stand: Stand, *, turned: bool = False) -> tuple[Stand, tuple[Placed, ...]]:
    """Do everything that needs no changeover."""
    done = stand.done
    steps: list[Placed] = []
    again = True
    while again:
        again = False
        for number in numbers_in(chosen & ~done):
            if _is_free(chart, number, stand) and chart.may_do(number, done):
                steps.append(Placed(number, stand.lies, turned and not steps))
                done |= 1 << number
                again = True
    return Stand(done, stand.tool, stand.lies), tuple(steps)


def _is_free(chart: Chart, number: int, stand: Stand) -> bool:
    lies = chart.orientations[number]
    return chart.tools[number] in (HAND, stand.tool) and (not lies or stand.lies in lies)


def _campaigns(chart: Chart, chosen: int, stand: Stand, changeover: Changeover) -> Iterator[tuple[float, str, str]]:
    """Give every change of tool or lying that lets a waiting operation be done, with its minutes."""
    seen: set[tuple[str, str]] = set()
    for number in numbers_in(chosen & ~stand.done):
        if not chart.may_do(number, stand.done):
            continue
        wanted = chart.tools[number]
        tool = stand.tool if wanted == HAND else wanted
        lying = chart.orientations[number]
        for lies in (stand.lies,) if not lying or stand.lies in lying else lying:
            if (tool, lies) not in seen:
                seen.add((tool, lies))
                yield changeover.tool(stand.tool, wanted) + changeover.turn(stand.lies, lies), tool, lies


def _greedily(
    chart: Chart, chosen: int, stand: Stand, steps: tuple[Placed, ...], cost: float, changeover: Changeover
) -> Order | None:
    """Finish by the cheapest next change; good, not proven."""
    while chosen & ~stand.done:
        options = sorted(_campaigns(chart, chosen, stand, changeover))
        if not options:
            return None
        change, tool, lies = options[0]
        stand, more = _do_all_free(chart, chosen, Stand(stand.done, tool, lies), turned=lies != stand.lies)
        steps, cost = steps + more, cost + change
    return Order(steps, cost, proven=False)
