"""Which steps a target takes, and which way each is done: every choice, as closed sets.

A sequence that frees the targets uses, for each step and each of its groups, the member that was done first, in the way
it was done. Dropping all else leaves a legal sequence that is no longer. So an optimum lies among the sets made by
choosing one member for each group of each step in the set, even where another member is in the set already: a second
member may save turning the machine. No step stands in a set in two ways.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import reduce
from heapq import heappop, heappush
from itertools import product
from operator import or_

from bellcrank.teardown.chart import Chart
from bellcrank.teardown.sequencing import bits_of, numbers_in


def one_closed_set(chart: Chart, wanted: tuple[int, ...], done: int, allowed: int) -> int:
    """Give one set that suffices: all that can be done, less what can be left alone, the dearest tried first."""
    chosen = chart.reachable(allowed, done) & ~done
    for number in sorted(numbers_in(chosen), key=lambda n: -chart.minutes[n]):
        fewer = chart.reachable(chosen & ~(1 << number), done)
        if all(fewer & group for group in wanted):
            chosen = fewer & ~done
    return chosen


def closed_sets(
    chart: Chart, wanted: tuple[int, ...], done: int, allowed: int, least: Callable[[int], float]
) -> Iterator[tuple[float, int | None]]:
    """Give every set that holds one of each wanted group, what that needs, and no more; the least minutes first.

    ``least`` tells what a set cannot do without. No set only says how far the looking has come. [min]
    """
    heap: list[tuple[float, int, int, int]] = []
    seen: set[tuple[int, int]] = set()
    growing = [(picked, 0) for picked in _picked(chart, _open(chart, wanted, 0, done, allowed), 0)]
    while True:
        for chosen, settled in growing:
            whole = _with_what_is_forced(chart, chosen, settled, done, allowed)
            if whole is not None and whole not in seen:
                seen.add(whole)
                minutes = least(whole[0]) + _still_to_choose(chart, *whole, done, allowed)
                heappush(heap, (minutes, -whole[1].bit_count(), *whole))
        if not heap:
            return
        minutes, _, chosen, settled = heappop(heap)
        waiting = chosen & ~settled
        complete = not waiting and chart.reachable(chosen, done) & chosen == chosen
        yield minutes, chosen if complete else None
        bit = waiting & -waiting
        groups = _open(chart, chart.needs[bit.bit_length() - 1], chosen, done, allowed) if bit else []
        growing = [(picked, settled | bit) for picked in _picked(chart, groups, chosen)] if bit else []


def _open(chart: Chart, groups: Iterable[int], chosen: int, done: int, allowed: int) -> list[int]:
    """Give what may be chosen from for each group that nothing done serves; no step in a second way."""
    free = allowed & ~chart.rivals_of(chosen)
    return [group & free for group in groups if not group & done]


def _picked(chart: Chart, groups: list[int], chosen: int) -> set[int]:
    """Choose one member of each group in every way that does no step twice."""
    grown = set()
    for picks in product(*(bits_of(group) for group in groups)):
        union = reduce(or_, picks, chosen)
        if not chart.rivals_of(union) & union:
            grown.add(union)
    return grown


def _with_what_is_forced(chart: Chart, chosen: int, settled: int, done: int, allowed: int) -> tuple[int, int] | None:
    """Add all that there is no choice about; None when something needed cannot be had."""
    grew = True
    while grew:
        grew = False
        for bit in bits_of(chosen & ~settled):
            groups = _open(chart, chart.needs[bit.bit_length() - 1], chosen, done, allowed)
            if not all(groups):
                return None
            if all(group & (group - 1) == 0 for group in groups):
                chosen = reduce(or_, groups, chosen)
                settled |= bit
                grew = True
    return chosen, settled


def _still_to_choose(chart: Chart, chosen: int, settled: int, done: int, allowed: int) -> float:
    """Minutes that choices still to be made add at least: the quickest of groups that share no member. [min]"""
    minutes, counted = 0.0, chosen
    for number in numbers_in(chosen & ~settled):
        for group in _open(chart, chart.needs[number], chosen, done, allowed):
            if not group & counted:
                counted |= group
                minutes += min(chart.minutes[member] for member in numbers_in(group))
    return minutes
