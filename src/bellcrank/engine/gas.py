"""The charge of a petrol engine as a gas: what energy it holds, fresh and burned, and how fast a flame runs in it.

Plain scalar functions without refusals: they are compiled into the pull and called millions of times.
"""

import math

from bellcrank.engine.air import SEA_LEVEL_PRESSURE
from bellcrank.engine.compiled import compiled

COLD = 298.15  # [K] where the energies are counted from
FRESH_CONSTANT, BURNED_CONSTANT = 274.7, 290.6  # [J/(kg·K)] iso-octane and air, nothing left over; Cantera 3.2
# [J/kg] fits of energy against (T - 298.15 K)/1000 to Cantera 3.2, NASA species data: fresh frozen, 250 to 1200 K;
# burned in equilibrium (splitting counted) at 10 atmospheres, 298 to 2900 K. Within 0.6 and 7 kJ/kg.
FRESH_1, FRESH_2, FRESH_3 = 768.12e3, 239.76e3, -37.12e3
BURNED_1, BURNED_2, BURNED_3, BURNED_4 = 702.26e3, 419.95e3, -270.76e3, 77.32e3
HEATING_VALUE = 2.7906e6  # [J] of a kilogram of mixture with nothing left over; Cantera 3.2
FLAME_BEST, FLAME_LEAST, BEST_MIXTURE = 0.305, 0.549, 1.21  # [m/s] Rhodes and Keck for petrol, from memory
ROOM = 298.0  # [K] their reference
MOST_DILUTED = 0.1  # [-] share of the clean flame's speed that is left however much burned gas is in it (assumption)


@compiled
def fresh_energy(temperature: float) -> float:
    """Energy of fresh mixture over that at 298.15 K.

    Parameters
    ----------
    temperature : float
        Of the mixture, 250 to 1200. [K]

    Returns
    -------
    float
        Fit of the third degree. [J/kg]

    References
    ----------
    Cantera 3.2 with NASA species data: iso-octane and air, composition frozen.

    Examples
    --------
    >>> round(fresh_energy(298.15)), round(fresh_energy(600.0) / 1e3)
    (0, 253)
    """
    x = (temperature - COLD) / 1000
    return x * (FRESH_1 + x * (FRESH_2 + x * FRESH_3))


@compiled
def burned_energy(temperature: float) -> float:
    """Energy of burned mixture over that at 298.15 K, what has split up at high temperature counted.

    Parameters
    ----------
    temperature : float
        Of the mixture, 298 to 2900. [K]

    Returns
    -------
    float
        Fit of the fourth degree. [J/kg]

    References
    ----------
    Cantera 3.2 with NASA species data: products of iso-octane and air in equilibrium at 10 atmospheres.

    Examples
    --------
    >>> round(burned_energy(298.15)), round(burned_energy(2000.0) / 1e6, 2)
    (0, 1.73)
    """
    x = (temperature - COLD) / 1000
    return x * (BURNED_1 + x * (BURNED_2 + x * (BURNED_3 + x * BURNED_4)))


@compiled
def fresh_heat(temperature: float) -> float:
    """Heat a kilogram of fresh mixture takes up for a kelvin at constant volume.

    Parameters
    ----------
    temperature : float
        Of the mixture. [K]

    Returns
    -------
    float
        Derivative of the energy. [J/(kg·K)]

    References
    ----------
    As for :func:`fresh_energy`.

    Examples
    --------
    >>> round(fresh_heat(298.15))
    768
    """
    x = (temperature - COLD) / 1000
    return (FRESH_1 + x * (2 * FRESH_2 + x * 3 * FRESH_3)) / 1000


@compiled
def burned_heat(temperature: float) -> float:
    """Heat a kilogram of burned mixture takes up for a kelvin at constant volume.

    Parameters
    ----------
    temperature : float
        Of the mixture. [K]

    Returns
    -------
    float
        Derivative of the energy. [J/(kg·K)]

    References
    ----------
    As for :func:`burned_energy`.

    Examples
    --------
    >>> round(burned_heat(298.15))
    702
    """
    x = (temperature - COLD) / 1000
    return (BURNED_1 + x * (2 * BURNED_2 + x * (3 * BURNED_3 + x * 4 * BURNED_4))) / 1000


