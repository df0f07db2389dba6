"""A pull integrated by scipy's Runge-Kutta pair of orders 5 and 4, from event to event: for tests and bench.

Our equations and what happens at a moment (spark, hand, reversal) are the program's public pieces; steps, their error
control and the finding of events are scipy's.
"""

from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp

from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.many import outcome_of
from bellcrank.engine.pull.places import EngineNumbers, PullNumbers
from bellcrank.engine.pull.rates import change, cord_force
from bellcrank.engine.pull.run import APART, BURNT_OUT, begin, next_spark
from bellcrank.engine.pull.watch import (
    HELD_FOR,
    LONGEST,
    SETTLED,
    STANDS,
    TRIGGER,
    follow_hand,
    note_fire,
    over,
    spark,
    watch_reversal,
)

USED_UP = 2e-8  # [kg] less of what was blown back into the intake counts as none, or its end would be stiff beyond use
JUST = 1e-9  # past an event, so that it is not found again
LONGEST_STEP = 5e-3  # [s] so that no event is passed over unseen
FINE = 1e-9  # [-] absolute error over each quantity's size
SIZES = np.array([1, 10, 1e-4, 300, 1e-4, 1, 1, 1, 0.1, 1e-5, 1e-5, 100, 100, 100, 100, 100, 100.0])


@dataclass
class ScipyPull:
    """One pull; ``kept`` as the program keeps it, and the lowest speed."""

    engine: EngineNumbers
    pull: PullNumbers
    scatter: np.ndarray
    exactness: float = 1e-6
    state: np.ndarray = field(default_factory=lambda: np.zeros(at.STATES))
    flags: np.ndarray = field(default_factory=lambda: np.zeros(at.FLAGS))
    kept: np.ndarray = field(default_factory=lambda: np.zeros(at.KEPT))
    time: float = 0.0
    lowest: float = 0.0
    calls: int = 0
    sparks: int = 0
    due: float = 0.0

    def run(self):
        """Run it to its end and give what came of it."""
        self.kept[at.LAST_FIRE] = -at.CYCLE
        begin(self.engine, self.pull, self.state)
        self.due = next_spark(self.state[at.ANGLE] + 1e-6, self.engine)
        while not over(self.time, self.state, self.flags, self.engine, self.kept):
            self.on_to_next_event()
        return outcome_of(self.kept)

    def right_hand(self, time, state):
        out = np.empty(at.STATES)
        if state[at.RETURNED] < USED_UP:
            state = state.copy()
            state[at.RETURNED] = state[at.RETURNED_FRESH] = 0
        try:
            change(time, state, self.flags, self.engine, self.pull, out)
        except ValueError:  # a trial step too long, in plain Python; compiled it gives the same
            out[:] = np.nan
        return out

    def events(self):
        """What may end a stretch: a function that crosses zero, the way it crosses, and what is done then."""
        spot = self.due + self.scatter[self.sparks % at.SPARKS_DRAWN, 0]
        found = [
            (lambda _, y: y[at.ANGLE] - spot, 1, self.at_spark),
            (lambda _, y: y[at.SPEED], -1, self.turns_back),
            (lambda _, y: y[at.RETURNED] - USED_UP, -1, self.used_up),
        ]
        if self.kept[at.FIRES] and not self.kept[at.REVERSED_AT]:
            found.append((lambda _, y: y[at.SPEED] - self.engine.catches_at - JUST, 1, self.nothing))
        if self.flags[at.BURNING]:
            found.append((lambda _, y: y[at.PROGRESS] - BURNT_OUT, 1, self.burnt_out))
        if self.flags[at.HAND_MODE] != at.GONE:
            found.append((lambda _, y: y[at.STRETCH] + JUST, -1, self.slack))
            found.append((lambda _, y: self.force(y) - self.pull.torn_at - JUST, 1, self.nothing))
        elif not self.flags[at.BURNING]:
            found.append((lambda _, y: y[at.SPEED] - STANDS + JUST, -1, self.nothing))
        if self.flags[at.HAND_MODE] == at.PULLING:
            found.append((lambda _, y: y[at.HAND_PLACE] - self.pull.stroke - JUST, 1, self.nothing))
        return found

    def until(self):
        """The next time at which something happens by the clock."""
        ends = [LONGEST]
        if self.flags[at.HAND_MODE] == at.HOLDING and not self.kept[at.REVERSED_AT]:
            ends.append(self.flags[at.HELD_SINCE] + HELD_FOR)
        if self.flags[at.HAND_MODE] != at.GONE and self.kept[at.REVERSED_AT]:
            ends.append(self.kept[at.REVERSED_AT] + SETTLED)
        return max(min(ends), self.time) + JUST

    def on_to_next_event(self):
        events = self.events()
        for function, direction, _ in events:
            function.__dict__.update(terminal=True, direction=direction)
        solved = solve_ivp(
            self.right_hand,
            (self.time, self.until()),
            self.state,
            events=[function for function, _, _ in events],
            rtol=self.exactness,
            atol=FINE * SIZES,
            max_step=LONGEST_STEP,
        )
        assert solved.success, solved.message
        self.calls += solved.nfev
        self.look_at(solved)
        self.state, self.time = solved.y[:, -1].copy(), float(solved.t[-1])
        for (_, _, then), when in zip(events, solved.t_events, strict=True):
            if when.size:
                then()
        follow_hand(self.time, self.state, self.flags, self.engine, self.pull, self.kept)

    def look_at(self, solved):
        """Keep what the steps of a stretch have shown."""
        for before, now, state in zip(solved.t, solved.t[1:], solved.y.T[1:], strict=False):
            note_fire(np.ascontiguousarray(state), self.flags, self.engine, self.kept)
            self.lowest = min(self.lowest, float(state[at.SPEED]))
            self.kept[at.MOST_SPEED] = max(self.kept[at.MOST_SPEED], state[at.SPEED])
            self.watch(now, now - before, np.ascontiguousarray(state))

    def watch(self, time, step, state):
        watch_reversal(time, step, state, self.flags, self.engine, self.kept)

    def force(self, state):
        return cord_force(state, self.flags, self.engine)

    def at_spark(self):
        if self.state[at.SPEED] > TRIGGER:
            mixture = self.pull.mixture + self.scatter[self.sparks % at.SPARKS_DRAWN, 1]
            spark(mixture, self.state, self.flags, self.engine, self.kept)
        self.sparks += 1
        self.due = next_spark(self.state[at.ANGLE] + APART, self.engine)

    def turns_back(self):
        self.state[at.SPEED] = -JUST
        self.watch(self.time, 0.0, self.state)

    def burnt_out(self):
        self.flags[at.BURNING] = 0

    def used_up(self):
        self.state[at.RETURNED] = self.state[at.RETURNED_FRESH] = 0

    def slack(self):
        self.state[at.STRETCH] = 0.0

    def nothing(self):
        """The event only ends the stretch: hand and end of the pull are looked at after every one."""
