"""How good forecasts were: Brier and log score, what was said against what came, and a test for honest chances.

References
----------
A. H. Murphy, A new vector partition of the probability score, J. Appl. Meteor. 12 (1973) 595 (from memory);
D. J. Spiegelhalter, Probabilistic prediction in patient management and clinical trials, Stat. Med. 5 (1986) 421 (from
memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

TENTHS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)  # [-] edges of the usual bins
LEAST = 1e-3  # [-] a forecast below counts as this much: one job told wrong must not outweigh all others
FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Bin:
    """Forecasts of about the same size, and how many of them came true."""

    count: int
    said: float  # mean of the forecasts [-]
    came: int  # how many came true

    @property
    def share(self) -> float:
        """The part that came true. [-]"""
        return self.came / self.count


@dataclass(frozen=True, slots=True)
class Murphy:
    """The Brier score taken apart: reliability - resolution + uncertainty; exact when forecasts in a bin are equal."""

    reliability: float
    resolution: float
    uncertainty: float


def brier(said: Sequence[float], came: Sequence[bool]) -> float:
    """Mean of (forecast - outcome)^2; 0 is perfect, always saying one half gives 0.25.

    >>> brier((0.8, 0.4), (True, False))
    0.1
    """
    forecasts, outcomes = _arrays(said, came)
    return float(np.mean((forecasts - outcomes) ** 2))


def log_score(said: Sequence[float], came: Sequence[bool]) -> float:
    """Mean of -ln(chance given to what came) [nats]; smaller is better, always saying one half gives 0.693."""
    forecasts, outcomes = _arrays(said, came)
    given = np.where(outcomes > 0, forecasts, 1 - forecasts)
    return float(np.mean(-np.log(np.maximum(given, LEAST))))


def surprise(chance: float) -> float:
    """-ln of the chance given to what came. [nats]

    >>> round(surprise(0.5), 4)
    0.6931
    """
    return -math.log(max(chance, LEAST))


def binned(said: Sequence[float], came: Sequence[bool], edges: Sequence[float] = TENTHS) -> tuple[Bin, ...]:
    """Sort forecasts by size and count which came true; empty bins are left out."""
    forecasts, outcomes = _arrays(said, came)
    places = np.digitize(forecasts, np.array(edges)[1:-1])
    chosen = [places == place for place in range(len(edges) - 1)]
    return tuple(
        Bin(int(one.sum()), float(forecasts[one].mean()), round(outcomes[one].sum())) for one in chosen if one.any()
    )


def murphy(said: Sequence[float], came: Sequence[bool], edges: Sequence[float] = TENTHS) -> Murphy:
    """Take the Brier score apart by the bins."""
    bins = binned(said, came, edges)
    total = sum(one.count for one in bins)
    base = sum(one.came for one in bins) / total
    return Murphy(
        reliability=sum(one.count * (one.said - one.share) ** 2 for one in bins) / total,
        resolution=sum(one.count * (one.share - base) ** 2 for one in bins) / total,
        uncertainty=base * (1 - base),
    )


def spiegelhalter_z(said: Sequence[float], came: Sequence[bool]) -> float:
    """How far the Brier score is from what honest chances give, in standard deviations; beyond 2 either way is odd.

    Sum of (outcome - forecast)(1 - 2 forecast) over the root of the sum of (1 - 2 forecast)^2 forecast (1 - forecast);
    zero when no forecast can tell.
    """
    forecasts, outcomes = _arrays(said, came)
    lean = 1 - 2 * forecasts
    spread = math.sqrt(float(np.sum(lean**2 * forecasts * (1 - forecasts))))
    return float(np.sum((outcomes - forecasts) * lean)) / spread if spread else 0.0


def _arrays(said: Sequence[float], came: Sequence[bool]) -> tuple[FloatArray, FloatArray]:
    return np.array(said, dtype=float), np.array(came, dtype=float)
