"""How far a flywheel runs on when the crank under it is stopped, and what stops it."""

from typing import Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])


def stop_torque(inertia: Quantity, speed: Quantity, stop_angle: Quantity) -> Quantity:
    """Torque on average that stops a turning part within an angle.

    Parameters
    ----------
    inertia : float or array, shape (n,)
        Moment of inertia of what is stopped **through** the joint asked about: for a flywheel taper the flywheel's,
        not the blade's. [kg·m²]
    speed : float or array, shape (n,)
        Speed before. [rad/s]
    stop_angle : float or array, shape (n,)
        Angle turned until it stands. [rad]

    Returns
    -------
    float or array, shape (n,)
        Mean torque J ω²/(2 Δθ). [N·m]

    Raises
    ------
    OutOfRange
        When inertia or angle is not above zero, or the speed below zero.

    References
    ----------
    Work and energy of a turning part (any mechanics handbook).

    Examples
    --------
    >>> import math
    >>> round(stop_torque(0.010, 314.159, math.pi / 2))
    314
    """
    _refuse_wrong_blow(inertia, speed, stop_angle)
    return inertia * speed**2 / (2 * stop_angle)


def stop_angle(speed: Quantity, stop_time: Quantity) -> Quantity:
    """Angle turned while stopping evenly within a time.

    Parameters
    ----------
    speed : float or array, shape (n,)
        Speed before. [rad/s]
    stop_time : float or array, shape (n,)
        Time until it stands. [s]

    Returns
    -------
    float or array, shape (n,)
        Angle ω Δt/2. [rad]

    Raises
    ------
    OutOfRange
        When speed or time is not above zero.

    References
    ----------
    Rotation at constant torque (any mechanics handbook).

    Examples
    --------
    >>> round(stop_angle(314.0, 0.010), 2)
    1.57
    """
    refuse_unless_positive("Speed", speed, "rpm", "speed")
    refuse_unless_positive("Time to stop", stop_time, "s", "time")
    return speed * stop_time / 2


def bar_inertia(mass: Quantity, length: Quantity) -> Quantity:
    """Moment of inertia of a bar blade about its middle.

    Parameters
    ----------
    mass : float or array, shape (n,)
        Mass of the blade. [kg]
    length : float or array, shape (n,)
        Length from tip to tip. [m]

    Returns
    -------
    float or array, shape (n,)
        m L²/12. [kg·m²]

    Raises
    ------
    OutOfRange
        When mass or length is not above zero.

    References
    ----------
    Slender bar about its middle (any mechanics handbook).

    Examples
    --------
    >>> bar_inertia(0.6, 0.5)
    0.0125
    """
    refuse_unless_positive("Mass", mass, "kg", "mass")
    refuse_unless_positive("Length", length, "mm", "length")
    return mass * length**2 / 12


def ring_inertia(mass: Quantity, outside_diameter: Quantity, inside_diameter: Quantity) -> Quantity:
    """Moment of inertia of a ring, or of a disc when the inside diameter is zero: a flywheel lies between the two.

    Parameters
    ----------
    mass : float or array, shape (n,)
        Mass. [kg]
    outside_diameter : float or array, shape (n,)
        Outside diameter. [m]
    inside_diameter : float or array, shape (n,)
        Inside diameter of the rim; zero for a disc. [m]

    Returns
    -------
    float or array, shape (n,)
        m (D² + d²)/8. [kg·m²]

    Raises
    ------
    OutOfRange
        When mass or outside diameter is not above zero, or the inside is not smaller than the outside.

    References
    ----------
    Hollow cylinder about its axis (any mechanics handbook).

    Examples
    --------
    >>> round(ring_inertia(3.2, 0.2, 0.0), 4)
    0.016
    """
    refuse_unless_positive("Mass", mass, "kg", "mass")
    refuse_unless_positive("Outside diameter", outside_diameter, "mm", "length")
    refuse_if_negative("Inside diameter", inside_diameter, "mm", "length")
    refuse_unless_positive("Width of the rim", outside_diameter - inside_diameter, "mm", "length")
    return mass * (outside_diameter**2 + inside_diameter**2) / 8


