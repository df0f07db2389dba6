"""Screws in plastic: the boss to drive into, and a torque between driving and stripping."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.sources import Basis

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LEAST_SHARE, MOST_SHARE = 0.3, 0.5  # [-] of the way from seating to stripping; GB/T 43655-2024
WANTED_RATIO = 3.0  # [-] strip over driving torque, from memory: less, and a slip of the hand strips the boss


@dataclass(frozen=True, slots=True)
class BossRule:
    """Boss for a thread-forming screw, as multiples of the screw's diameter."""

    key: str  # "pa66-gf30"
    words: str  # "PA66, 30 % glass"
    hole_share: float  # [-]
    outside_share: float  # [-]
    engagement_share: float  # [-]
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class PlasticScrew:
    """Pull a 30° screw for plastics takes before it breaks itself."""

    size: str  # "K40"
    tensile_load: float  # [N]
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class Boss:
    """A boss to drive a screw into. All in [m]."""

    hole: float
    outside: float
    engagement: float


def plastic_boss(rule: BossRule, diameter: float) -> Boss:
    """Give hole, outside and engagement for a screw of that diameter [m]."""
    refuse_unless_positive("Screw diameter", diameter, "mm", "length")
    return Boss(rule.hole_share * diameter, rule.outside_share * diameter, rule.engagement_share * diameter)


def plastic_target(seating_torque: Quantity, strip_torque: Quantity, share: float = LEAST_SHARE) -> Quantity:
    """Torque for a screw in plastic, from two torques measured on a scrap piece.

    Parameters
    ----------
    seating_torque : float or array, shape (n,)
        Torque while driving, just before the head seats. [N·m]
    strip_torque : float or array, shape (n,)
        Torque at which the boss strips. [N·m]
    share : float
        Part of the way up, 0.3 to 0.5; plastic creeps, so the least that holds is best. [-]

    Returns
    -------
    float or array, shape (n,)
        Torque to tighten with. [N·m]

    Raises
    ------
    OutOfRange
        When a torque is not above zero, the strip torque not above the seating torque, or the share outside 0.3
        to 0.5.

    Notes
    -----
    M_s + k (M_o − M_s).

    References
    ----------
    GB/T 43655-2024, target torque, as quoted on a trade page.

    Examples
    --------
    >>> round(plastic_target(0.5, 2.0, 0.4), 2)
    1.1
    """
    refuse_unless_positive("Seating torque", seating_torque, "N·m", "torque")
    refuse_unless_positive("Strip torque", strip_torque, "N·m", "torque")
    refuse_unless_positive("Strip torque over the seating torque", strip_torque - seating_torque, "N·m", "torque")
    refuse_outside("Part of the way", share, LEAST_SHARE, MOST_SHARE, "Take 0.3 unless the joint works loose.")
    return seating_torque + share * (strip_torque - seating_torque)


def wide_enough(seating_torque: float, strip_torque: float) -> bool:
    """Say whether stripping is far enough above driving for a hand tool."""
    refuse_unless_positive("Seating torque", seating_torque, "N·m", "torque")
    refuse_unless_positive("Strip torque", strip_torque, "N·m", "torque")
    return strip_torque >= WANTED_RATIO * seating_torque
