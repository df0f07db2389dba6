"""What a gauge in the plug hole reads while an engine is cranked, with its release working, dead or stuck."""

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

import numpy as np

from bellcrank.engine.air import SEA_LEVEL_PRESSURE
from bellcrank.engine.card import EngineCard, Ranged
from bellcrank.engine.compression import HIGH_EXPONENT, LOW_EXPONENT
from bellcrank.engine.cranking import Cranked, cranking_reading
from bellcrank.engine.flow import curtain_area
from bellcrank.engine.piston import CrankDrive

ENGINES = 24  # [-] of a card, spread evenly over its ranges
SLOW, QUICK = 350 * 2 * math.pi / 60, 700 * 2 * math.pi / 60  # [rad/s] cranking by cord (from memory)
HOSE = 2e-6  # [m³] between plug hole and valve of the gauge (assumption)
STUCK_LIFT = 0.2e-3  # [m] of a release that stays on, at the least (assumption)
QUANTITIES = 7  # [-] that are varied


class Release(StrEnum):
    """What the compression release does."""

    WORKS = "works"
    DEAD = "dead"
    STAYS = "stays"


@dataclass(frozen=True, slots=True)
class GaugeReadings:
    """Readings of many engines of a card, as a log-normal distribution."""

    median: float  # over the air around [Pa]
    spread: float  # standard deviation of the logarithm [-]

    def density(self, reading: float) -> float:
        """How often such an engine reads this, per unit of the logarithm. [-]"""
        away = (math.log(max(reading, 1.0)) - math.log(self.median)) / self.spread
        return math.exp(-0.5 * away * away) / self.spread

    def nine_in_ten(self) -> tuple[float, float]:
        """Range of nine readings in ten. [Pa]"""
        reach = math.exp(1.645 * self.spread)
        return self.median / reach, self.median * reach


@lru_cache(maxsize=64)
def gauge_readings(card: EngineCard, release: Release) -> GaugeReadings:
    """Crank engines spread over a card's ranges and say what the gauge reads, at standard pressure.

    The lattice is that of the generalised golden ratio: even, and the same every time.

    References
    ----------
    :func:`bellcrank.engine.cranking.cranking_reading`; M. Roberts, The unreasonable effectiveness of quasirandom
    sequences, 2018 (from memory), for the lattice.
    """
    logs = [math.log(max(_reading(card, release, shares), 1.0)) for shares in _lattice()]
    return GaugeReadings(math.exp(float(np.mean(logs))), float(np.std(logs, ddof=1)))


def _lattice() -> list[list[float]]:
    golden = 2.0
    for _ in range(40):
        golden = (1 + golden) ** (1 / (QUANTITIES + 1))
    steps = [golden ** -(place + 1) for place in range(QUANTITIES)]
    return [[(0.5 + number * step) % 1 for step in steps] for number in range(1, ENGINES + 1)]


def _within(ranged: Ranged, share: float) -> float:
    """Give a value of a range: its middle value for one half, straight to low and high."""
    if share < 0.5:
        return ranged.low + (ranged.value - ranged.low) * 2 * share
    return ranged.value + (ranged.high - ranged.value) * (2 * share - 1)


def _reading(card: EngineCard, release: Release, shares: list[float]) -> float:
    lift = _within(card.release_lift, shares[2])
    if release is Release.STAYS:
        lift = max(lift, STUCK_LIFT)
    cranked = Cranked(
        CrankDrive(card.bore.value, card.stroke.value, card.rod.value, _within(card.compression, shares[0])),
        _within(card.intake_closes, shares[1]) - math.pi,
        SLOW + shares[4] * (QUICK - SLOW),
        leak=_within(card.leak, shares[5]),
        release=0.0 if release is Release.DEAD else float(curtain_area(card.exhaust_valve.value, lift)),
        release_until=0.0 if release is Release.STAYS else -_within(card.release_closes, shares[3]),
        hose=HOSE,
    )
    exponent = LOW_EXPONENT + shares[6] * (HIGH_EXPONENT - LOW_EXPONENT)
    return cranking_reading(cranked, SEA_LEVEL_PRESSURE, exponent)
