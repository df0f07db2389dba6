"""Gas through an opening: a valve, a leak, the orifice of a tester."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.air import GAS_CONSTANT
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

OF_AIR = 1.4  # [-] ratio of heats
DISCHARGE = 0.6  # [-] effective area of an opening over its own (assumption)


def critical_ratio(heats: float = OF_AIR) -> float:
    """Ratio of pressures below which the flow is as fast as it gets.

    Parameters
    ----------
    heats : float
        Ratio of the heats of the gas. [-]

    Returns
    -------
    float
        (2/(γ + 1))^(γ/(γ − 1)). [-]

    Raises
    ------
    OutOfRange
        When the ratio of heats is not that of a gas.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, appendix C (from memory); any text on gas flow.

    Examples
    --------
    >>> round(critical_ratio(), 4)
    0.5283
    """
    refuse_outside("Ratio of heats", heats, 1.05, 1.7, "Air has 1.4.")
    return float((2 / (heats + 1)) ** (heats / (heats - 1)))


def flow_number(ratio: Quantity, heats: float = OF_AIR) -> Quantity:
    """Flow through an opening without its size: ṁ √(R T)/(A p) against the ratio of pressures.

    Parameters
    ----------
    ratio : float or array, shape (n,)
        Pressure after the opening over pressure before it, absolute, 0 to 1. [-]
    heats : float
        Ratio of the heats of the gas. [-]

    Returns
    -------
    float or array, shape (n,)
        √(2γ/(γ − 1) (r^(2/γ) − r^((γ + 1)/γ))), r not below the critical ratio. [-]

    Raises
    ------
    OutOfRange
        When the ratio is outside 0 to 1.

    Notes
    -----
    The exact law: one that is smoothed near equal pressures reads small leaks wrong.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, appendix C (from memory); any text on gas flow.

    Examples
    --------
    >>> round(float(flow_number(0.4)), 6)
    0.684731
    """
    refuse_outside("Pressure after over pressure before", ratio, 0.0, 1.0, "Gas flows towards the lower pressure.")
    least = critical_ratio(heats)
    held = np.maximum(ratio, least)
    number: Quantity = (2 * heats / (heats - 1) * (held ** (2 / heats) - held ** ((heats + 1) / heats))) ** 0.5
    return number


def mass_flow(
    before: Quantity, temperature: Quantity, after: Quantity, area: Quantity, *, heats: float = OF_AIR
) -> Quantity:
    """Mass of gas through an opening in a second.

    Parameters
    ----------
    before : float or array, shape (n,)
        Pressure before the opening, absolute. [Pa]
    temperature : float or array, shape (n,)
        Of the gas before the opening. [K]
    after : float or array, shape (n,)
        Pressure after it. [Pa]
    area : float or array, shape (n,)
        Effective area: the opening's times its discharge coefficient, near 0.6. [m²]
    heats : float
        Ratio of the heats of the gas. [-]

    Returns
    -------
    float or array, shape (n,)
        A p/√(R T) times the flow number. [kg/s]

    Raises
    ------
    OutOfRange
        When a pressure or the temperature is not above zero, or the gas would flow the other way.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, appendix C (from memory); any text on gas flow.

    Examples
    --------
    >>> round(float(mass_flow(100e3, 293.15, 40e3, 1e-6)) * 1e3, 4)
    0.236
    """
    refuse_unless_positive("Pressure before the opening", before, "kPa", "pressure")
    refuse_unless_positive("Pressure after the opening", after, "kPa", "pressure")
    refuse_unless_positive("Temperature of the gas", temperature, "K", "temperature")
    refuse_if_negative("Area of the opening", area, "mm²", "area")
    flow: Quantity = area * before / (GAS_CONSTANT * temperature) ** 0.5 * flow_number(after / before, heats)
    return flow


def curtain_area(across: Quantity, lift: Quantity) -> Quantity:
    """Effective area between a lifted valve and its seat.

    Parameters
    ----------
    across : float or array, shape (n,)
        The valve's head. [m]
    lift : float or array, shape (n,)
        Off its seat. [m]

    Returns
    -------
    float or array, shape (n,)
        0.6 π d L. [m²]

    Raises
    ------
    OutOfRange
        When the head is not above zero, or the lift below it.

    References
    ----------
    The cylinder between head and seat; 0.6 of it is an assumption.

    Examples
    --------
    >>> round(curtain_area(0.021, 0.4e-3) * 1e6, 2)
    15.83
    """
    refuse_unless_positive("Head of the valve", across, "mm", "length")
    refuse_if_negative("Lift of the valve", lift, "mm", "length")
    area: Quantity = DISCHARGE * np.pi * across * lift
    return area
