"""Piston and cylinder of a crank drive: where the piston stands, and what volume is left over it."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LEAST_COMPRESSION, MOST_COMPRESSION = 4.0, 13.0  # [-] spark engines of the trade lie well inside
SHORTEST_ROD = 1.2  # [-] over the crank's radius; at 1 the crank could not turn


@dataclass(frozen=True, slots=True)
class CrankDrive:
    """Bore, stroke, rod and compression of one cylinder. Lengths in m.

    Angles are the crank's, 0 at firing top dead centre, forward positive, 720° = 4π a cycle. [rad]
    """

    bore: float
    stroke: float
    rod: float
    compression: float  # volume at the bottom over volume at the top [-]

    def __post_init__(self) -> None:
        """Refuse sizes that cannot be."""
        refuse_unless_positive("Bore", self.bore, "mm", "length")
        refuse_unless_positive("Stroke", self.stroke, "mm", "length")
        refuse_unless_positive("Length of the rod", self.rod, "mm", "length")
        longest = 100.0
        refuse_outside("Rod over crank radius", self.rod / self.radius, SHORTEST_ROD, longest, "Measure both again.")
        refuse_outside(
            "Compression ratio", self.compression, LEAST_COMPRESSION, MOST_COMPRESSION, "Look at the engine's data."
        )

    @property
    def radius(self) -> float:
        """Of the crank: half the stroke. [m]"""
        return self.stroke / 2

    @property
    def piston_area(self) -> float:
        """Area of the bore. [m²]"""
        return float(np.pi / 4 * self.bore**2)

    @property
    def swept_volume(self) -> float:
        """Displacement. [m³]"""
        return self.piston_area * self.stroke

    @property
    def clearance_volume(self) -> float:
        """Volume at top dead centre. [m³]"""
        return self.swept_volume / (self.compression - 1)

    def volume(self, angle: Quantity) -> Quantity:
        """Volume over the piston at a crank angle [rad]. [m³]"""
        return self.clearance_volume + self.piston_area * piston_travel(angle, self.radius, self.rod)


def piston_travel(angle: Quantity, radius: float, rod: float) -> Quantity:
    """Way of the piston from top dead centre.

    Parameters
    ----------
    angle : float or array, shape (n,)
        Crank angle from top dead centre. [rad]
    radius : float
        Crank radius: half the stroke. [m]
    rod : float
        Length of the rod between its eyes. [m]

    Returns
    -------
    float or array, shape (n,)
        a + l − a cos θ − √(l² − a² sin² θ). [m]

    Raises
    ------
    OutOfRange
        When a length is not above zero, or the rod shorter than the crank radius.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, section 2.2 (from memory); any book on machines.

    Examples
    --------
    >>> import math
    >>> round(float(piston_travel(math.pi, 0.0285, 0.1)), 6)
    0.057
    """
    _refuse_wrong_drive(radius, rod)
    reach = (rod**2 - (radius * np.sin(angle)) ** 2) ** 0.5
    travel: Quantity = radius + rod - radius * np.cos(angle) - reach
    return travel


def piston_travel_rate(angle: Quantity, radius: float, rod: float) -> Quantity:
    """Way of the piston per crank angle.

    Parameters
    ----------
    angle : float or array, shape (n,)
        Crank angle from top dead centre. [rad]
    radius : float
        Crank radius: half the stroke. [m]
    rod : float
        Length of the rod between its eyes. [m]

    Returns
    -------
    float or array, shape (n,)
        a sin θ (1 + a cos θ/√(l² − a² sin² θ)). [m/rad]

    Raises
    ------
    OutOfRange
        When a length is not above zero, or the rod shorter than the crank radius.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, section 2.2 (from memory); any book on machines.

    Examples
    --------
    >>> import math
    >>> round(float(piston_travel_rate(math.pi / 2, 0.0285, 0.1)), 6)
    0.0285
    """
    _refuse_wrong_drive(radius, rod)
    reach = (rod**2 - (radius * np.sin(angle)) ** 2) ** 0.5
    rate: Quantity = radius * np.sin(angle) * (1 + radius * np.cos(angle) / reach)
    return rate


def _refuse_wrong_drive(radius: float, rod: float) -> None:
    refuse_unless_positive("Crank radius", radius, "mm", "length")
    refuse_outside("Rod over crank radius", rod / radius, 1.0, 1e6, "Measure both again.")
