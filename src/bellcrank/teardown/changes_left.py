"""How much changing the rest of the work takes at least, whatever its order.

Two operations of one tool with an operation of another tool forced between them can never share a turn of that tool.
So a tool is taken up at least as often as the longest chain of its operations that are parted so. What is left to do
always holds all that comes after any of it, so the chain that begins at an operation is the same in every state: it is
measured once, and a state only asks which operations are left. Each time a state is taken up costs at least the
cheapest change into it. An aspect of few states (how the machine lies) is searched whole, as if nothing else were ever
changed: that is remembered, for there are few such orders.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import reduce
from itertools import product
from operator import or_

from bellcrank.teardown.precedence import Precedence
from bellcrank.teardown.sequencing import Aspect, bits_of

FEW_STATES = 5  # [-] an aspect of up to so many states is searched whole


@dataclass(frozen=True, slots=True)
class ChangesLeft:
    """The bound for one aspect within one set of operations, and what the search asks of the aspect."""

    costs: tuple[tuple[float, ...], ...]
    nothing: int | None
    free: tuple[int, ...]  # per state the operations that can be done in it [set]
    states: Mapping[int, tuple[int, ...]]  # the states an operation can be done in; () for any [bit -> states]
    only: tuple[int, ...]  # per state the operations that can be done in no other [set]
    arriving: tuple[float, ...]  # per state the cheapest change into it [min]
    chains: tuple[tuple[float, tuple[int, ...]], ...]  # of a used state: arriving, who has one, two ... turns to come
    turns: Mapping[int, int]  # turns of its state from this operation on [bit -> count]
    away: Mapping[int, int]  # what is forced before it and asks to leave its state [bit -> set]
    remembered: dict[int, float] = field(default_factory=dict)
    alone: "Alone | None" = None

    def at_least(self, left: int, state: int) -> float:
        """What changing this aspect still costs at least for what is left to do. [min]"""
        taking_up = self.remembered.get(left)
        if taking_up is None:
            taking_up = sum(cost * sum(1 for chain in chains if left & chain) for cost, chains in self.chains)
            self.remembered[left] = taking_up
        here = left & self.only[state]
        if here and self.arriving[state]:
            turns = max(self.turns[bit] for bit in bits_of(here))
            more = max(self.turns[bit] - (not self.away[bit] & left) for bit in bits_of(here))
            taking_up -= self.arriving[state] * (turns - more)
        return max(taking_up, self.alone.at_least(left, state)) if self.alone else taking_up

    def settled(self, left: int, state: int) -> int:
        """Give the state, or empty hands where what is held is laid down anyway before it is wanted again."""
        if self.nothing is None or any(not self.away[bit] & left for bit in bits_of(left & self.only[state])):
            return state
        return self.nothing


@dataclass(frozen=True, slots=True)
class Alone:
    """An aspect searched as if it were the only one; what can be done in several of its states counts for nothing."""

    only: tuple[int, ...]  # per state the operations that can be done in no other [set]
    parted: Mapping[int, int]  # what must be done, and its state left, before this one [bit -> set]
    shortest: Mapping[tuple[int, int], float]  # between two states, by a detour where that is cheaper [min]
    remembered: dict[tuple[int, int], float] = field(default_factory=dict)

    def at_least(self, left: int, state: int) -> float:
        """The cheapest changing for what is left, in any order the needs allow. [min]"""
        left &= ~self._now(left, state)
        if (left, state) not in self.remembered:
            onward = (s for s in range(len(self.only)) if s != state and self._now(left, s))
            self.remembered[left, state] = min(
                (self.shortest[state, s] + self.at_least(left, s) for s in onward), default=0.0
            )
        return self.remembered[left, state]

    def _now(self, left: int, state: int) -> int:
        return _join(bit for bit in bits_of(left & self.only[state]) if not self.parted[bit] & left)


def changes_left(aspect: Aspect, order: Precedence) -> ChangesLeft:
    """Measure the chains of each state of an aspect within a chosen set of operations."""
    fits = {bit: aspect.fits[bit.bit_length() - 1] for bit in order.must}
    states = range(len(aspect.costs))
    only = tuple(_join(bit for bit, fit in fits.items() if fit == 1 << state) for state in states)
    leaving = tuple(_join(bit for bit, fit in fits.items() if fit and not fit >> state & 1) for state in states)
    turns: dict[int, int] = {}
    away: dict[int, int] = {}
    for mine, others in zip(only, leaving, strict=True):
        away |= {bit: order.before[bit] & others for bit in bits_of(mine)}
        turns |= _turns(mine, away, order)
    arriving = tuple(_cheapest_into(aspect, state) for state in states)
    return ChangesLeft(
        costs=aspect.costs,
        nothing=aspect.nothing,
        free=tuple(_join(bit for bit, fit in fits.items() if not fit or fit >> state & 1) for state in states),
        states={bit: tuple(s for s in states if fit >> s & 1) for bit, fit in fits.items()},
        only=only,
        arriving=arriving,
        chains=tuple((cost, _chains(o, turns)) for cost, o in zip(arriving, only, strict=True) if cost and o),
        turns=turns,
        away=away,
        alone=_alone(aspect, only, away, order) if len(aspect.costs) <= FEW_STATES else None,
    )


def _alone(aspect: Aspect, only: tuple[int, ...], away: Mapping[int, int], order: Precedence) -> Alone:
    everything = _join(only)
    parted = {
        bit: _join(p for p in bits_of(order.before[bit] & everything) if not p & mine or order.after[p] & away[bit])
        for mine in only
        for bit in bits_of(mine)
    }
    return Alone(only, parted, _shortest(aspect))


def _turns(mine: int, away: Mapping[int, int], order: Precedence) -> dict[int, int]:
    """For each operation of a state the longest chain of its operations from there on, parted by other states."""
    turns: dict[int, int] = {}
    for bit in sorted(bits_of(mine), key=lambda one: order.after[one].bit_count()):
        later = order.after[bit]
        turns[bit] = max((turns[o] + bool(later & away[o]) for o in bits_of(later & mine)), default=1)
    return turns


def _chains(mine: int, turns: Mapping[int, int]) -> tuple[int, ...]:
    most = max((turns[bit] for bit in bits_of(mine)), default=0)
    return tuple(_join(bit for bit in bits_of(mine) if turns[bit] >= count) for count in range(1, most + 1))


def _cheapest_into(aspect: Aspect, state: int) -> float:
    return min((row[state] for s, row in enumerate(aspect.costs) if s != state), default=0.0)


def _shortest(aspect: Aspect) -> dict[tuple[int, int], float]:
    states = range(len(aspect.costs))
    table = {(a, b): aspect.costs[a][b] for a, b in product(states, repeat=2)}
    for middle, a, b in product(states, repeat=3):
        table[a, b] = min(table[a, b], table[a, middle] + table[middle, b])
    return table


def _join(sets: Iterable[int]) -> int:
    return reduce(or_, sets, 0)
