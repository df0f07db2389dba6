"""A mechanical governor in first order: droop under load, and how near to hunting."""

from enum import StrEnum
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive
from bellcrank.units import show

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

MOST_DROOP = 0.5  # [-] beyond half of the speed nothing governs any more


class DroopOf(StrEnum):
    """What the droop is a share of: two ways stand in print, and they differ."""

    RATED = "rated speed"
    NO_LOAD = "no-load speed"


def droop(no_load: Quantity, rated: Quantity, of: DroopOf = DroopOf.RATED) -> Quantity:
    """Fall of the speed from no load to full load, as a share.

    Parameters
    ----------
    no_load : float or array, shape (n,)
        Speed without load. [rad/s]
    rated : float or array, shape (n,)
        Speed with full load. [rad/s]
    of : DroopOf
        What it is a share of; always say which. [-]

    Returns
    -------
    float or array, shape (n,)
        (n0 − n)/n, or over n0. [-]

    Raises
    ------
    OutOfRange
        When a speed is not above zero, or it rises under load.

    References
    ----------
    ISO 8528, speed droop related to rated speed (from memory).

    Examples
    --------
    >>> round(droop(3750.0, 3562.5), 4), round(droop(3750.0, 3562.5, DroopOf.NO_LOAD), 4)
    (0.0526, 0.05)
    """
    refuse_unless_positive("Speed without load", no_load, "rpm", "speed")
    refuse_unless_positive("Speed with full load", rated, "rpm", "speed")
    falls = no_load - rated
    if np.any(np.asarray(falls) < 0):
        raise OutOfRange(
            f"Speed without load is {show(float(np.min(no_load)), 'rpm', 'speed')} and with load higher; it must fall "
            "under load. Swap the two readings."
        )
    share: Quantity = falls / (rated if of is DroopOf.RATED else no_load)
    return share


def no_load_speed(rated: Quantity, share: float, of: DroopOf = DroopOf.RATED) -> Quantity:
    """Speed without load, from the speed with full load and the droop.

    Parameters
    ----------
    rated : float or array, shape (n,)
        Speed with full load. [rad/s]
    share : float
        Droop. [-]
    of : DroopOf
        What it is a share of. [-]

    Returns
    -------
    float or array, shape (n,)
        n (1 + d), or n/(1 − d). [rad/s]

    Raises
    ------
    OutOfRange
        When the speed is not above zero, or the droop outside 0 to 0.5.

    References
    ----------
    ISO 8528, speed droop related to rated speed (from memory).

    Examples
    --------
    >>> round(no_load_speed(3000.0, 0.05), 1), round(no_load_speed(3562.5, 0.05, DroopOf.NO_LOAD), 1)
    (3150.0, 3750.0)
    """
    refuse_unless_positive("Speed with full load", rated, "rpm", "speed")
    refuse_outside("Droop, as a share", share, 0.0, MOST_DROOP, "Read both speeds again.")
    speed: Quantity = rated * (1 + share) if of is DroopOf.RATED else rated / (1 - share)
    return speed


def speed_per_travel(
    mass: float, radius: Quantity, speed: Quantity, spring_rate: float, radius_per_travel: float
) -> Quantity:
    """How much the speed must change for the sleeve of a fly-weight governor to move: large is droop, small is hunting.

    Parameters
    ----------
    mass : float
        Of the weights, as it acts on the sleeve. [kg]
    radius : float or array, shape (n,)
        Of the weights' circle. [m]
    speed : float or array, shape (n,)
        Of the governor. [rad/s]
    spring_rate : float
        Of the spring, at the sleeve. [N/m]
    radius_per_travel : float
        How far the weights move out when the sleeve moves. [-]

    Returns
    -------
    float or array, shape (n,)
        dω/dx = (k − m ω² dr/dx)/(2 m r ω). Zero or less: it has no steady place and hunts. [rad/(s·m)]

    Raises
    ------
    OutOfRange
        When mass, radius, speed or rate is not above zero, or the lever is beyond 0 to 10.

    References
    ----------
    Balance of a spring-loaded fly-weight, m r ω² = k x + F0 (any book on machines).

    Examples
    --------
    >>> round(speed_per_travel(0.02, 0.02, 300.0, 2000.0, 0.5))
    4583
    """
    refuse_unless_positive("Mass of the weights", mass, "g", "mass")
    refuse_unless_positive("Radius of the weights", radius, "mm", "length")
    refuse_unless_positive("Speed of the governor", speed, "rpm", "speed")
    refuse_outside("Spring rate in N/m", spring_rate, 1.0, 1e6, "Weigh the spring over a known stretch.")
    refuse_outside("Way of the weights over way of the sleeve", radius_per_travel, 0.0, 10.0, "Measure both ways.")
    slope: Quantity = (spring_rate - mass * speed**2 * radius_per_travel) / (2 * mass * radius * speed)
    return slope


def least_spring_rate(mass: float, speed: Quantity, radius_per_travel: float) -> Quantity:
    """Spring rate at which a fly-weight governor loses its steady place; a softer spring hunts.

    Parameters
    ----------
    mass : float
        Of the weights, as it acts on the sleeve. [kg]
    speed : float or array, shape (n,)
        Of the governor. [rad/s]
    radius_per_travel : float
        How far the weights move out when the sleeve moves. [-]

    Returns
    -------
    float or array, shape (n,)
        m ω² dr/dx: there the governor has no droop at all and any place of the sleeve suits the speed. [N/m]

    Raises
    ------
    OutOfRange
        When mass or speed is not above zero, or the lever is beyond 0 to 10.

    References
    ----------
    Balance of a spring-loaded fly-weight, m r ω² = k x + F0, with dω/dx = 0 (own derivation).

    Examples
    --------
    >>> round(least_spring_rate(0.02, 300.0, 0.5))
    900
    """
    refuse_unless_positive("Mass of the weights", mass, "g", "mass")
    refuse_unless_positive("Speed of the governor", speed, "rpm", "speed")
    refuse_outside("Way of the weights over way of the sleeve", radius_per_travel, 0.0, 10.0, "Measure both ways.")
    rate: Quantity = mass * speed**2 * radius_per_travel
    return rate


def friction_band(mass: float, radius: Quantity, speed: Quantity, friction: Quantity) -> Quantity:
    """How far the speed may wander before a governor that sticks moves at all, as a share.

    Parameters
    ----------
    mass : float
        Of the weights, as it acts on the sleeve. [kg]
    radius : float or array, shape (n,)
        Of the weights' circle. [m]
    speed : float or array, shape (n,)
        Of the governor. [rad/s]
    friction : float or array, shape (n,)
        Push at the sleeve that overcomes what sticks. [N]

    Returns
    -------
    float or array, shape (n,)
        F/(m r ω²), from the speed at which it moves one way to that at which it moves the other. [-]

    Raises
    ------
    OutOfRange
        When mass, radius or speed is not above zero, or the friction below zero.

    Notes
    -----
    For a band that is small against the speed: m r (ω ± Δω)² = k x + F0 ± F.

    References
    ----------
    Friction in a spring-loaded fly-weight governor (own derivation; any book on machines).

    Examples
    --------
    >>> round(friction_band(0.02, 0.02, 300.0, 1.0), 4)
    0.0278
    """
    refuse_unless_positive("Mass of the weights", mass, "g", "mass")
    refuse_unless_positive("Radius of the weights", radius, "mm", "length")
    refuse_unless_positive("Speed of the governor", speed, "rpm", "speed")
    refuse_if_negative("Push that moves the sleeve", friction, "N", "force")
    share: Quantity = friction / (mass * radius * speed**2)
    return share
