"""The voltage a spark needs across its gap, and the speed from which a magneto gives it."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.air import SEA_LEVEL_PRESSURE
from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.units import to_si

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

ROOM = to_si(20, "°C", "temperature")  # the fit counts density from air at 20 °C and one atmosphere
PER_DENSITY, PER_ROOT = 24.22e3, 6.08e3  # [V/cm], [V/√cm] fit for air in an even field, from memory
CENTIMETRE = 1e-2  # [m]
LEAST_GAP, MOST_GAP = to_si(0.05, "mm", "length"), to_si(20, "mm", "length")  # where the fit is used here
GAP_ADVICE = "Measure it with a wire gauge."


def breakdown_voltage(gap: Quantity, pressure: Quantity, temperature: Quantity) -> Quantity:
    """Voltage at which a spark jumps a gap in air.

    Parameters
    ----------
    gap : float or array, shape (n,)
        Between the electrodes. [m]
    pressure : float or array, shape (n,)
        Of the air in the gap, absolute. [Pa]
    temperature : float or array, shape (n,)
        Of the air in the gap. [K]

    Returns
    -------
    float or array, shape (n,)
        24.22 dδ + 6.08 √(dδ) kV, d in cm, δ the density over that of air at 20 °C and one atmosphere. [V]

    Raises
    ------
    OutOfRange
        When the gap is outside 0.05 to 20 mm, or pressure or temperature not above zero.

    Notes
    -----
    For an even field between round electrodes; sharp worn edges need less, a wide hot plug as well. Another fit in use
    (24.55 and 6.66) gives 4 to 5 % more at plug gaps.

    References
    ----------
    Fit of the Paschen curve of air in an even field (from memory).

    Examples
    --------
    >>> round(breakdown_voltage(0.75e-3, 101325.0, 293.15))
    3482
    """
    refuse_outside("Gap in metres", gap, LEAST_GAP, MOST_GAP, GAP_ADVICE)
    refuse_unless_positive("Pressure in the gap", pressure, "bar", "pressure")
    refuse_unless_positive("Temperature in the gap", temperature, "K", "temperature")
    spans = gap / CENTIMETRE * (pressure / SEA_LEVEL_PRESSURE) * (ROOM / temperature)
    voltage: Quantity = PER_DENSITY * spans + PER_ROOT * spans**0.5
    return voltage


def gap_for_voltage(voltage: Quantity, pressure: Quantity, temperature: Quantity) -> Quantity:
    """Widest gap in air that a voltage jumps.

    Parameters
    ----------
    voltage : float or array, shape (n,)
        There is. [V]
    pressure : float or array, shape (n,)
        Of the air in the gap, absolute. [Pa]
    temperature : float or array, shape (n,)
        Of the air in the gap. [K]

    Returns
    -------
    float or array, shape (n,)
        Gap at which :func:`breakdown_voltage` is that voltage. [m]

    Raises
    ------
    OutOfRange
        When voltage, pressure or temperature is not above zero.

    Notes
    -----
    With s = √(dδ) the fit is 24.22 s² + 6.08 s − U = 0; s is its root above zero. Even field as there.

    References
    ----------
    Fit of the Paschen curve of air in an even field (from memory), solved for the gap.

    Examples
    --------
    >>> round(gap_for_voltage(30.3e3, 101325.0, 293.15) * 1e3, 2)
    10.0
    """
    refuse_unless_positive("Voltage", voltage, "kV", "voltage")
    refuse_unless_positive("Pressure in the gap", pressure, "bar", "pressure")
    refuse_unless_positive("Temperature in the gap", temperature, "K", "temperature")
    root = ((PER_ROOT**2 + 4 * PER_DENSITY * voltage) ** 0.5 - PER_ROOT) / (2 * PER_DENSITY)
    gap: Quantity = root**2 * CENTIMETRE / (pressure / SEA_LEVEL_PRESSURE) / (ROOM / temperature)
    return gap


def lowest_firing_speed(voltage: Quantity, voltage_per_speed: float) -> Quantity:
    """Speed from which a magneto gives a voltage.

    Parameters
    ----------
    voltage : float or array, shape (n,)
        Needed. [V]
    voltage_per_speed : float
        The magneto's peak per crank speed, while it still rises with speed. [V·s/rad]

    Returns
    -------
    float or array, shape (n,)
        U/k. [rad/s]

    Raises
    ------
    OutOfRange
        When the voltage per speed is outside 10 to 5000 V·s/rad.

    References
    ----------
    Induction: the peak rises with speed (own derivation); k is an assumption unless it was measured.

    Examples
    --------
    >>> round(lowest_firing_speed(9500.0, 420.0), 1)
    22.6
    """
    refuse_outside("Voltage needed in volts", voltage, 0.0, 1e6, GAP_ADVICE)
    refuse_outside("Voltage per speed in V·s/rad", voltage_per_speed, 10.0, 5000.0, "Find it with a drill.")
    speed: Quantity = voltage / voltage_per_speed
    return speed
