"""Many pulls at once: run on several threads, and said as shares with their intervals."""

from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.draw import DrawnPulls
from bellcrank.engine.pull.places import EngineNumbers
from bellcrank.engine.pull.run import run_carefully, run_rows
from bellcrank.stats.share import Share, share_of

Numbers = NDArray[np.float64]

AT_A_TIME = 25  # pulls between two reports
MOST_STEPS = 20_000  # of a pull that is traced


class Outcome(StrEnum):
    """What came of a pull."""

    NO_FIRE = "no_fire"
    FIRES_AND_DIES = "fires_and_dies"
    CATCHES = "catches"
    KICKS_BACK = "kicks_back"
    GOES_SOLID = "goes_solid"


@dataclass(frozen=True, slots=True)
class Spread:
    """How large something was, over the pulls that had it: every second, every tenth was larger. None had it: zero."""

    median: float
    tenth: float


@dataclass(frozen=True, slots=True)
class PullRates:
    """What came of many pulls."""

    pulls: int
    shares: Mapping[Outcome, Share]
    pops_intake: Share
    pops_exhaust: Share
    ignitable: Share
    kicks_back_if_ignitable: Share
    catches_if_ignitable: Share
    bounces: Share  # no fire threw it back, compression alone dragged the hand or tore the handle away
    jerks: Share  # felt in the hand: a kick or a bounce
    torn: Share  # handle torn away, of the pulls that kicked
    cord_force: Spread  # largest of a pull [N]
    kick_force: Spread  # while the crank turned back, of those that kicked [N]
    impulse: Spread  # the same [N·s]
    reverse_energy: Spread  # of the crank turning back, of those that kicked [J]
    reverse_speed: Spread  # [rad/s]
    unbooked: float  # most that any pull's energy books missed [-]


@dataclass(frozen=True, slots=True)
class PullTrace:
    """One pull against time; arrays of shape (n,)."""

    time: Numbers  # [s]
    angle: Numbers  # [rad]
    speed: Numbers  # [rad/s]
    pressure: Numbers  # [Pa]
    cord_force: Numbers  # [N]
    burning: Numbers  # above zero while it burns
    outcome: Outcome
    kept: Numbers


def run_pulls(
    engine: EngineNumbers,
    drawn: DrawnPulls,
    workers: int = 1,
    go_on: Callable[[int], bool] = lambda _: True,
) -> Numbers:
    """Run pulls and give what was kept of each, in their order; the number of workers changes nothing.

    ``go_on`` is told how many are done and may say no: the pulls done so far are given.
    """
    count = drawn.rows.shape[0]
    kept = np.zeros((count, at.KEPT))
    parts = [slice(start, start + AT_A_TIME) for start in range(0, count, AT_A_TIME)]

    def run(part: slice) -> None:
        run_rows(engine, drawn.rows[part], drawn.scatter[part], kept[part])

    with ThreadPoolExecutor(workers) as threads:
        done = 0
        for together in (parts[i : i + workers] for i in range(0, len(parts), workers)):
            list(threads.map(run, together))
            done = min(count, done + AT_A_TIME * len(together))
            if not go_on(done):
                break
    return kept[:done]


def jerked(kept: Numbers) -> NDArray[np.bool_]:
    """Tell which pulls were felt as a jerk: thrown back by fire, or by compression alone."""
    return (kept[:, at.KICKED] > 0) | (kept[:, at.BOUNCED] > 0)


def outcome_of(row: Numbers) -> Outcome:
    """Name what came of a pull."""
    if row[at.KICKED]:
        return Outcome.KICKS_BACK
    if row[at.WENT_SOLID]:
        return Outcome.GOES_SOLID
    if row[at.CAUGHT]:
        return Outcome.CATCHES
    return Outcome.FIRES_AND_DIES if row[at.FIRES] else Outcome.NO_FIRE


def rates_of(kept: Numbers, drawn: DrawnPulls, inertia: float) -> PullRates:
    """Count what came of pulls."""
    count = kept.shape[0]
    outcomes = np.array([outcome_of(row) for row in kept])
    ignitable = drawn.ignitable[:count]
    kicked, caught = outcomes == Outcome.KICKS_BACK, outcomes == Outcome.CATCHES
    kicks = kept[kicked]

    def share(which: NDArray[np.bool_], among: NDArray[np.bool_] | None = None) -> Share:
        inside = np.ones(count, dtype=bool) if among is None else among
        return share_of(int((which & inside).sum()), int(inside.sum()))

    return PullRates(
        pulls=count,
        shares={outcome: share(outcomes == outcome) for outcome in Outcome},
        pops_intake=share(kept[:, at.POPPED] > 0),
        pops_exhaust=share(kept[:, at.BANGED] > 0),
        ignitable=share(ignitable),
        kicks_back_if_ignitable=share(kicked, ignitable),
        catches_if_ignitable=share(caught, ignitable),
        bounces=share((kept[:, at.BOUNCED] > 0) & ~kicked),
        jerks=share(jerked(kept)),
        torn=share(kept[:, at.TORN] > 0, kicked),
        cord_force=_spread(kept[:, at.MOST_FORCE]),
        kick_force=_spread(kicks[:, at.REVERSE_FORCE]),
        impulse=_spread(kicks[:, at.IMPULSE]),
        reverse_energy=_spread(0.5 * inertia * kicks[:, at.REVERSE_SPEED] ** 2),
        reverse_speed=_spread(-kicks[:, at.REVERSE_SPEED]),
        unbooked=float(kept[:, at.RESIDUAL].max(initial=0.0)),
    )


def trace_pull(engine: EngineNumbers, drawn: DrawnPulls, index: int) -> PullTrace:
    """Run one of the drawn pulls again and write it down against time."""
    trace, kept = np.zeros((MOST_STEPS, at.TRACED)), np.zeros(at.KEPT)
    rows = run_carefully(engine, drawn.pull(index), drawn.scatter[index], kept, trace)
    time, angle, speed, pressure, force, burning = trace[:rows].T
    return PullTrace(time, angle, speed, pressure, force, burning, outcome_of(kept), kept)


def _spread(values: Numbers) -> Spread:
    if not values.size:
        return Spread(0.0, 0.0)
    return Spread(float(np.median(values)), float(np.quantile(values, 0.9)))