def run_on_angle(
    inertia: Quantity,
    speed: Quantity,
    stop_angle: Quantity,
    slip_torque: Quantity,
    *,
    key_torque: float = 0.0,
    key_travel: float = 0.0,
) -> Quantity:
    """Angle by which a flywheel ends up ahead of a crank that was stopped under it.

    Parameters
    ----------
    inertia : float or array, shape (n,)
        Moment of inertia of the flywheel. [kg·m²]
    speed : float or array, shape (n,)
        Speed of both before. [rad/s]
    stop_angle : float or array, shape (n,)
        Angle through which the crank came to a stop, slowing evenly. [rad]
    slip_torque : float or array, shape (n,)
        Torque at which the taper slips, and drags while it slips. [N·m]
    key_torque : float
        Torque the key adds until it is pushed through. [N·m]
    key_travel : float
        Angle by which the flywheel has to get ahead to push the key through. [rad]

    Returns
    -------
    float or array, shape (n,)
        Angle ahead, in the sense of rotation; zero when taper and key hold. [rad]

    Raises
    ------
    OutOfRange
        When a number is negative, or inertia, stop angle or slip torque not above zero.

    Notes
    -----
    Without a key J ω²/(2 Ts) − Δθ. With one, Ts + Tk brake until the relative angle is the key's travel (while the
    crank still turns, or after), then Ts alone; a key that stops the flywheel short of that stays, with a step.

    References
    ----------
    Energy balance at constant torque (own derivation).

    Examples
    --------
    >>> import math
    >>> round(math.degrees(run_on_angle(0.010, 314.159, math.radians(45), 400.0)), 1)
    25.7
    """
    _refuse_wrong_blow(inertia, speed, stop_angle)
    refuse_unless_positive("Slip torque of the taper", slip_torque, "N·m", "torque")
    refuse_if_negative("Torque of the key", key_torque, "N·m", "torque")
    refuse_if_negative("Travel of the key", key_travel, "°", "angle")
    both, energy = slip_torque + key_torque, inertia * speed**2 / 2
    with_key = np.maximum(energy / both - stop_angle, 0.0)
    pushing = _travel_while_pushing(inertia, speed, stop_angle, both, key_travel)
    parted = pushing + (energy - both * pushing) / slip_torque - stop_angle
    ahead: Quantity = _either(with_key <= key_travel, with_key, parted)
    return ahead


def _travel_while_pushing(
    inertia: Quantity, speed: Quantity, stop_angle: Quantity, brake: Quantity, key_travel: float
) -> Quantity:
    """Angle the flywheel turns until it is ahead by the key's travel; only asked where the key parts."""
    excess = stop_torque(inertia, speed, stop_angle) - brake
    time = (2 * key_travel * inertia / _either(excess > 0, excess, np.inf)) ** 0.5
    while_turning = speed * time - brake / inertia * time**2 / 2
    still_turning = speed * time < 2 * stop_angle
    turned: Quantity = _either(still_turning, while_turning, stop_angle + key_travel)
    return turned


def _refuse_wrong_blow(inertia: Quantity, speed: Quantity, stop_angle: Quantity) -> None:
    refuse_outside("Moment of inertia", inertia, 1e-9, 1e3, "In kg·m²; a small engine's flywheel is near 0.01.")
    refuse_if_negative("Speed", speed, "rpm", "speed")
    refuse_unless_positive("Angle to stop in", stop_angle, "°", "angle")


def _either(condition: ArrayLike, one: ArrayLike, other: ArrayLike) -> Any:
    """Choose number by number; a single number stays one."""
    return np.where(condition, one, other)[()]
