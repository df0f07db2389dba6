"""Torque by the short form of the trade charts, T = K d F."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])


def torque_by_nut_factor(preload: Quantity, diameter: float, factor: Quantity) -> Quantity:
    """Torque by the short form T = K d F.

    Parameters
    ----------
    preload : float or array, shape (n,)
        Wanted clamp. [N]
    diameter : float
        Nominal thread diameter. [m]
    factor : float or array, shape (n,)
        Nut factor K: 0.20 dry, 0.15 oiled in the trade charts. [-]

    Returns
    -------
    float or array, shape (n,)
        Torque at the wrench. [N·m]

    Raises
    ------
    OutOfRange
        When preload is negative, the diameter not above zero, or K outside 0.05 to 0.6.

    References
    ----------
    SAE clamp-load charts (K = 0.15, 0.18, 0.20); Shigley, Mechanical Engineering Design, Table 8-15.

    Examples
    --------
    >>> round(torque_by_nut_factor(10_000.0, 0.006, 0.2), 1)
    12.0
    """
    refuse_if_negative("Preload", preload, "N", "force")
    refuse_unless_positive("Thread diameter", diameter, "mm", "length")
    refuse_outside("Nut factor", factor, 0.05, 0.6, "Dry steel is near 0.20, oiled 0.15.")
    return factor * diameter * preload
