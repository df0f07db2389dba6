"""The forces of a puller: what the heaviest loaded bolt carries, and the torque a pointed screw needs."""

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.fastening.threads import Thread, pitch_diameter
from bellcrank.fastening.tightening import FLANK_COSINE, LEAST_FRICTION, MOST_FRICTION
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive
from bellcrank.units import show

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LEVER = {2: 1.0, 3: 2.0}  # [-] bolts, evenly spaced -> what one part in off-centre adds to the heaviest of them


def heaviest_bolt_load(force: Quantity, bolts: int, *, circle_radius: float, off_centre: float) -> Quantity:
    """Load on the heaviest loaded bolt of a puller whose screw is a little off the middle.

    Parameters
    ----------
    force : float or array, shape (n,)
        Force of the screw on the crank's end. [N]
    bolts : int
        Bolts that hold the plate, 2 or 3, evenly spaced on a circle. [-]
    circle_radius : float
        From the middle of that circle to a bolt. [m]
    off_centre : float
        From the middle of that circle to the screw, towards a bolt. [m]

    Returns
    -------
    float or array, shape (n,)
        Load on the bolt nearest to the screw. [N]

    Raises
    ------
    OutOfRange
        When the force is negative, the bolts are not two or three, or the screw is so far off that a bolt goes slack.

    Notes
    -----
    Two bolts: F/2 (1 + e/r). Three: F/3 (1 + 2 e/r), from forces and moments of a stiff plate. With three, a bolt
    goes slack when the screw is r/2 off, away from it; so half of r is the most that is taken.

    References
    ----------
    Lever law and equilibrium of a stiff plate, any textbook of statics.

    Examples
    --------
    >>> heaviest_bolt_load(10_000.0, 2, circle_radius=0.025, off_centre=0.0025)
    5500.0
    """
    refuse_if_negative("Pulling force", force, "kN", "force")
    refuse_unless_positive("Radius of the bolt circle", circle_radius, "mm", "length")
    refuse_if_negative("Off-centre of the screw", off_centre, "mm", "length")
    if bolts not in LEVER:
        raise OutOfRange(f"A puller with {bolts} bolts is not computed; it must be 2 or 3, evenly spaced. Count them.")
    if off_centre > circle_radius / 2:
        raise OutOfRange(
            f"The screw is {show(off_centre, 'mm', 'length', 1)} off the middle; it must be "
            f"{show(circle_radius / 2, 'mm', 'length', 1)} at most, half way to a bolt. Centre the screw."
        )
    return force / bolts * (1 + LEVER[bolts] * off_centre / circle_radius)


def screw_torque(force: Quantity, thread: Thread, *, friction: float, tip_radius: float) -> Quantity:
    """Torque on a screw that presses with a pointed or rounded tip.

    Parameters
    ----------
    force : float or array, shape (n,)
        Force at the tip. [N]
    thread : Thread
        The screw's thread. [-]
    friction : float
        Coefficient of friction in the thread and under the tip. [-]
    tip_radius : float
        Mean radius at which the tip rubs. [m]

    Returns
    -------
    float or array, shape (n,)
        Torque on the screw. [N·m]

    Raises
    ------
    OutOfRange
        When the force is negative, the tip has no radius, or the friction is outside 0.03 to 0.5.

    Notes
    -----
    F [P/(2π) + µ d2/(2 cos 30°) + µ r], the long form of a bolt with the tip in the place of the head.

    References
    ----------
    MIL-HDBK-60, Appendix B; NSTS 08307 Rev A, section 3.3 (R_t (tan α + µ/cos β) + R_e µ).

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(screw_torque(5000.0, parse_thread("1/4-20"), friction=0.14, tip_radius=0.002), 1)
    4.6
    """
    refuse_if_negative("Force of the screw", force, "kN", "force")
    refuse_unless_positive("Radius of the tip", tip_radius, "mm", "length")
    refuse_outside("Friction", friction, LEAST_FRICTION, MOST_FRICTION, "Oiled steel is near 0.12, dry 0.25.")
    thread_arm = thread.pitch / (2 * math.pi) + friction * pitch_diameter(thread) / (2 * FLANK_COSINE)
    return force * (thread_arm + friction * tip_radius)
