"""Best-first search for the least-time order over many closed sets, with a bound at every moment.

Sets are looked at only when the least they can take is no more than what is known of the orders begun. The first
finished order that comes up is the least. When the search is given up, the best found stands, and what no order can
take less than.

References
----------
P. E. Hart, N. J. Nilsson, B. Raphael, A formal basis for the heuristic determination of minimum cost paths, 1968
(from memory); the arguments that shorten it are our own and are tried against plain search in the tests.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from heapq import heappop, heappush
from math import inf

from bellcrank.teardown.campaigns import Ground, HalfDone, first, going_on, ground
from bellcrank.teardown.sequencing import Sequencing, Setup

HAIR = 1e-9  # [min] closer than this two times are the same
NARROW = 6  # [-] half-finished orders kept side by side for a first guess
MOST_STATES = 30_000  # [-] half-finished orders looked at before the search is given up: some seconds
REPORT_EVERY = 500  # [-] half-finished orders between two reports
GUESSES = 8  # [-] sets a good order is looked for in before the search proves anything


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the search is."""

    looked_at: int  # half-finished orders
    minutes: float  # the best order found [min]
    bound: float  # no order takes less [min]


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to search: up to so many half-finished orders, and as long as ``go_on`` says so."""

    most_states: int = MOST_STATES
    go_on: Callable[[Progress], bool] | None = None


USUAL = Effort()


@dataclass(frozen=True, slots=True)
class Found:
    """The best order found, and what is proven of it."""

    last: HalfDone
    proven: bool
    bound: float  # no order of any set offered takes less [min]
    looked_at: int  # half-finished orders

    @property
    def minutes(self) -> float:
        """What the order takes, work and changing. [min]"""
        return self.last.least

    def order(self) -> tuple[tuple[int, tuple[int, ...]], ...]:
        """Give the operations by number, in order, each with the setup of its campaign."""
        chain: list[HalfDone] = []
        state: HalfDone | None = self.last
        while state is not None:
            chain.append(state)
            state = state.before
        chain.reverse()
        order = self.last.ground.order
        return tuple(
            (bit.bit_length() - 1, state.setup)
            for earlier, state in zip((None, *chain), chain, strict=False)
            for bit in order.sequence(earlier.done if earlier else state.ground.begun, state.done)
        )


def least_order(
    problem: Sequencing, sets: Iterator[tuple[float, int | None]], effort: Effort = USUAL, guess: int | None = None
) -> Found | None:
    """Give the least-time order over all the sets; None when there is no legal one.

    ``sets`` gives closed sets, each with minutes that neither it nor any later one can do without; no set only
    says how far the looking for sets has come. ``guess`` is one of them, for a first order.
    """
    search = _Search(problem, sets)
    search.begin(guess)
    while search.bound() < search.known_minutes() - HAIR and search.looked_at < effort.most_states:
        search.look()
        if effort.go_on and search.looked_at % REPORT_EVERY == 0 and not effort.go_on(search.progress()):
            break
    return search.found()


def quick_order(problem: Sequencing, on: Ground, width: int = NARROW) -> HalfDone | None:
    """Give a good order fast by keeping only the most promising half-done ones side by side."""
    layer = [first(problem, on)]
    finished: list[HalfDone] = []
    while layer:
        finished += [state for state in layer if not state.left]
        best: dict[tuple[int, int, Setup], HalfDone] = {}
        for state in (child for parent in layer if parent.left for child in going_on(parent)):
            if state.key not in best or state.least < best[state.key].least:
                best[state.key] = state
        layer = sorted(best.values(), key=lambda state: state.least)[:width]
    return min(finished, key=lambda state: state.least, default=None)


@dataclass(slots=True)
class _Search:
    """What is known so far: orders begun, cheapest first, and the best that is finished."""

    problem: Sequencing
    sets: Iterator[tuple[float, int | None]]
    sets_from: float = 0.0  # minutes no set not yet seen can do without; infinite when all are seen
    begun: list[tuple[float, int, int, HalfDone]] = field(default_factory=list)
    changed: dict[tuple[int, int, Setup], float] = field(default_factory=dict)
    known: HalfDone | None = None
    looked_at: int = 0
    kept: int = 0
    taken_up: set[int] = field(default_factory=set)

    def bound(self) -> float:
        """No order takes less. [min]"""
        return min(self.sets_from, self.begun[0][0] if self.begun else inf)

    def known_minutes(self) -> float:
        return self.known.least if self.known else inf

    def progress(self) -> Progress:
        return Progress(self.looked_at, self.known_minutes(), min(self.bound(), self.known_minutes()))

    def found(self) -> Found | None:
        if self.known is None:
            return None
        bound = min(self.bound(), self.known.least)
        return Found(self.known, self.known.least - bound < HAIR, bound, self.looked_at)

    def look(self) -> None:
        """Look at the next set, or go on from the most promising order."""
        self.looked_at += 1
        if not self.begun or self.sets_from <= self.begun[0][0]:
            self.sets_from, chosen = next(self.sets, (inf, None))
            self.begin(chosen)
            return
        state = heappop(self.begun)[3]
        if state.changed <= self.changed[state.key] + HAIR:
            for child in going_on(state):
                self._keep(child)

    def begin(self, chosen: int | None) -> None:
        """Take up a set, and for the first few look quickly for a good order in it."""
        if chosen is None or chosen in self.taken_up:
            return
        self.taken_up.add(chosen)
        on = ground(self.problem, chosen)
        start = first(self.problem, on)
        if start.least < self.known_minutes() - HAIR and len(self.taken_up) <= GUESSES:
            guess = quick_order(self.problem, on)
            if guess and guess.least < self.known_minutes():
                self.known = guess
        self._keep(start)

    def _keep(self, state: HalfDone) -> None:
        if state.least >= self.known_minutes() - HAIR:
            return
        if not state.left:
            self.known = state
        elif state.changed < self.changed.get(state.key, inf) - HAIR:
            self.changed[state.key] = state.changed
            self.kept += 1
            heappush(self.begun, (state.least, state.left.bit_count(), self.kept, state))
