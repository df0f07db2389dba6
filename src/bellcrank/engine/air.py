"""Air: the standard atmosphere by height, and density from pressure and temperature."""

from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.units import to_si

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

# Constants of ISO 2533 / ICAO Doc 7488: the standard atmosphere is defined by them
SEA_LEVEL_PRESSURE = 101_325.0  # [Pa]
SEA_LEVEL_TEMPERATURE = 288.15  # [K]
LAPSE = 0.0065  # [K/m]
EARTH_RADIUS = 6_356_766.0  # [m]
GAS_CONSTANT = 287.05287  # [J/(kg·K)]
EXPONENT = 9.80665 / (GAS_CONSTANT * LAPSE)  # [-]
SEA_LEVEL_DENSITY = SEA_LEVEL_PRESSURE / (GAS_CONSTANT * SEA_LEVEL_TEMPERATURE)  # [kg/m³]

LOWEST, HIGHEST = -500.0, 5000.0  # [m] where people live and work
COLDEST, HOTTEST = to_si(-40, "°C", "temperature"), to_si(55, "°C", "temperature")


@dataclass(frozen=True, slots=True)
class Air(Generic[Quantity]):
    """Air as it goes into the engine."""

    pressure: Quantity  # [Pa]
    temperature: Quantity  # [K]
    density: Quantity  # [kg/m³]


def standard_air(height: Quantity) -> Air[Quantity]:
    """Air of the standard atmosphere at a height above the sea.

    Parameters
    ----------
    height : float or array, shape (n,)
        Height above the sea, as a map gives it. [m]

    Returns
    -------
    Air
        Pressure, temperature and density. [Pa, K, kg/m³]

    Raises
    ------
    OutOfRange
        When the height is under -500 m or over 5000 m.

    Notes
    -----
    H = r z/(r + z); T = 288.15 − 0.0065 H; p = 101325 (T/288.15)^5.25588; ρ = p/(R T).

    References
    ----------
    ISO 2533:1975, ICAO Doc 7488/3: standard atmosphere.

    Examples
    --------
    >>> round(standard_air(1000.0).pressure), round(standard_air(1000.0).density, 5)
    (89876, 1.11166)
    """
    refuse_outside("Height above the sea in metres", height, LOWEST, HIGHEST, "Look it up on a map.")
    geopotential = EARTH_RADIUS * height / (EARTH_RADIUS + height)
    temperature = SEA_LEVEL_TEMPERATURE - LAPSE * geopotential
    pressure = SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** EXPONENT
    return Air(pressure, temperature, air_density(pressure, temperature))


def air_density(pressure: Quantity, temperature: Quantity) -> Quantity:
    """Density of dry air.

    Parameters
    ----------
    pressure : float or array, shape (n,)
        Of the air, absolute. [Pa]
    temperature : float or array, shape (n,)
        Of the air. [K]

    Returns
    -------
    float or array, shape (n,)
        ρ = p/(R T). [kg/m³]

    Raises
    ------
    OutOfRange
        When the pressure is not above zero, or the temperature outside -40 to 55 °C.

    References
    ----------
    Ideal gas; R of ISO 2533:1975.

    Examples
    --------
    >>> round(air_density(101325.0, 288.15), 4)
    1.225
    """
    refuse_unless_positive("Pressure of the air", pressure, "kPa", "pressure")
    refuse_outside("Temperature of the air in kelvin", temperature, COLDEST, HOTTEST, "Read the thermometer again.")
    density: Quantity = pressure / (GAS_CONSTANT * temperature)
    return density
