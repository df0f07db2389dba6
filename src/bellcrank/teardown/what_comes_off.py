"""Which operations a target takes: every choice among the either-ors, as closed sets.

A sequence that frees the targets uses, for each operation and each of its groups, the member that was done first.
Dropping all else leaves a legal sequence that is no longer. So an optimum lies among the sets made by choosing one
member for each group of each operation in the set, even where another member is in the set already: a second member
may save turning the machine. Sets that take more hands-on time than a whole sequence already known are dropped.
"""

from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import product

from bellcrank.teardown.chart import Chart, numbers_in

MOST_SETS = 20_000  # [-] partial sets looked at before giving up on seeing all of them; a fifth of a second


@dataclass(frozen=True, slots=True)
class ClosedSets:
    """The sets an optimum can lie in, those with the least hands-on time first."""

    sets: tuple[int, ...]
    least_work_unseen: float | None  # hands-on time of the cheapest set not looked at; None: all were [min]


def one_closed_set(chart: Chart, targets: int, done: int) -> int:
    """Give one set that suffices: all that can be done, less what can be left alone, the dearest tried first."""
    chosen = chart.reachable((1 << len(chart.ids)) - 1, done) & ~done
    for number in sorted(numbers_in(chosen & ~targets), key=lambda n: -chart.minutes[n]):
        fewer = chart.reachable(chosen & ~(1 << number), done)
        if targets & ~fewer == 0:
            chosen = fewer & ~done
    return chosen


def closed_sets(chart: Chart, targets: int, done: int, *, most_work: float, most_sets: int = MOST_SETS) -> ClosedSets:
    """Give every set that holds the targets, what they need and no more, up to ``most_work`` hands-on minutes."""
    start = targets & ~done
    heap = [(chart.work(start), start, 0)]
    seen = {(start, 0)}
    finished: dict[int, None] = {}
    looked_at = 0
    while heap and looked_at < most_sets:
        _, chosen, settled = heappop(heap)
        looked_at += 1
        if chosen == settled and chart.reachable(chosen, done) & chosen == chosen:
            finished[chosen] = None
        for grown in _settle_next(chart, chosen, settled, done):
            work = chart.work(grown[0])
            if work <= most_work and grown not in seen:
                seen.add(grown)
                heappush(heap, (work, *grown))
    return ClosedSets(tuple(finished), heap[0][0] if heap else None)


def _settle_next(chart: Chart, chosen: int, settled: int, done: int) -> list[tuple[int, int]]:
    """Take the next operation whose needs are not chosen yet and choose them in every way."""
    waiting = chosen & ~settled
    if not waiting:
        return []
    bit = waiting & -waiting
    open_groups = [group for group in chart.needs[bit.bit_length() - 1] if not group & done]
    choices = product(*([1 << n for n in numbers_in(group)] for group in open_groups))
    return list({(chosen | _union(picks), settled | bit): None for picks in choices})


def _union(bits: tuple[int, ...]) -> int:
    union = 0
    for bit in bits:
        union |= bit
    return union
