"""Cranking compression at a gauge, in first guess: what the ratio, the height and the gauge's hose make of it."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.piston import CrankDrive
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

# [-] exponent while cranking: low with a slow pull, a leak or a cold wall, high with a quick one in a tight cylinder
LOW_EXPONENT, HIGH_EXPONENT = 1.20, 1.33  # from memory
LEAST_EXPONENT, MOST_EXPONENT = 1.0, 1.4  # [-] all heat lost; none


def trapped_ratio(drive: CrankDrive, intake_closes: float, hose_volume: float = 0.0) -> float:
    """Volume when the intake valve closes over the least volume, the gauge's hose counted with both.

    Parameters
    ----------
    drive : CrankDrive
        Bore, stroke, rod and compression. [m]
    intake_closes : float
        Crank angle before firing top dead centre, below zero. [rad]
    hose_volume : float
        Between plug hole and the gauge's valve. [m³]

    Returns
    -------
    float
        (V + Vh)/(Vc + Vh). [-]

    Raises
    ------
    OutOfRange
        When the valve closes outside the compression stroke, or the hose is below zero.

    Notes
    -----
    A valve at the plug's end keeps the hose out of it: put zero then.

    References
    ----------
    Ratio of volumes (own derivation).

    Examples
    --------
    >>> import math
    >>> drive = CrankDrive(bore=0.065, stroke=0.057, rod=0.1, compression=8.5)
    >>> round(trapped_ratio(drive, math.radians(-130)), 2)
    7.48
    """
    refuse_outside("Intake closes at, in radians from the top", intake_closes, -np.pi, 0.0, "Look at the cam's data.")
    refuse_if_negative("Volume of the hose", hose_volume, "cm³", "volume")
    return float((drive.volume(intake_closes) + hose_volume) / (drive.clearance_volume + hose_volume))


def cranking_pressure(ambient: Quantity, ratio: float, exponent: float) -> Quantity:
    """Pressure at the top while cranking.

    Parameters
    ----------
    ambient : float or array, shape (n,)
        Pressure of the air, absolute. [Pa]
    ratio : float
        The trapped ratio of volumes. [-]
    exponent : float
        Of the compression: 1.20 slow, leaky or cold to 1.33 quick and tight. [-]

    Returns
    -------
    float or array, shape (n,)
        p (V/Vc)^n − p, over the air around. [Pa]

    Raises
    ------
    OutOfRange
        When the ratio is outside 1 to 13, or the exponent outside 1 to 1.4.

    Notes
    -----
    A first guess, sure to a third; ratios and trends hold better. A compression release takes off far more.

    References
    ----------
    Polytropic compression (any text on engines); the exponents from memory.

    Examples
    --------
    >>> from bellcrank.units import convert
    >>> round(convert(cranking_pressure(101325.0, 7.48, 1.27), "psi", "pressure"))
    175
    """
    refuse_unless_positive("Pressure of the air", ambient, "kPa", "pressure")
    refuse_outside("Trapped compression ratio", ratio, 1.0, 13.0, "Look at the engine's data.")
    refuse_outside("Exponent of the compression", exponent, LEAST_EXPONENT, MOST_EXPONENT, "Use 1.20 to 1.33.")
    pressure: Quantity = ambient * (ratio**exponent - 1)
    return pressure
