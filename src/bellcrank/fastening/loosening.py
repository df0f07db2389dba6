"""Backing off: the torque that breaks a joint loose, and the clamp that a measured one tells of."""

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.fastening.heads import Face
from bellcrank.fastening.scatter import PreloadInterval
from bellcrank.fastening.threads import Thread
from bellcrank.fastening.tightening import nut_factor
from bellcrank.measuring.refusals import refuse_if_negative, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])


def breakloose_torque(
    preload: Quantity,
    thread: Thread,
    *,
    thread_friction: Quantity,
    head_friction: Quantity,
    bearing_diameter: float,
    hole_diameter: float,
) -> Quantity:
    """Torque that breaks a clamped joint loose.

    Parameters
    ----------
    preload : float or array, shape (n,)
        Clamp still in the joint. [N]
    thread : Thread
        The thread by its nominal sizes. [-]
    thread_friction : float or array, shape (n,)
        Coefficient of friction in the thread. [-]
    head_friction : float or array, shape (n,)
        Coefficient of friction under the turning head or nut. [-]
    bearing_diameter : float
        Outside diameter of the face under the head. [m]
    hole_diameter : float
        Diameter of the clearance hole under the head. [m]

    Returns
    -------
    float or array, shape (n,)
        Torque at the wrench, backing off. [N·m]

    Raises
    ------
    OutOfRange
        When the preload is negative, a friction outside 0.03 to 0.5, the face no larger than its hole, or the joint
        would turn loose by itself.

    Notes
    -----
    F [−P/(2π) + µt d2/(2 cos 30°) + µh (dw + dh)/4]: the lead now helps. No rust, no thread locker.

    References
    ----------
    VDI 2230:2001, tightening torque with the sign of the lead turned; N. Motosh's long form in MIL-HDBK-60,
    Appendix B.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> face = {"bearing_diameter": 0.00888, "hole_diameter": 0.0066}
    >>> round(breakloose_torque(10_180.0, parse_thread("M6"), thread_friction=0.12, head_friction=0.12, **face), 1)
    6.9
    """
    refuse_if_negative("Preload", preload, "N", "force")
    factor = nut_factor(
        thread,
        thread_friction=thread_friction,
        head_friction=head_friction,
        bearing_diameter=bearing_diameter,
        hole_diameter=hole_diameter,
    )
    arm = factor * thread.diameter - thread.pitch / math.pi
    if np.any(np.asarray(arm) <= 0):
        raise OutOfRange(
            f"With that little friction {thread.name} turns loose by itself; the friction must be higher. "
            "Lock it, or read the friction again."
        )
    return preload * arm


def residual_preload(
    torque: float, thread: Thread, face: Face, *, least_friction: float, most_friction: float
) -> PreloadInterval:
    """Give the clamp [N] that a measured break-loose torque [N·m] tells of, over a range of friction.

    The nominal value is for the middle of the range; friction in thread and under the head is taken alike. It is our
    own use of the loosening formula (derived); rust or thread locker make it worthless.

    References
    ----------
    As for :func:`breakloose_torque`, solved for the preload.
    """
    refuse_unless_positive("Break-loose torque", torque, "N·m", "torque")
    if least_friction > most_friction:
        raise OutOfRange(
            f"The least friction {least_friction:g} is above the most, {most_friction:g}. Type it the other way round."
        )
    middle = (least_friction + most_friction) / 2
    high, nominal, low = (torque / _per_newton(thread, face, each) for each in (least_friction, middle, most_friction))
    return PreloadInterval(low, nominal, high)


def _per_newton(thread: Thread, face: Face, friction: float) -> float:
    return breakloose_torque(
        1.0,
        thread,
        thread_friction=friction,
        head_friction=friction,
        bearing_diameter=face.bearing_diameter,
        hole_diameter=face.hole_diameter,
    )
