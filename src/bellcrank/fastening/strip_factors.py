"""What a thread loses before it shears: the boss spreads, and the teeth bend (Alexander; VDI 2230; ISO/TR 16224)."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LEAST_WIDTH, FULL_WIDTH = 1.4, 1.9  # [-] over the thread diameter: below it no fit, from there on the boss is stiff
LEAST_RATIO, MOST_RATIO = 0.4, 2.2  # [-] strength ratio the fits were made for
BOTH_BEND = 0.897  # [-] where the stronger thread does not help any more


def strength_ratio(*, hole_shear: Quantity, hole_area: Quantity, bolt_shear: Quantity, bolt_area: Quantity) -> Quantity:
    """Strength of the hole's thread over that of the bolt's.

    Parameters
    ----------
    hole_shear : float or array, shape (n,)
        Shear strength of the tapped part. [Pa]
    hole_area : float or array, shape (n,)
        Shear area of the internal thread. [m²]
    bolt_shear : float or array, shape (n,)
        Shear strength of the bolt. [Pa]
    bolt_area : float or array, shape (n,)
        Shear area of the external thread. [m²]

    Returns
    -------
    float or array, shape (n,)
        Strength ratio RS; below one the hole gives way first. [-]

    Raises
    ------
    OutOfRange
        When any of them is not above zero.

    References
    ----------
    ISO/TR 16224:2012, strength ratio, as carried by screw_thread_lib 0.0.6.

    Examples
    --------
    >>> round(strength_ratio(hole_shear=190e6, hole_area=1.4e-4, bolt_shear=400e6, bolt_area=1.0e-4), 3)
    0.665
    """
    refuse_unless_positive("Shear strength of the tapped part", hole_shear, "MPa", "pressure")
    refuse_unless_positive("Shear strength of the bolt", bolt_shear, "MPa", "pressure")
    refuse_unless_positive("Shear area of the hole", hole_area, "mm²", "area")
    refuse_unless_positive("Shear area of the bolt", bolt_area, "mm²", "area")
    return hole_shear * hole_area / (bolt_shear * bolt_area)


def spreading_factor(width: Quantity, diameter: float) -> Quantity:
    """Share of a thread's strength left when nut or boss spreads under load.

    Parameters
    ----------
    width : float or array, shape (n,)
        Width across flats of the nut, or twice the distance from the hole's middle to the nearest edge. [m]
    diameter : float
        Nominal thread diameter. [m]

    Returns
    -------
    float or array, shape (n,)
        Factor C1, one from 1.9 diameters on. [-]

    Raises
    ------
    OutOfRange
        When the diameter is not above zero or the width below 1.4 diameters.

    Notes
    -----
    −(s/D)² + 3.8 (s/D) − 2.6, which passes one by a hundredth before 1.9: one is the most.

    References
    ----------
    E. M. Alexander's factor as in ISO/TR 16224:2012 and VDI 2230, carried by screw_thread_lib 0.0.6.

    Examples
    --------
    >>> round(spreading_factor(0.009, 0.006), 3)
    0.85
    """
    refuse_unless_positive("Thread diameter", diameter, "mm", "length")
    across = width / diameter
    advice = "So little metal splits; move the hole or fit a smaller screw."
    refuse_outside("Width of the boss over the thread diameter", across, LEAST_WIDTH, 1e6, advice)
    thin = across < FULL_WIDTH
    fitted = -(across**2) + 3.8 * across - 2.6
    fitted = fitted * (fitted < 1) + (fitted >= 1)
    return thin * fitted + (1 - thin)


def bolt_bending_factor(ratio: Quantity) -> Quantity:
    """Share of its strength left to the bolt's thread as the teeth bend.

    Parameters
    ----------
    ratio : float or array, shape (n,)
        Strength ratio RS of hole over bolt. [-]

    Returns
    -------
    float or array, shape (n,)
        Factor C2. [-]

    Raises
    ------
    OutOfRange
        When the ratio is outside 0 to 2.2.

    Notes
    -----
    0.897 for RS ≤ 1, else 5.594 − 13.682 RS + 14.107 RS² − 6.057 RS³ + 0.9353 RS⁴.

    References
    ----------
    E. M. Alexander's factor as in ISO/TR 16224:2012 and VDI 2230, carried by screw_thread_lib 0.0.6.

    Examples
    --------
    >>> bolt_bending_factor(0.8)
    0.897
    """
    advice = "The hole is so much stronger than the bolt that no test covers it."
    refuse_outside("Strength of the hole over the bolt", ratio, 0.0, MOST_RATIO, advice)
    fitted = 5.594 - 13.682 * ratio + 14.107 * ratio**2 - 6.057 * ratio**3 + 0.9353 * ratio**4
    return (ratio <= 1) * BOTH_BEND + (ratio > 1) * fitted


def hole_bending_factor(ratio: Quantity) -> Quantity:
    """Share of its strength left to the hole's thread as the teeth bend.

    Parameters
    ----------
    ratio : float or array, shape (n,)
        Strength ratio RS of hole over bolt. [-]

    Returns
    -------
    float or array, shape (n,)
        Factor C3, a little above one for soft holes. [-]

    Raises
    ------
    OutOfRange
        When the ratio is below 0.4.

    Notes
    -----
    0.897 for RS ≥ 1, else 0.728 + 1.769 RS − 2.896 RS² + 1.296 RS³. Below 0.4 take one and say so.

    References
    ----------
    E. M. Alexander's factor as in ISO/TR 16224:2012 and VDI 2230, carried by screw_thread_lib 0.0.6.

    Examples
    --------
    >>> round(hole_bending_factor(0.6), 3)
    1.027
    """
    advice = "The hole is so much softer than the bolt that no test covers it; take 1."
    refuse_outside("Strength of the hole over the bolt", ratio, LEAST_RATIO, 1e6, advice)
    fitted = 0.728 + 1.769 * ratio - 2.896 * ratio**2 + 1.296 * ratio**3
    return (ratio >= 1) * BOTH_BEND + (ratio < 1) * fitted
