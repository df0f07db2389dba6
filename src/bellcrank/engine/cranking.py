"""Cranking compression with holes: what leaks and a compression release take from a gauge's reading."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.air import GAS_CONSTANT
from bellcrank.engine.compression import LEAST_EXPONENT, MOST_EXPONENT, cranking_pressure, trapped_ratio
from bellcrank.engine.flow import flow_number
from bellcrank.engine.piston import CrankDrive
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

STEPS = 260  # from the closing of the intake valve to the top: half a degree each
SLOWEST, FASTEST = 5.0, 150.0  # [rad/s] of a crank turned by hand or starter
WARM = 300.0  # [K] of the charge when the valve closes (assumption)


@dataclass(frozen=True, slots=True)
class Cranked:
    """A cylinder turned without fire, and where its charge gets out. SI; angles before firing top are below zero."""

    drive: CrankDrive
    intake_closes: float  # [rad]
    speed: float  # [rad/s]
    leak: float = 0.0  # effective area of rings and valves [m²]
    release: float = 0.0  # effective area the release holds open until ... [m²]
    release_until: float = 0.0  # [rad]
    hose: float = 0.0  # between plug hole and the gauge's valve [m³]

    def __post_init__(self) -> None:
        """Refuse what cannot be."""
        refuse_outside(
            "Cranking speed in rad/s", self.speed, SLOWEST, FASTEST, "By cord an engine turns 300 to 700 rpm."
        )
        refuse_if_negative("Area of the leaks", self.leak, "mm²", "area")
        refuse_if_negative("Area of the release", self.release, "mm²", "area")
        refuse_if_negative("Volume of the hose", self.hose, "cm³", "volume")


def cranking_reading(cranked: Cranked, ambient: float, exponent: float) -> float:
    """Highest pressure of one compression stroke while cranking, charge lost through leaks and release counted.

    Parameters
    ----------
    cranked : Cranked
        The cylinder, its speed and its holes. [-]
    ambient : float
        Pressure of the air, absolute. [Pa]
    exponent : float
        Of the compression: 1.20 slow or cold to 1.33 quick. [-]

    Returns
    -------
    float
        Over the air around. [Pa]

    Raises
    ------
    OutOfRange
        When the air's pressure is not above zero, or the exponent outside 1 to 1.4.

    Notes
    -----
    p = p₀ (m/m₀ · V₀/V)^n from the closing of the intake valve on; the mass goes out by the exact flow law, stepped by
    the fourth order of Runge and Kutta in crank angle. One stroke: a gauge with a check valve comes up over several.
    The reading is in proportion to the pressure of the air.

    References
    ----------
    Polytropic compression and the flow of :func:`bellcrank.engine.flow.mass_flow` (own derivation).

    Examples
    --------
    >>> drive = CrankDrive(bore=0.065, stroke=0.057, rod=0.1, compression=8.5)
    >>> tight = Cranked(drive, math.radians(-130), speed=40.0)
    >>> leaky = Cranked(drive, math.radians(-130), speed=40.0, leak=1.6e-6)
    >>> round(cranking_reading(tight, 101325.0, 1.27) / 6894.76), cranking_reading(leaky, 101325.0, 1.27) < 1e6
    (174, True)
    """
    refuse_unless_positive("Pressure of the air", ambient, "kPa", "pressure")
    refuse_outside("Exponent of the compression", exponent, LEAST_EXPONENT, MOST_EXPONENT, "Use 1.20 to 1.33.")
    if cranked.leak == 0 and cranked.release == 0:
        ratio = trapped_ratio(cranked.drive, cranked.intake_closes, cranked.hose)
        return cranking_pressure(ambient, ratio, exponent)
    angles, step = np.linspace(cranked.intake_closes, 0.0, STEPS + 1, retstep=True)
    middles = angles[:-1] + step / 2
    squeezed = _squeezed(cranked, angles), _squeezed(cranked, middles)
    mass, most = 1.0, ambient
    for i in range(STEPS):
        first = _lost(cranked, ambient, exponent, mass, squeezed[0][i], angles[i])
        second = _lost(cranked, ambient, exponent, mass + step / 2 * first, squeezed[1][i], middles[i])
        third = _lost(cranked, ambient, exponent, mass + step / 2 * second, squeezed[1][i], middles[i])
        fourth = _lost(cranked, ambient, exponent, mass + step * third, squeezed[0][i + 1], angles[i + 1])
        mass += step / 6 * (first + 2 * second + 2 * third + fourth)
        most = max(most, ambient * (mass * float(squeezed[0][i + 1])) ** exponent)
    return float(most - ambient)


def _squeezed(cranked: Cranked, angles: NDArray[np.float64]) -> list[float]:
    """Give volume when the valve closes over volume, the hose counted with both."""
    start = float(cranked.drive.volume(cranked.intake_closes)) + cranked.hose
    return [float(start / (one + cranked.hose)) for one in cranked.drive.volume(angles)]


def _lost(cranked: Cranked, ambient: float, exponent: float, mass: float, squeezed: float, angle: float) -> float:
    """Give the change of the charge's mass with crank angle, over its mass at the start [1/rad]."""
    area = cranked.leak + (cranked.release if angle < cranked.release_until else 0.0)
    density = mass * squeezed
    pressure = ambient * density**exponent
    if area == 0 or pressure <= ambient:
        return 0.0
    temperature = WARM * density ** (exponent - 1)
    flow = area * pressure / math.sqrt(GAS_CONSTANT * temperature) * float(flow_number(ambient / pressure))
    start = ambient * (float(cranked.drive.volume(cranked.intake_closes)) + cranked.hose) / (GAS_CONSTANT * WARM)
    return float(-flow / cranked.speed / start)
