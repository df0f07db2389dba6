"""Short rules for the stripping area, and NASA's low bound for worn threads."""

import math
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.threads import Thread, minor_diameter, pitch_diameter
from bellcrank.measuring.refusals import refuse_if_negative, refuse_unless_positive
from bellcrank.units import show

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LEAST_FOR_HOLE_RULE = 0.00635  # [m] rule (3) is for a quarter inch and up


def short_strip_area(thread: Thread, engagement: Quantity, which: str) -> Quantity:
    """Area that shears by the short rules, without limits of size.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    engagement : float or array, shape (n,)
        Length of full thread in contact. [m]
    which : str
        "hole", "bolt", "bolt, basic" or "both" (equal strengths, they give way together). [-]

    Returns
    -------
    float or array, shape (n,)
        Shear area. [m²]

    Raises
    ------
    OutOfRange
        When the engagement is negative, or the hole's rule is asked for below a quarter inch.
    NotUnderstood
        When the rule is none of the four.

    Notes
    -----
    (3) hole ¾ π D2 LE, (5) bolt ⅝ π d2 LE, (6b) bolt, basic ¾ π D1 LE, (7) both ½ π D2 LE.

    References
    ----------
    FED-STD-H28/2B (1991), Tables II.B.1 and II.B.2, formulae (3), (5), (6b) and (7).

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(short_strip_area(parse_thread("5/16-24"), 0.0254, "hole") / 0.0254**2, 3)
    0.673
    """
    refuse_if_negative("Thread engagement", engagement, "mm", "length")
    middle = pitch_diameter(thread)
    per_length = {
        "hole": 0.75 * math.pi * middle,
        "bolt": 0.625 * math.pi * middle,
        "bolt, basic": 0.75 * math.pi * minor_diameter(thread),
        "both": 0.5 * math.pi * middle,
    }
    if which not in per_length:
        raise NotUnderstood(f"“{which}” is no rule for a strip area; it must be one of {', '.join(per_length)}.")
    if which == "hole" and thread.diameter < LEAST_FOR_HOLE_RULE:
        raise OutOfRange(
            f"{thread.name} is {show(thread.diameter, 'mm', 'length')}; the short rule for holes must have 6.35 mm or "
            "more. Use the full formula."
        )
    return per_length[which] * engagement


def pull_out_bound(thread: Thread, engagement: Quantity, shear_strength: float) -> Quantity:
    """Pull that strips a hole whose thread is worn or cut too large, a low bound.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    engagement : float or array, shape (n,)
        Length of full thread in contact. [m]
    shear_strength : float
        Ultimate shear strength of the tapped part. [Pa]

    Returns
    -------
    float or array, shape (n,)
        Pull that strips; under half of what a sound thread holds. [N]

    Raises
    ------
    OutOfRange
        When the engagement is negative or the strength not above zero.

    Notes
    -----
    π dm Fs L/3; the third is an empirical allowance for threads that do not match.

    References
    ----------
    NASA RP-1228, Fastener design manual, pull-out load.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(pull_out_bound(parse_thread("M6"), 0.010, 190e6) / 1000, 1)
    10.6
    """
    refuse_if_negative("Thread engagement", engagement, "mm", "length")
    refuse_unless_positive("Shear strength", shear_strength, "MPa", "pressure")
    return math.pi / 3 * pitch_diameter(thread) * shear_strength * engagement
