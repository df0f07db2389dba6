"""Shoulder screws: the neck behind the shoulder is thinner than the thread and sets the torque."""

import math
from dataclasses import dataclass

from bellcrank.fastening.threads import Thread, stress_area
from bellcrank.measuring.refusals import refuse_unless_positive
from bellcrank.sources import Basis


@dataclass(frozen=True, slots=True)
class ShoulderScrew:
    """A shoulder screw by its standard."""

    shoulder: float  # [m]
    thread: Thread
    neck: float  # [m]
    basis: Basis
    source: str  # key in the list of sources


def neck_share(neck_diameter: float, thread: Thread) -> float:
    """Share of an equal bolt's preload and torque that a shoulder screw takes.

    Parameters
    ----------
    neck_diameter : float
        Diameter of the neck between shoulder and thread. [m]
    thread : Thread
        The thread by its nominal sizes. [-]

    Returns
    -------
    float
        Neck area over stress area, at most one. [-]

    Raises
    ------
    OutOfRange
        When the neck has no size, or is as thick as the thread.

    Notes
    -----
    π/4 dg² / As, no stress raiser counted.

    References
    ----------
    ISO 7379, dg2 and thread by shoulder diameter.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(neck_share(0.00440, parse_thread("M6")), 2)
    0.76
    """
    refuse_unless_positive("Neck diameter", neck_diameter, "mm", "length")
    refuse_unless_positive("Thread over the neck", thread.diameter - neck_diameter, "mm", "length")
    return min(1.0, math.pi / 4 * neck_diameter**2 / stress_area(thread))
