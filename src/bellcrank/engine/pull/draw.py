"""Random pulls: by whom, from where, on what charge. Drawn before anything runs, so that workers change nothing."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.card import OperatorCard, Ranged
from bellcrank.engine.pull.places import CYCLE, SPARKS_DRAWN, PullNumbers
from bellcrank.engine.pull.watch import LEANEST, RICHEST

Numbers = NDArray[np.float64]

NINE_IN_TEN = 2 * 1.645  # standard deviations from a card's low to its high
HOLDS_ON = 0.75  # [-] nobody pulls with more of the force that tears the handle away
LEAST_TORN = 250.0  # [N]
MIXTURE, MIXTURE_SPREAD = 1.0, 0.45  # [-] from pull to pull: about 73 in 100 light. Nobody has measured it (assumption)
SPARK_MIXTURE_SPREAD = 0.10  # [-] from spark to spark (assumption)
SPARK_ANGLE_SPREAD = math.radians(1.5)  # (assumption)
MOST_FRESH = 0.9  # [-] left in the cylinder from before (assumption)
FRICTION_SPREAD, LEAST_FRICTION, MOST_FRICTION = 0.2, 0.4, 1.8  # [-] (assumption)


@dataclass(frozen=True, slots=True)
class DrawnPulls:
    """Pulls as drawn: a row of :class:`PullNumbers` each, and the scatter of their sparks."""

    rows: Numbers  # (n, 9)
    scatter: Numbers  # (n, sparks, 2): angle [rad], mixture [-]

    @property
    def ignitable(self) -> NDArray[np.bool_]:
        """Which of them have a mixture that lights."""
        mixture = self.rows[:, PullNumbers._fields.index("mixture")]
        return (mixture > LEANEST) & (mixture < RICHEST)

    def pull(self, index: int) -> PullNumbers:
        """Give one of them."""
        return PullNumbers(*map(float, self.rows[index]))


def draw_pulls(operator: OperatorCard, count: int, rng: np.random.Generator) -> DrawnPulls:
    """Draw so many pulls of somebody, cold, on an engine that has stood."""
    force = _drawn(operator.force, count, rng)
    torn = np.maximum(LEAST_TORN, force * _drawn(operator.grip, count, rng))
    columns = {
        "start": rng.uniform(0, CYCLE, count),
        "force": np.minimum(force, HOLDS_ON * torn),
        "quickest": _drawn(operator.quickest, count, rng),
        "stroke": _drawn(operator.stroke, count, rng),
        "hand": _drawn(operator.hand, count, rng),
        "torn_at": torn,
        "mixture": rng.normal(MIXTURE, MIXTURE_SPREAD, count),
        "fresh": rng.uniform(0, MOST_FRESH, count),
        "friction": np.clip(rng.normal(1, FRICTION_SPREAD, count), LEAST_FRICTION, MOST_FRICTION),
    }
    scatter = np.stack(
        [
            rng.normal(0, SPARK_ANGLE_SPREAD, (count, SPARKS_DRAWN)),
            rng.normal(0, SPARK_MIXTURE_SPREAD, (count, SPARKS_DRAWN)),
        ],
        axis=2,
    )
    return DrawnPulls(np.stack([columns[name] for name in PullNumbers._fields], axis=1), scatter)


def _drawn(ranged: Ranged, count: int, rng: np.random.Generator) -> Numbers:
    """Draw log-normally about the middle value; nine of ten lie from low to high."""
    spread = math.log(ranged.high / ranged.low) / NINE_IN_TEN
    drawn: Numbers = ranged.value * np.exp(spread * rng.standard_normal(count))
    return drawn
