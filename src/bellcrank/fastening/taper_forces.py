"""The forces on a self-locking taper: what seats it, what turns it in its seat, what pulls it off."""

import math
import re
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import NotUnderstood
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

FLATTEST, STEEPEST = 0.02, 0.4  # [-] 1:50, the flattest with a printed calculation, to 1:2.5; hubs are 1:5 to 1:20
SHORTEST, LONGEST = 0.5, 2.5  # [-] length over mean diameter; outside, the pressure is far from even
LEAST_FRICTION, MOST_FRICTION = 0.03, 0.5  # [-] greased with a solid film; beyond, the faces tear
ADVICE = "An oily taper is near 0.10, a clean one 0.15, a lapped dry one 0.20."
RATIO = re.compile(r"(\d+(?:[.,]\d+)?)\s*[:/]\s*(\d+(?:[.,]\d+)?)")
PER_FOOT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:in|\"|″)\s*(?:/|per)\s*(?:ft|foot)")


@dataclass(frozen=True, slots=True)
class Taper:
    """A tapered seat by its sizes; refuses what no hub has."""

    ratio: float  # change of diameter over length, 1:8 is 0.125 [-]
    mean_diameter: float  # half way along the contact [m]
    length: float  # of the contact, along the axis [m]

    def __post_init__(self) -> None:
        """Refuse sizes the formulas do not hold for."""
        refuse_outside("Taper (diameter over length)", self.ratio, FLATTEST, STEEPEST, "1:8 is 0.125. Measure again.")
        refuse_unless_positive("Mean diameter of the taper", self.mean_diameter, "mm", "length")
        refuse_unless_positive("Length of the taper", self.length, "mm", "length")
        share = self.length / self.mean_diameter
        refuse_outside("Length over diameter of the taper", share, SHORTEST, LONGEST, "Measure the contact again.")

    @property
    def tangent(self) -> float:
        """Tangent of the angle between axis and flank. [-]"""
        return self.ratio / 2

    @property
    def cosine(self) -> float:
        """Cosine of the angle between axis and flank. [-]"""
        return 1 / math.hypot(1, self.tangent)

    @property
    def sine(self) -> float:
        """Sine of the angle between axis and flank. [-]"""
        return self.tangent * self.cosine

    @property
    def contact_area(self) -> float:
        """Area of the flank in contact. [m²]"""
        return math.pi * self.mean_diameter * self.length / self.cosine


def measured_taper(large_diameter: float, small_diameter: float, length: float) -> Taper:
    """Give the taper of two diameters measured a length apart along the axis. [m]"""
    refuse_unless_positive("Length of the taper", length, "mm", "length")
    refuse_unless_positive("Difference of the two diameters", large_diameter - small_diameter, "mm", "length")
    return Taper((large_diameter - small_diameter) / length, (large_diameter + small_diameter) / 2, length)


def parse_taper(text: str) -> float:
    """Change of diameter over length of a taper written as “1:8” or “1.5 in/ft”.

    Parameters
    ----------
    text : str
        The taper as typed. [-]

    Returns
    -------
    float
        Change of diameter over length. [-]

    Raises
    ------
    NotUnderstood
        When the text is neither.

    References
    ----------
    ISO 1119, definition of the rate of taper, C = (D − d)/L.

    Examples
    --------
    >>> parse_taper("1:8"), parse_taper("1.5 in/ft")
    (0.125, 0.125)
    """
    plain = text.strip().casefold()
    ratio, per_foot = RATIO.fullmatch(plain), PER_FOOT.fullmatch(plain)
    if ratio and _number(ratio[2]) > 0:
        return _number(ratio[1]) / _number(ratio[2])
    if per_foot:
        return _number(per_foot[1]) / 12
    raise NotUnderstood(
        f"“{text.strip()}” is not a taper we can read. Write it like 1:8 (diameter over length) or 1.5 in/ft; if you "
        "do not know it, measure two diameters and how far they are apart."
    )


def half_angle(ratio: float) -> float:
    """Angle between the axis and the flank of a taper.

    Parameters
    ----------
    ratio : float
        Change of diameter over length. [-]

    Returns
    -------
    float
        Half angle α, tan α = C/2. [rad]

    References
    ----------
    ISO 1119, tapers: C = 2 tan α.

    Examples
    --------
    >>> round(math.degrees(half_angle(0.125)), 3)
    3.576
    """
    refuse_outside("Taper (diameter over length)", ratio, FLATTEST, STEEPEST, "1:8 is 0.125. Measure it again.")
    return math.atan(ratio / 2)


