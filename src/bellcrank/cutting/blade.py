"""A turning blade: tip speed and the energy in it."""

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.measured import Measured
from bellcrank.measuring.refusals import refuse_if_negative, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

HIGHEST_TIP_SPEED = 96.52  # [m/s] 19,000 ft/min, ANSI/OPEI B71.1 as quoted on a trade page (secondary)


def tip_speed(diameter: Quantity, speed: Quantity) -> Quantity:
    """Speed of the blade's tips.

    Parameters
    ----------
    diameter : float or array, shape (n,)
        Tip circle, measured tip to tip along the diagonal corners. [m]
    speed : float or array, shape (n,)
        Blade speed. [rad/s]

    Returns
    -------
    float or array, shape (n,)
        Tip speed. [m/s]

    Raises
    ------
    OutOfRange
        When the diameter is not above zero or the speed is below zero.

    References
    ----------
    ANSI/OPEI B71.1, clause on blade speed (secondary); circular motion.

    Examples
    --------
    >>> tip_speed(2.0, 10.0)
    10.0
    """
    refuse_unless_positive("Blade, tip to tip", diameter, "mm", "length")
    refuse_if_negative("Blade speed", speed, "rpm", "speed")
    return diameter / 2 * speed


def highest_speed(diameter: Quantity, limit: float = HIGHEST_TIP_SPEED) -> Quantity:
    """Highest blade speed that keeps the tip-speed limit.

    Parameters
    ----------
    diameter : float or array, shape (n,)
        Tip circle. [m]
    limit : float
        Tip-speed limit. [m/s]

    Returns
    -------
    float or array, shape (n,)
        Blade speed. [rad/s]

    Raises
    ------
    OutOfRange
        When the diameter or the limit is not above zero.

    References
    ----------
    ANSI/OPEI B71.1, clause on blade speed (secondary).

    Examples
    --------
    >>> round(highest_speed(0.5334) * 60 / (2 * 3.14159265), 0)
    3456.0
    """
    refuse_unless_positive("Blade, tip to tip", diameter, "mm", "length")
    refuse_unless_positive("Tip-speed limit", limit, "m/s", "velocity")
    return 2 * limit / diameter


def bar_energy(mass: float, length: float, speed: float) -> float:
    """Energy in a blade taken as a slender bar turning about its middle.

    Parameters
    ----------
    mass : float
        Blade mass. [kg]
    length : float
        Blade length. [m]
    speed : float
        Blade speed. [rad/s]

    Returns
    -------
    float
        Kinetic energy. [J]

    Raises
    ------
    OutOfRange
        When mass or length is not above zero, or the speed is below zero.

    References
    ----------
    Moment of inertia of a slender bar, m L²/12 (any mechanics handbook).

    Examples
    --------
    >>> bar_energy(12.0, 1.0, 2.0)
    2.0
    """
    refuse_unless_positive("Blade mass", mass, "kg", "mass")
    refuse_unless_positive("Blade length", length, "mm", "length")
    refuse_if_negative("Blade speed", speed, "rpm", "speed")
    return 0.5 * mass * length**2 / 12 * speed**2


def measured_tip_speed(diameter: Measured, speed: Measured) -> Measured:
    """Tip speed with its uncertainty, the two relative ones added in quadrature.

    Parameters
    ----------
    diameter : Measured
        Tip circle. [m]
    speed : Measured
        Blade speed. [rad/s]

    Returns
    -------
    Measured
        Tip speed. [m/s]

    References
    ----------
    JCGM 100:2008, law of propagation for a product.

    Examples
    --------
    >>> round(measured_tip_speed(Measured(2.0, 0.06), Measured(10.0, 0.4)).uncertainty, 2)
    0.5
    """
    value = tip_speed(diameter.value, speed.value)
    if speed.value == 0:
        return Measured(0.0, diameter.value / 2 * speed.uncertainty)
    return Measured(value, value * math.hypot(diameter.uncertainty / diameter.value, speed.uncertainty / speed.value))
