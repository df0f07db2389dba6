"""The order in which causes are passed, so that as few findings and roots as possible are open at a time.

A finding is open from the first cause that has a say in it to the last; a cause that brings others about is open until
the last of those is passed. The work grows with two to the power of what is open together, not with how much was found.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

REMEMBERED = 256  # [-] orders; one takes some 20 kB


@dataclass(frozen=True, slots=True)
class Stop:
    """One cause in the order; axes are counted from the front, where a newly opened one is put."""

    cause: int
    opens: tuple[int, ...]  # bits, the last one ends up in front
    axis_of: Mapping[int, int]  # bit -> axis, while the cause is passed
    root_axes: tuple[int, ...]  # in the order of the cause's roots
    drives: bool  # its own axis, absent and present, is put in front afterwards
    closes: tuple[tuple[int, int | None], ...]  # (axis, bit of a finding or None for a root), one after the other
    width: int  # axes open while it is passed, its own counted


@dataclass(slots=True)
class _Road:
    """Where we are: what is open and who still needs it; open things are bits of an integer."""

    needs: dict[int, int]  # cause -> what must be open for it
    users: dict[int, int]  # thing -> causes left that need it
    open_now: int = 0


def passing_order(bits: Mapping[int, tuple[int, ...]], roots: Mapping[int, tuple[int, ...]]) -> tuple[Stop, ...]:
    """Order causes, given the bits each presses on and the roots each has; greedy, roots before what they bring about.

    >>> [stop.cause for stop in passing_order({0: (0,), 1: (0, 1), 2: (1,)}, {})]
    [0, 1, 2]
    """
    return _ordered(tuple(bits.items()), tuple(roots.items()))


@lru_cache(maxsize=REMEMBERED)
def _ordered(
    pressed_by: tuple[tuple[int, tuple[int, ...]], ...], roots_of: tuple[tuple[int, tuple[int, ...]], ...]
) -> tuple[Stop, ...]:
    """Order causes; the same evidence is weighed for several questions, so the last orders are remembered."""
    bits, roots = dict(pressed_by), dict(roots_of)
    first_driver = 1 + max((bit for pressed in bits.values() for bit in pressed), default=-1)
    driving = {root for own in roots.values() for root in own}
    names = {cause: first_driver + place for place, cause in enumerate(sorted(driving))}
    things = {
        cause: {
            *pressed,
            *(names[root] for root in roots.get(cause, ())),
            *([names[cause]] if cause in driving else []),
        }
        for cause, pressed in bits.items()
    }
    road = _Road(needs={cause: sum(1 << thing for thing in own) for cause, own in things.items()}, users={})
    for own in things.values():
        for thing in own:
            road.users[thing] = road.users.get(thing, 0) + 1
    order = _greedy(road, roots, {cause: tuple(own) for cause, own in things.items()})
    return tuple(_stops(order, bits, roots, names))


def _greedy(road: _Road, roots: Mapping[int, tuple[int, ...]], things: Mapping[int, tuple[int, ...]]) -> list[int]:
    order: list[int] = []
    waiting = {cause: len(roots.get(cause, ())) for cause in things}
    ready = sorted(cause for cause, count in waiting.items() if not count)
    followers: dict[int, list[int]] = {}
    for cause in things:
        for root in roots.get(cause, ()):
            followers.setdefault(root, []).append(cause)
    while ready:
        cause = min(ready, key=lambda one: _burden(road, one, things[one]))
        ready.remove(cause)
        order.append(cause)
        road.open_now |= road.needs[cause]
        for thing in things[cause]:
            road.users[thing] -= 1
            if not road.users[thing]:
                road.open_now &= ~(1 << thing)
        for follower in followers.get(cause, ()):
            waiting[follower] -= 1
            if not waiting[follower]:
                ready.append(follower)
    return order


def _burden(road: _Road, cause: int, things: tuple[int, ...]) -> tuple[int, float, int]:
    """Rank a cause by what is open after it; then those first that bring open things nearer to their end."""
    after = (road.open_now | road.needs[cause]).bit_count() - sum(road.users[thing] == 1 for thing in things)
    nearer = sum(1 / road.users[thing] for thing in things if road.open_now >> thing & 1)
    return after, -nearer, cause


def _stops(
    order: list[int],
    bits: Mapping[int, tuple[int, ...]],
    roots: Mapping[int, tuple[int, ...]],
    names: Mapping[int, int],
) -> list[Stop]:
    left: dict[int, int] = {}
    for cause in order:
        for thing in _needed(cause, bits, roots, names):
            left[thing] = left.get(thing, 0) + 1
    axes: list[int] = []
    stops = []
    for cause in order:
        opens = tuple(bit for bit in bits[cause] if bit not in axes)
        axes[:0] = reversed(opens)
        axis_of = {bit: axes.index(bit) for bit in bits[cause]}
        root_axes = tuple(axes.index(names[root]) for root in roots.get(cause, ()))
        drives = cause in names
        if drives:
            axes.insert(0, names[cause])
        width = len(axes)
        closes: list[tuple[int, int | None]] = []
        for thing in _needed(cause, bits, roots, names):
            left[thing] -= 1
            if not left[thing]:
                closes.append((axes.index(thing), thing if thing not in names.values() else None))
                axes.remove(thing)
        stops.append(Stop(cause, opens, axis_of, root_axes, drives, tuple(closes), width))
    return stops


def _needed(
    cause: int, bits: Mapping[int, tuple[int, ...]], roots: Mapping[int, tuple[int, ...]], names: Mapping[int, int]
) -> tuple[int, ...]:
    own = (names[cause],) if cause in names else ()
    return (*bits[cause], *(names[root] for root in roots.get(cause, ())), *own)