def seating_normal_force(axial_force: Quantity, taper: Taper, friction: Quantity) -> Quantity:
    """Force square to the flank while a nut seats the taper against friction.

    Parameters
    ----------
    axial_force : float or array, shape (n,)
        Pull of the nut. [N]
    taper : Taper
        The seat by its sizes. [-]
    friction : float or array, shape (n,)
        Coefficient of friction along the flank; zero gives the settled taper, which friction holds no more. [-]

    Returns
    -------
    float or array, shape (n,)
        Normal force N = F/(sin α + µ cos α). [N]

    Raises
    ------
    OutOfRange
        When the pull is negative or missing, or the friction outside 0 to 0.5.

    References
    ----------
    Wedge statics with even pressure, as in Niemann/Winter/Höhn, Maschinenelemente 1, cone press connection.

    Examples
    --------
    >>> round(seating_normal_force(25e3, Taper(0.125, 0.022, 0.025), 0.15), -1)
    117880.0
    """
    refuse_if_negative("Pull of the nut", axial_force, "N", "force")
    refuse_outside("Friction on the taper", friction, 0.0, MOST_FRICTION, ADVICE)
    return axial_force / (taper.sine + friction * taper.cosine)


def slip_torque(normal_force: Quantity, taper: Taper, friction: Quantity) -> Quantity:
    """Torque at which the hub turns on its taper.

    Parameters
    ----------
    normal_force : float or array, shape (n,)
        Force square to the flank. [N]
    taper : Taper
        The seat by its sizes. [-]
    friction : float or array, shape (n,)
        Coefficient of friction round the shaft. [-]

    Returns
    -------
    float or array, shape (n,)
        Torque µ N Dm/2. [N·m]

    Raises
    ------
    OutOfRange
        When the force is negative or missing, or the friction outside 0.03 to 0.5.

    References
    ----------
    Niemann/Winter/Höhn, Maschinenelemente 1, cone press connection.

    Examples
    --------
    >>> round(slip_torque(100e3, Taper(0.125, 0.022, 0.025), 0.15), 1)
    165.0
    """
    refuse_if_negative("Force on the flank", normal_force, "N", "force")
    refuse_outside("Friction on the taper", friction, LEAST_FRICTION, MOST_FRICTION, ADVICE)
    return friction * normal_force * (taper.mean_diameter / 2)


def normal_force_for_torque(torque: Quantity, taper: Taper, friction: Quantity, *, margin: float = 1.0) -> Quantity:
    """Force square to the flank that holds a torque, slip kept off by a margin.

    Parameters
    ----------
    torque : float or array, shape (n,)
        Torque to be held. [N·m]
    taper : Taper
        The seat by its sizes. [-]
    friction : float or array, shape (n,)
        Coefficient of friction round the shaft. [-]
    margin : float
        How many times the torque must be held. [-]

    Returns
    -------
    float or array, shape (n,)
        Normal force N = S T/(µ Dm/2). [N]

    Raises
    ------
    OutOfRange
        When torque or margin cannot be, or the friction is outside 0.03 to 0.5.

    References
    ----------
    Niemann/Winter/Höhn, Maschinenelemente 1, cone press connection.

    Examples
    --------
    >>> round(normal_force_for_torque(165.0, Taper(0.125, 0.022, 0.025), 0.15), -2)
    100000.0
    """
    refuse_if_negative("Torque", torque, "N·m", "torque")
    refuse_outside("Margin against slip", margin, 0.1, 20, "1 is no margin; 1.5 is usual.")
    refuse_outside("Friction on the taper", friction, LEAST_FRICTION, MOST_FRICTION, ADVICE)
    return margin * torque / (friction * (taper.mean_diameter / 2))


def nut_force(torque: Quantity, diameter: float, factor: float) -> Quantity:
    """Pull of a nut by the short form F = T/(K d).

    Parameters
    ----------
    torque : float or array, shape (n,)
        Torque on the nut. [N·m]
    diameter : float
        Nominal thread diameter. [m]
    factor : float
        Nut factor K: 0.20 dry, 0.15 oiled in the trade charts. [-]

    Returns
    -------
    float or array, shape (n,)
        Pull. [N]

    Raises
    ------
    OutOfRange
        When the torque is negative, the diameter not above zero, or K outside 0.05 to 0.6.

    References
    ----------
    SAE clamp-load charts (K = 0.15, 0.18, 0.20).

    Examples
    --------
    >>> round(nut_force(12.0, 0.006, 0.2))
    10000
    """
    refuse_if_negative("Torque on the nut", torque, "N·m", "torque")
    refuse_unless_positive("Thread diameter", diameter, "mm", "length")
    refuse_outside("Nut factor", factor, 0.05, 0.6, "Dry steel is near 0.20, oiled 0.15.")
    return torque / (factor * diameter)


def _number(typed: str) -> float:
    return float(typed.replace(",", "."))
