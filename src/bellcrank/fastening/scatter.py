"""How far a preload may be off: by the way of tightening, or by the spread of the shop's own test pulls."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bellcrank.errors import OutOfRange
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive
from bellcrank.stats.tolerance import tolerance_factor

FEWEST_PULLS = 5  # [-] below it the 90/95 factor runs away: 5.4 for four, 31 for two (NASA-STD-5020B, Table 5)
RELAXATION = 0.05  # [-] of the highest preload, lost as the faces bed in; NSTS 08307 Rev A (1998), section 3.6
MOST_SCATTER = 0.9  # [-] beyond it the low end says nothing


@dataclass(frozen=True, slots=True)
class PreloadInterval:
    """What a joint may be clamped with. [N]"""

    low: float
    nominal: float
    high: float


@dataclass(frozen=True, slots=True)
class Pulls:
    """What a series of preloads measured at one torque says."""

    count: int
    mean: float  # [N]
    deviation: float  # standard deviation of the sample [N]
    nut_factor: float  # K of T = K d F at the mean [-]
    scatter: float  # 90 % of the preloads with 95 % confidence, as a share of the mean [-]
    most_above: float  # the highest pull, as a share above the mean [-]
    most_below: float  # the lowest pull, as a share below the mean [-]


def spread_of_pulls(torque: float, preloads: Sequence[float], diameter: float) -> Pulls:
    """Give nut factor and scatter of preloads [N] measured at one torque [N·m] on one thread diameter [m].

    References
    ----------
    NASA-STD-5020B (2021), Appendix A.2: K = T/(d F̄), Γ = k(n) s/F̄, Γmax = F_max/F̄ − 1, Γmin = 1 − F_min/F̄.
    """
    refuse_unless_positive("Torque", torque, "N·m", "torque")
    refuse_unless_positive("Thread diameter", diameter, "mm", "length")
    if len(preloads) < FEWEST_PULLS:
        raise OutOfRange(
            f"There are {len(preloads)} test pulls; it must be {FEWEST_PULLS} or more to say how far they scatter. "
            "Pull again."
        )
    refuse_unless_positive("Preload", preloads, "N", "force")
    pulls = np.asarray(preloads, dtype=float)
    mean, deviation = float(pulls.mean()), float(pulls.std(ddof=1))
    return Pulls(
        count=len(pulls),
        mean=mean,
        deviation=deviation,
        nut_factor=torque / (diameter * mean),
        scatter=tolerance_factor(len(pulls)) * deviation / mean,
        most_above=float(pulls.max()) / mean - 1,
        most_below=1 - float(pulls.min()) / mean,
    )


def preload_interval(
    torque: float,
    diameter: float,
    factor: float,
    *,
    scatter: float,
    prevailing_torque: float = 0.0,
    relaxation: float = RELAXATION,
    bolts: int = 1,
) -> PreloadInterval:
    """Give the least, usual and highest preload [N] of a torque [N·m] on a thread diameter [m] at nut factor K.

    The scatter is that of the way of tightening and lubrication (packs/common/tightening.csv) or of
    :func:`spread_of_pulls`; bolts that share one slip plane scatter less together. A locking nut's drag is taken off
    the low and usual preload only: it may be worn out.

    References
    ----------
    NSTS 08307 Rev A (1998), sections 3.4 to 3.6; NASA-STD-5020B (2021), equations 26 to 30.
    """
    refuse_if_negative("Torque", torque, "N·m", "torque")
    refuse_if_negative("Prevailing torque", prevailing_torque, "N·m", "torque")
    refuse_if_negative("Torque left after the locking nut's own drag", torque - prevailing_torque, "N·m", "torque")
    refuse_unless_positive("Thread diameter", diameter, "mm", "length")
    refuse_outside("Nut factor", factor, 0.05, 0.6, "Dry steel is near 0.20, oiled 0.15.")
    refuse_outside("Scatter", scatter, 0.0, MOST_SCATTER, "A torque wrench scatters 0.25, a hand 0.35.")
    refuse_outside("Relaxation", relaxation, 0.0, 0.1, "0.05 is usual, 0.02 to 0.10 is seen.")
    refuse_outside("Number of bolts", bolts, 1, 100, "Count the bolts that hold the one face.")
    share = scatter / math.sqrt(bolts)
    nominal = (torque - prevailing_torque) / (factor * diameter)
    high = torque / (factor * diameter) * (1 + share)
    low = nominal * (1 - share) - relaxation * high
    if low < 0:
        raise OutOfRange(
            "With that drag and scatter the joint may not clamp at all; the torque must be well above the nut's drag. "
            "Tighten more, or fit another nut."
        )
    return PreloadInterval(low, nominal, high)
