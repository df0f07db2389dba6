"""Stripping: the area of thread that must shear before a bolt pulls out, and the pull that shears it."""

import math
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.strength import Material
from bellcrank.fastening.threads import Thread
from bellcrank.measuring.refusals import refuse_if_negative, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

BOLT_SHEAR_SHARE = 0.5  # [-] of tensile strength; FED-STD-H28/2B section 70.7.1: shear area twice the tensile area
LOST_PITCHES = 1.0  # chamfer and incomplete first thread of a used hole carry nothing (FED-STD-H28/2B 70.7.2)
LEAST_PITCHES = 2.0  # fewer, and less than one whole turn carries: no formula is meant for that


@dataclass(frozen=True, slots=True)
class StripForce(Generic[Quantity]):
    """Pull that strips a thread: what to count on, and what a new, full thread would hold."""

    low: Quantity  # [N]
    nominal: Quantity  # [N]


def strip_area(thread: Thread, engagement: Quantity) -> Quantity:
    """Area of tapped thread that shears when the hole strips, both threads at their loosest limits.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    engagement : float or array, shape (n,)
        Length of full thread in contact. [m]

    Returns
    -------
    float or array, shape (n,)
        Shear area of the internal thread. [m²]

    Raises
    ------
    OutOfRange
        When the engagement is negative or missing.

    References
    ----------
    FED-STD-H28/2B (1991), Table II.B.1, formula (2a).

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(strip_area(parse_thread("M6"), 0.010) * 1e6, 1)
    122.7
    """
    limits = thread_limits(thread)
    return internal_strip_area(
        engagement, thread.pitch, bolt_major_min=limits.bolt_major_min, hole_pitch_max=limits.hole_pitch_max
    )


def internal_strip_area(
    engagement: Quantity, pitch: float, *, bolt_major_min: float, hole_pitch_max: float
) -> Quantity:
    """Area of tapped thread that shears, from measured or printed sizes.

    Parameters
    ----------
    engagement : float or array, shape (n,)
        Length of full thread in contact. [m]
    pitch : float
        From thread to thread. [m]
    bolt_major_min : float
        Smallest outside diameter of the bolt. [m]
    hole_pitch_max : float
        Largest pitch diameter of the tapped hole. [m]

    Returns
    -------
    float or array, shape (n,)
        Shear area of the internal thread. [m²]

    Raises
    ------
    OutOfRange
        When a size is not above zero, or the hole is so large that the threads no longer meet.

    Notes
    -----
    π (LE/P) d_min [P/2 + (d_min − D2_max)/√3]. The largest outside diameter in place of d_min would promise too
    much by some 15 %.

    References
    ----------
    FED-STD-H28/2B (1991), Table II.B.1, formula (2a).

    Examples
    --------
    >>> round(internal_strip_area(1.0, 0.1, bolt_major_min=1.0, hole_pitch_max=0.95), 3)
    2.478
    """
    refuse_if_negative("Thread engagement", engagement, "mm", "length")
    refuse_unless_positive("Pitch", pitch, "mm", "length")
    refuse_unless_positive("Outside diameter of the bolt", bolt_major_min, "mm", "length")
    refuse_unless_positive("Pitch diameter of the hole", hole_pitch_max, "mm", "length")
    width = pitch / 2 + (bolt_major_min - hole_pitch_max) / math.sqrt(3)
    refuse_unless_positive("Width of thread left in the hole", width, "mm", "length")
    return math.pi / pitch * bolt_major_min * width * engagement


def external_strip_area(
    engagement: Quantity, pitch: float, *, hole_minor_max: float, bolt_pitch_min: float
) -> Quantity:
    """Area of bolt thread that shears, from measured or printed sizes.

    Parameters
    ----------
    engagement : float or array, shape (n,)
        Length of full thread in contact. [m]
    pitch : float
        From thread to thread. [m]
    hole_minor_max : float
        Largest inside diameter of the tapped hole. [m]
    bolt_pitch_min : float
        Smallest pitch diameter of the bolt. [m]

    Returns
    -------
    float or array, shape (n,)
        Shear area of the external thread. [m²]

    Raises
    ------
    OutOfRange
        When a size is not above zero, or the hole is so large that the threads no longer meet.

    Notes
    -----
    π (LE/P) D1_max [P/2 + (d2_min − D1_max)/√3].

    References
    ----------
    FED-STD-H28/2B (1991), Table II.B.1, formula (4a).

    Examples
    --------
    >>> round(external_strip_area(1.0, 0.1, hole_minor_max=0.9, bolt_pitch_min=0.93), 3)
    1.904
    """
    refuse_if_negative("Thread engagement", engagement, "mm", "length")
    refuse_unless_positive("Pitch", pitch, "mm", "length")
    refuse_unless_positive("Inside diameter of the hole", hole_minor_max, "mm", "length")
    refuse_unless_positive("Pitch diameter of the bolt", bolt_pitch_min, "mm", "length")
    width = pitch / 2 + (bolt_pitch_min - hole_minor_max) / math.sqrt(3)
    refuse_unless_positive("Width of thread left on the bolt", width, "mm", "length")
    return math.pi / pitch * hole_minor_max * width * engagement


def strip_force(thread: Thread, engagement: Quantity, material: Material) -> StripForce[Quantity]:
    """Pull that strips the tapped hole: nominal by the whole engagement, low as a used, real part allows.

    The low value loses one pitch to chamfer and run-out and counts the material's knock-down.

    References
    ----------
    FED-STD-H28/2B (1991), Table II.B.1, formula (2a), and section 70.7.2; knock-down 0.70 as in a NASA course on
    bolted joints (secondary).
    """
    refuse_unless_positive("Thread engagement", engagement, "mm", "length")
    if material.shear is None:
        raise OutOfRange(
            f"There is no thread strength to compute with for {material.words}. Strip one screw in a scrap piece and "
            "tighten to half of that, or tighten until it is seated and a quarter turn more."
        )
    _refuse_too_few_threads(thread, engagement)
    usable = engagement - LOST_PITCHES * thread.pitch
    return StripForce(
        low=material.knock_down * material.shear * strip_area(thread, usable),
        nominal=material.shear * strip_area(thread, engagement),
    )


def bolt_strip_force(
    thread: Thread, engagement: Quantity, tensile_strength: float, knock_down: float
) -> StripForce[Quantity]:
    """Pull that strips the bolt's own thread, by the same rules as :func:`strip_force`."""
    refuse_unless_positive("Tensile strength of the bolt", tensile_strength, "MPa", "pressure")
    _refuse_too_few_threads(thread, engagement)
    limits = thread_limits(thread)
    per_length = external_strip_area(
        1.0, thread.pitch, hole_minor_max=limits.hole_minor_max, bolt_pitch_min=limits.bolt_pitch_min
    )
    shear = BOLT_SHEAR_SHARE * tensile_strength
    usable = engagement - LOST_PITCHES * thread.pitch
    return StripForce(low=knock_down * shear * per_length * usable, nominal=shear * per_length * engagement)


def _refuse_too_few_threads(thread: Thread, engagement: Quantity) -> None:
    least = float(np.min(engagement))
    if least < LEAST_PITCHES * thread.pitch:
        raise OutOfRange(
            f"Only {least / thread.pitch:.1f} threads of {thread.name} are engaged; it must be "
            f"{LEAST_PITCHES:g} or more to compute a torque. Strip one screw in a scrap piece and tighten to half of "
            "that, or use a nut or a longer screw."
        )
