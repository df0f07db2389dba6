"""How often an engine kicks, starts and pops by where its flywheel sits: counts of computed pulls, kept with its card.

The counts are made by :mod:`bellcrank.engine.pull.build`; reading and using them needs none of the simulation.
"""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.card import OPERATOR_QUANTITIES, QUANTITIES, EngineCard, OperatorCard, Ranged

Numbers = NDArray[np.float64]
Counts = NDArray[np.uint16]

NO_FIRE, FIRES_AND_DIES, CATCHES, KICKS_BACK, GOES_SOLID, POPS_INTAKE, POPS_EXHAUST, JERKS = range(8)
COUNTED = ("no_fire", "fires_and_dies", "catches", "kicks_back", "goes_solid", "pops_intake", "pops_exhaust", "jerks")
HALF_A_PULL = 0.5  # [-] added to what all engines together counted, so that what never happened is not impossible
THREE_IN_FOUR, MOST = 0.25, 0.5  # [-] quantile from below; share of the pulls that fire
PULLED_BY = "usual"  # the operator card of the tables
SHARED = 1.0  # pulls of an engine's chance that come from all engines together


class State(StrEnum):
    """What else is wrong, or nothing, and what times the spark."""

    SOUND = "sound"
    BLADE_LOOSE = "blade loose"
    RELEASE_DEAD = "release dead"
    BOTH = "blade loose and release dead"
    POINTS = "points"


STATES = tuple(State)


@dataclass(frozen=True, slots=True)
class SlipTable:
    """Counts for one card."""

    card: str
    slips: Numbers  # (s,), rising, from half a turn early to half a turn late [rad]
    counts: Counts  # (engines of the card's range, state, slip, counted)
    pulls: int  # of each engine, state and slip
    map_slips: Numbers  # (m,) [rad]
    map_counts: Counts  # (m, counted), for the card's middle values
    map_pulls: int
    fingerprint: str  # of the cards the counts were made from

    def chances(self, state: State) -> Numbers:
        """Give the chance of each counted thing per pull, (engines, slip, counted); never quite zero or one."""
        counted = self.counts[:, STATES.index(state)].astype(np.float64)
        together = (counted.sum(axis=0) + HALF_A_PULL) / (counted.shape[0] * self.pulls + 2 * HALF_A_PULL)
        return np.asarray((counted + SHARED * together) / (self.pulls + SHARED))

    def band(self, counted: int, state: State = State.SOUND) -> tuple[Numbers, Numbers, Numbers]:
        """Give the twentieth lowest, the middle and the twentieth highest share over the engines, each (slip,)."""
        shares = self.counts[:, STATES.index(state), :, counted] / self.pulls
        low, middle, high = np.quantile(shares, (0.05, 0.5, 0.95), axis=0)
        return low, middle, high


def most_engines_kick(table: SlipTable, slip: float) -> bool:
    """Whether three engines in four of a card's range kick on at least half of the pulls that fire, at a slip [rad]."""
    here = int(np.argmin(np.abs(table.slips - slip)))
    counts = table.counts[:, STATES.index(State.SOUND), here].astype(np.float64)
    of_fires = counts[:, KICKS_BACK] / np.maximum(table.pulls - counts[:, NO_FIRE], 1.0)
    return bool(np.quantile(of_fires, THREE_IN_FOUR) >= MOST)


def fingerprint(card: EngineCard, operator: OperatorCard) -> str:
    """Give a mark of the cards a table rests on, so that a card that was changed since is found out."""
    told = [(name, getattr(card, name)) for name in QUANTITIES]
    told += [(name, getattr(operator, name)) for name in OPERATOR_QUANTITIES]
    return mark_of(told)


def mark_of(told: Iterable[tuple[str, Ranged]]) -> str:
    """Give a mark of some ranged values."""
    text = ";".join(f"{name} {one.low:.9g} {one.value:.9g} {one.high:.9g}" for name, one in told)
    return hashlib.sha256(text.encode()).hexdigest()[:16]
