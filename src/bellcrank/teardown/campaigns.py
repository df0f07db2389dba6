"""Half-finished orders of one closed set, and the campaigns that go on from them.

Whatever can be done with the tool in the hand, as the machine lies, can be done at once without loss: moving it forward
costs nothing and only opens more. So the search chooses campaigns (a tool and a way of lying), not single screws.
Two more arguments keep it short, both for an aspect in which every change costs the same (tools):

- A tool that is laid down anyway before it is wanted again counts as empty hands, so that such orders meet.
- With empty hands, a tool that can finish all that is left for it without turning the machine is taken at once: it must
  be taken up once, and whatever comes next needs a change anyway.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from bellcrank.teardown.changes_left import ChangesLeft, changes_left
from bellcrank.teardown.precedence import Precedence, precedence
from bellcrank.teardown.sequencing import Sequencing, Setup, bits_of


@dataclass(frozen=True, slots=True)
class Ground:
    """One closed set, measured for searching."""

    order: Precedence
    aspects: tuple[ChangesLeft, ...]
    work: float  # [min]
    begun: int  # done before [set]
    free: dict[Setup, int] = field(default_factory=dict)  # what a setup can do [set]


@dataclass(frozen=True, slots=True)
class HalfDone:
    """An order begun: what is done, in which setup, at what cost."""

    ground: Ground
    done: int
    ready: int
    setup: Setup
    changed: float  # spent on changing [min]
    least: float  # minutes a finished order through here takes at least [min]
    before: "HalfDone | None"

    @property
    def left(self) -> int:
        """What is still to be done."""
        return self.ground.order.chosen & ~self.done

    @property
    def key(self) -> tuple[int, int, Setup]:
        """What two orders have in common that go on alike."""
        return self.ground.order.chosen, self.done, self.setup


def ground(problem: Sequencing, chosen: int) -> Ground:
    """Measure a closed set."""
    order = precedence(problem, chosen)
    aspects = tuple(changes_left(aspect, order) for aspect in problem.aspects)
    return Ground(order, aspects, problem.work(chosen), problem.done)


def first(problem: Sequencing, on: Ground) -> HalfDone:
    """Begin: do what needs no change."""
    setup = tuple(aspect.start for aspect in problem.aspects)
    return _arrive(on, None, setup, 0.0)


def going_on(state: HalfDone) -> Iterator[HalfDone]:
    """Give one half-done order for each campaign that something can be done in now."""
    options = _setups(state)
    finisher = _finisher(state, options)
    for setup, cost in options.items() if finisher is None else [(finisher, options[finisher])]:
        yield _arrive(state.ground, state, setup, state.changed + cost)


def _arrive(on: Ground, before: HalfDone | None, setup: Setup, changed: float) -> HalfDone:
    done, ready = (before.done, before.ready) if before else (on.begun, on.order.ready(on.begun))
    done, ready = on.order.do_all(done, ready, _free(on, setup))
    left = on.order.chosen & ~done
    settled = tuple(aspect.settled(left, one) for aspect, one in zip(on.aspects, setup, strict=True))
    least = on.work + changed
    for aspect, one in zip(on.aspects, settled, strict=True):
        least += aspect.at_least(left, one)
    return HalfDone(on, done, ready, settled, changed, least, before)


def _free(on: Ground, setup: Setup) -> int:
    free = on.free.get(setup)
    if free is None:
        free = on.order.chosen
        for aspect, one in zip(on.aspects, setup, strict=True):
            free &= aspect.free[one]
        on.free[setup] = free
    return free


def _setups(state: HalfDone) -> Mapping[Setup, float]:
    """The setups in which something can be done, each with what changing to it costs."""
    options: dict[Setup, float] = {}
    for bit in bits_of(state.ready):
        reached: list[tuple[Setup, float]] = [((), 0.0)]
        for aspect, now in zip(state.ground.aspects, state.setup, strict=True):
            states = aspect.states[bit]
            if not states or now in states:
                reached = [((*setup, now), cost) for setup, cost in reached]
            else:
                reached = [((*setup, s), cost + aspect.costs[now][s]) for setup, cost in reached for s in states]
        options.update(reached)
    return options


def _finisher(state: HalfDone, options: Iterable[Setup]) -> Setup | None:
    """A setup that finishes all that is left for one tool, where taking it at once loses nothing."""
    on, left = state.ground, state.left
    for place, aspect in enumerate(on.aspects):
        if aspect.nothing is None or state.setup[place] != aspect.nothing:
            continue
        for setup in options:
            if all((one == now) != (at == place) for at, (one, now) in enumerate(zip(setup, state.setup, strict=True))):
                done, _ = on.order.do_all(state.done, state.ready, _free(on, setup))
                if not aspect.only[setup[place]] & left & ~done:
                    return setup
    return None
