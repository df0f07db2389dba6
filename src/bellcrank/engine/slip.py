"""How far a flywheel has slipped on its taper, from what can be measured, and what early and late mean.

Slip is the flywheel's place on the crank against where its key holds it. Negative: forward in the sense of rotation,
the magnet comes early, the spark is early. Positive: back, the spark is late.
"""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

TURN = 2 * np.pi  # [rad]


def slip_from_rim(arc: Quantity, rim_radius: float) -> Quantity:
    """Slip from the way at the flywheel's rim between where the magnet stands and where it should.

    Parameters
    ----------
    arc : float or array, shape (n,)
        Along the rim with the piston at top dead centre; negative when the magnet is past its place. [m]
    rim_radius : float
        Of the rim. [m]

    Returns
    -------
    float or array, shape (n,)
        Slip, arc over radius. [rad]

    Raises
    ------
    OutOfRange
        When the radius is not above zero, or the arc longer than half the rim.

    Notes
    -----
    At a rim of 100 mm a degree is 1.75 mm; at the key it is a fifth of a millimetre. Measure at the rim.

    References
    ----------
    Arc of a circle.

    Examples
    --------
    >>> import math
    >>> round(math.degrees(slip_from_rim(-0.105, 0.100)), 1)
    -60.2
    """
    refuse_unless_positive("Radius of the rim", rim_radius, "mm", "length")
    share = arc / rim_radius
    refuse_outside("Arc over radius of the rim", share, -np.pi, np.pi, "Measure the shorter way round.")
    return share


def slip_from_key(offset: Quantity, shaft_radius: float) -> Quantity:
    """Slip from how far the two halves of the keyway stand apart.

    Parameters
    ----------
    offset : float or array, shape (n,)
        Between the same edges of crank's and flywheel's keyway; negative when the flywheel's is forward. [m]
    shaft_radius : float
        Of the shaft at the key. [m]

    Returns
    -------
    float or array, shape (n,)
        Slip, 2 arcsin(offset/2r): the offset is measured straight across. [rad]

    Raises
    ------
    OutOfRange
        When the radius is not above zero, or the offset wider than the shaft.

    References
    ----------
    Chord of a circle.

    Examples
    --------
    >>> import math
    >>> round(math.degrees(slip_from_key(-0.00238, 0.011)), 1)
    -12.4
    """
    refuse_unless_positive("Radius of the shaft", shaft_radius, "mm", "length")
    share = offset / (2 * shaft_radius)
    refuse_outside("Offset over diameter of the shaft", share, -1.0, 1.0, "Measure both again.")
    slip: Quantity = 2 * np.arcsin(share)
    return slip


def same_place(slip: float) -> float:
    """Give the slip the other way round that puts the flywheel in the same place.

    Parameters
    ----------
    slip : float
        Below zero early, above late. [rad]

    Returns
    -------
    float
        A turn more or less: forward by 270° and back by 90° are the same place. [rad]

    Raises
    ------
    OutOfRange
        When the slip is more than a turn.

    References
    ----------
    A turn is 2π.

    Examples
    --------
    >>> import math
    >>> round(math.degrees(same_place(math.radians(-270)))), round(math.degrees(same_place(math.radians(60))))
    (90, -300)
    """
    refuse_outside("Slip in radians", slip, -TURN, TURN, "A whole turn is none.")
    return slip + TURN if slip < 0 else slip - TURN


def shortest(slip: float) -> float:
    """Give a slip within half a turn either way.

    Parameters
    ----------
    slip : float
        Below zero early, above late. [rad]

    Returns
    -------
    float
        The same place, from -π up to π. [rad]

    References
    ----------
    A turn is 2π.

    Examples
    --------
    >>> import math
    >>> round(math.degrees(shortest(math.radians(-270))))
    90
    """
    return float((slip + np.pi) % TURN - np.pi)


def slip_words(slip: float) -> str:
    """Say a slip in words: how many degrees early or late.

    >>> import math
    >>> slip_words(math.radians(-60)), slip_words(math.radians(25)), slip_words(0.0)
    ('60° early', '25° late', 'where it belongs')
    """
    degrees = round(abs(float(np.degrees(slip))))
    if degrees % 360 == 0:
        return "where it belongs"
    return f"{degrees}° {'early' if slip < 0 else 'late'}"