@compiled
def flame_speed(mixture: float, temperature: float, pressure: float, burned_share: float) -> float:
    """Speed of a flame without swirl in petrol and air.

    Parameters
    ----------
    mixture : float
        Fuel over what the air can burn: 1 just right, above it rich. [-]
    temperature, pressure : float
        Of the mixture before the flame. [K], [Pa]
    burned_share : float
        Of burned gas left in it. [-]

    Returns
    -------
    float
        Rhodes and Keck's fit. [m/s]

    Notes
    -----
    Fitted from 350 to 550 K and 1 to 8 atmospheres: a cold early spark lies outside.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, section 9.3.4, after Rhodes and Keck, SAE 850047 (from memory).

    Examples
    --------
    >>> round(flame_speed(1.0, 298.0, 101325.0, 0.0), 3)
    0.281
    """
    still = max(0.02, FLAME_BEST - FLAME_LEAST * (mixture - BEST_MIXTURE) ** 2)
    hotter = (temperature / ROOM) ** flame_temperature_power(mixture)
    denser = (pressure / SEA_LEVEL_PRESSURE) ** flame_pressure_power(mixture)
    return float(still * hotter * denser * max(MOST_DILUTED, 1 - 2.06 * max(0.0, burned_share) ** 0.77))


@compiled
def flame_temperature_power(mixture: float) -> float:
    """Power of the temperature in the speed of a flame.

    Parameters
    ----------
    mixture : float
        Fuel over what the air can burn. [-]

    Returns
    -------
    float
        2.4 − 0.271 φ^3.51. [-]

    References
    ----------
    As for :func:`flame_speed`.

    Examples
    --------
    >>> round(flame_temperature_power(1.0), 3)
    2.129
    """
    return float(2.4 - 0.271 * mixture**3.51)


@compiled
def flame_pressure_power(mixture: float) -> float:
    """Power of the pressure in the speed of a flame.

    Parameters
    ----------
    mixture : float
        Fuel over what the air can burn. [-]

    Returns
    -------
    float
        −0.357 + 0.14 φ^2.77. [-]

    References
    ----------
    As for :func:`flame_speed`.

    Examples
    --------
    >>> round(flame_pressure_power(1.0), 3)
    -0.217
    """
    return float(-0.357 + 0.14 * mixture**2.77)


@compiled
def heat_of_mixture(mixture: float) -> float:
    """Heat a kilogram of mixture gives at constant volume, lean or rich.

    Parameters
    ----------
    mixture : float
        Fuel over what the air can burn. [-]

    Returns
    -------
    float
        Of a just right one; less in proportion when lean, and less when rich for want of air. [J/kg]

    References
    ----------
    Cantera 3.2 for the just right one; how it falls off is an assumption.

    Examples
    --------
    >>> round(heat_of_mixture(1.0) / 1e6, 2), round(heat_of_mixture(0.8) / 1e6, 2)
    (2.79, 2.23)
    """
    if mixture <= 1:
        return HEATING_VALUE * mixture
    return HEATING_VALUE * max(0.6, 1 - 0.45 * (mixture - 1))


@compiled
def burn_progress(burned: float) -> float:
    """Progress at which Wiebe's law has burned a share: the inverse of 1 − exp(−5 τ³).

    Parameters
    ----------
    burned : float
        Share burned, 0 to below 1. [-]

    Returns
    -------
    float
        τ. [-]

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, equation 9.7, a = 5, m + 1 = 3 (from memory).

    Examples
    --------
    >>> round(burn_progress(1 - math.exp(-5)), 6)
    1.0
    """
    return float((-math.log(1 - burned) / 5) ** (1 / 3))
