"""The hole before the tap: how much thread it leaves, and how large it should be for the depth it is tapped."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.threads import Thread, pitch_diameter
from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.units import show

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

# least and most of the minor diameter's tolerance to use, by depth over diameter: a shallow hole wants full threads, a
# deep one a hole that does not break the tap; FED-STD-H28/2B, Table II.A.3
HOLE_BY_DEPTH = ((0.33, 0.0, 0.5), (0.67, 0.25, 0.75), (1.5, 0.5, 1.0))


@dataclass(frozen=True, slots=True)
class HoleRange:
    """Smallest and largest hole to tap. [m]"""

    low: float
    high: float


def percent_thread(thread: Thread, hole_diameter: Quantity) -> Quantity:
    """Share of a full thread that a drilled hole leaves for the tap.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    hole_diameter : float or array, shape (n,)
        Diameter of the hole before tapping. [m]

    Returns
    -------
    float or array, shape (n,)
        Thread height over 0.75 H; 0.833 is the most a Unified hole may have. [-]

    Raises
    ------
    OutOfRange
        When the hole has no size, or is as large as the thread itself.

    References
    ----------
    FED-STD-H28/2B (1991), section 20.2.3 and Table II.A.1.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(percent_thread(parse_thread("1/4-20"), 0.207 * 0.0254), 2)
    0.66
    """
    refuse_unless_positive("Hole diameter", hole_diameter, "mm", "length")
    room = f"Thread left between {thread.name} and the hole"
    refuse_unless_positive(room, thread.diameter - hole_diameter, "mm", "length")
    return (thread.diameter - hole_diameter) / (2 * (thread.diameter - pitch_diameter(thread)))


def hole_for_percent(thread: Thread, share: Quantity) -> Quantity:
    """Hole to drill for a wanted share of a full thread.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    share : float or array, shape (n,)
        Wanted share of a full thread, 0.75 for most work. [-]

    Returns
    -------
    float or array, shape (n,)
        Diameter of the hole before tapping; a drill cuts up to 0.1 mm larger. [m]

    Raises
    ------
    OutOfRange
        When the share is outside 0.3 to 1.

    References
    ----------
    FED-STD-H28/2B (1991), section 20.2.3 and Table II.A.1.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(hole_for_percent(parse_thread("1/4-20"), 0.75) / 0.0254, 3)
    0.201
    """
    refuse_outside("Share of a full thread", share, 0.3, 1.0, "0.75 is usual; above 0.83 taps break.")
    return thread.diameter - share * (2 * (thread.diameter - pitch_diameter(thread)))


def hole_for_depth(thread: Thread, engagement: float) -> HoleRange:
    """Give the holes to tap for a length of engagement, shallow holes tighter than deep ones.

    References
    ----------
    FED-STD-H28/2B (1991), Table II.A.3; the shares of the tolerance meet its 78 holes of 13 Unified threads within a
    thousandth of an inch. The same shares are used for metric threads.
    """
    refuse_unless_positive("Thread engagement", engagement, "mm", "length")
    limits = thread_limits(thread)
    tolerance = limits.hole_minor_max - limits.hole_minor_min
    for most, low, high in HOLE_BY_DEPTH:
        if engagement <= most * thread.diameter:
            return HoleRange(limits.hole_minor_min + low * tolerance, limits.hole_minor_min + high * tolerance)
    raise OutOfRange(
        f"The thread is {show(engagement, 'mm', 'length', 1)} deep; it must be at most one and a half diameters of "
        f"{thread.name} to look up a hole. Take the largest hole for one and a half diameters."
    )
