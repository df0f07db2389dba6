"""How soon a blade must stand still, and how well a stop can be timed."""

import math

from bellcrank.errors import OutOfRange
from bellcrank.measuring.measured import Measured
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

STOP_LIMIT = 3.0  # [s] 16 CFR 1205.5(a)(1)(iii), walk-behind rotary mowers made after 30 June 1982
OLD_STOP_LIMIT = 15.0  # [s] OAR 437-004-2240(2)(e), the back-stop for machines outside 16 CFR 1205
FEWEST_STOPS = 3
THUMB_SPREAD = 0.1  # [s] standard deviation of a thumb on a stopwatch, at each end; guess


def stop_limit(*, made_after_june_1982: bool) -> float:
    """Time within which the blade must stand still after release.

    Parameters
    ----------
    made_after_june_1982 : bool
        Whether the machine was made after 30 June 1982. [-]

    Returns
    -------
    float
        Limit. [s]

    References
    ----------
    16 CFR 1205.2 and 1205.5(a)(1)(iii); OAR 437-004-2240(2)(e).

    Examples
    --------
    >>> stop_limit(made_after_june_1982=True)
    3.0
    """
    return STOP_LIMIT if made_after_june_1982 else OLD_STOP_LIMIT


def video_uncertainty(frames_per_second: float) -> float:
    """Expanded uncertainty (k = 2) of a time read off a video at both ends.

    Parameters
    ----------
    frames_per_second : float
        Frame rate. [1/s]

    Returns
    -------
    float
        Expanded uncertainty. [s]

    Raises
    ------
    OutOfRange
        When the frame rate is outside 1 to 10 000 a second.

    Notes
    -----
    Two independent rectangular ends of one frame: 2 √(2/12) / f.

    References
    ----------
    JCGM 100:2008, 4.3.7 (rectangular distribution).

    Examples
    --------
    >>> round(video_uncertainty(30), 3)
    0.027
    """
    refuse_outside("Frames a second", frames_per_second, 1, 10_000, "Look in the camera's settings; 30 is usual.")
    return 2 * math.sqrt(2 / 12) / frames_per_second


def thumb_uncertainty() -> float:
    """Expanded uncertainty (k = 2) of a thumb on a stopwatch at both ends.

    Returns
    -------
    float
        Expanded uncertainty. [s]

    References
    ----------
    JCGM 100:2008, root sum of squares; the spread of a thumb is a guess.

    Examples
    --------
    >>> round(thumb_uncertainty(), 2)
    0.28
    """
    return 2 * math.sqrt(2) * THUMB_SPREAD


def stopping_torque(inertia: float, speed: float, stop_time: float) -> float:
    """Steady braking torque that stops a turning part in a time.

    Parameters
    ----------
    inertia : float
        Moment of inertia of all that turns. [kg·m²]
    speed : float
        Speed at release. [rad/s]
    stop_time : float
        Time from release to standstill. [s]

    Returns
    -------
    float
        Braking torque. [N·m]

    Raises
    ------
    OutOfRange
        When inertia or time is not above zero, or the speed is below zero.

    References
    ----------
    Newton's second law for a turning part at constant torque (any mechanics handbook).

    Examples
    --------
    >>> stopping_torque(0.02, 300.0, 3.0)
    2.0
    """
    refuse_outside("Moment of inertia", inertia, 1e-9, 1e3, "In kg·m²; a mower blade with its flywheel is near 0.02.")
    refuse_if_negative("Blade speed", speed, "rpm", "speed")
    refuse_unless_positive("Stop time", stop_time, "s", "time")
    return inertia * speed / stop_time


def turns_to_stop(speed: float, stop_time: float) -> float:
    """Turns a part makes while a steady torque stops it.

    Parameters
    ----------
    speed : float
        Speed at release. [rad/s]
    stop_time : float
        Time from release to standstill. [s]

    Returns
    -------
    float
        Turns. [-]

    Raises
    ------
    OutOfRange
        When the time is not above zero, or the speed is below zero.

    References
    ----------
    Constant deceleration: the mean speed is half the first (any mechanics handbook).

    Examples
    --------
    >>> round(turns_to_stop(2 * math.pi * 50, 3.0), 1)
    75.0
    """
    refuse_if_negative("Blade speed", speed, "rpm", "speed")
    refuse_unless_positive("Stop time", stop_time, "s", "time")
    return speed * stop_time / (4 * math.pi)


def worst_stop(times: tuple[float, ...], uncertainty: float) -> Measured:
    """Give the longest of several stops with its uncertainty.

    Parameters
    ----------
    times : tuple of float
        Stops, three or more. [s]
    uncertainty : float
        Expanded uncertainty of one stop. [s]

    Returns
    -------
    Measured
        The longest stop. [s]

    Raises
    ------
    OutOfRange
        When there are fewer than three, or one is not above zero.

    References
    ----------
    16 CFR 1205.5(b) asks for the stop at full speed; three releases are common practice, no source.

    Examples
    --------
    >>> worst_stop((2.4, 2.6, 2.5), 0.03).value
    2.6
    """
    if len(times) < FEWEST_STOPS:
        raise OutOfRange(
            f"{len(times)} of the {FEWEST_STOPS} stop times or more were given. Run the blade up, let go and time "
            "it again."
        )
    for time in times:
        refuse_unless_positive("Stop time", time, "s", "time")
    return Measured(max(times), uncertainty)
