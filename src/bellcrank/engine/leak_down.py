"""Differential leak-down: air through the tester's orifice into the cylinder and out by its leaks, both ways round."""

import math

from bellcrank.engine.air import SEA_LEVEL_PRESSURE
from bellcrank.engine.flow import flow_number
from bellcrank.errors import OutOfRange
from bellcrank.measuring.refusals import refuse_unless_positive
from bellcrank.units import show, to_si

# FAA AC 43.13-1B, paragraph 8-14, for bores under 5 in: 0.040 in across; 80 psi on the supply gauge
USUAL_ORIFICE = math.pi / 4 * to_si(0.040, "in", "length") ** 2  # [m²]
USUAL_SUPPLY = to_si(80, "psi", "pressure")  # over the air around [Pa]
HALVINGS = 80  # a bracket halved so often is narrower than a float can tell


def leak_area(
    reading: float,
    *,
    supply: float = USUAL_SUPPLY,
    orifice: float = USUAL_ORIFICE,
    ambient: float = SEA_LEVEL_PRESSURE,
) -> float:
    """Area of all leaks together from a leak-down reading.

    Parameters
    ----------
    reading : float
        Pressure in the cylinder, over the air around. [Pa]
    supply : float
        Pressure before the orifice, over the air around. [Pa]
    orifice : float
        Area of the tester's orifice. [m²]
    ambient : float
        Pressure of the air around, absolute. [Pa]

    Returns
    -------
    float
        Effective area of the leaks, with the orifice's own discharge coefficient. [m²]

    Raises
    ------
    OutOfRange
        When the reading is not between zero and the supply, or something else is not above zero.

    Notes
    -----
    The same air flows through both, one after the other: A_leak = A_orifice p_s ψ(p_c/p_s)/(p_c ψ(p_a/p_c)), with the
    flow number ψ. A percentage depends on the orifice, this area does not: keep the orifice with the reading.

    References
    ----------
    FAA AC 43.13-1B, chapter 8, paragraph 8-14 (the test); steady flow through two openings (own derivation).

    Examples
    --------
    >>> round(leak_area(to_si(33.29, "psi", "pressure")) * 1e6, 2)
    1.6
    """
    _refuse_wrong_tester(supply, orifice, ambient)
    refuse_unless_positive("Leak-down reading", reading, "psi", "pressure")
    if reading >= supply:
        raise OutOfRange(
            f"Leak-down reading is {show(reading, 'psi', 'pressure')}; it must be under the supply of "
            f"{show(supply, 'psi', 'pressure')}. Read both gauges again; with both alike there is no leak to find."
        )
    before, inside = ambient + supply, ambient + reading
    return float(orifice * before * flow_number(inside / before) / (inside * flow_number(ambient / inside)))


def leak_down_reading(
    leak: float,
    *,
    supply: float = USUAL_SUPPLY,
    orifice: float = USUAL_ORIFICE,
    ambient: float = SEA_LEVEL_PRESSURE,
) -> float:
    """Reading that leaks of a given area give.

    Parameters
    ----------
    leak : float
        Effective area of all leaks. [m²]
    supply : float
        Pressure before the orifice, over the air around. [Pa]
    orifice : float
        Area of the tester's orifice. [m²]
    ambient : float
        Pressure of the air around, absolute. [Pa]

    Returns
    -------
    float
        Pressure in the cylinder, over the air around. [Pa]

    Raises
    ------
    OutOfRange
        When an area or pressure is not above zero.

    References
    ----------
    FAA AC 43.13-1B, chapter 8, paragraph 8-14 (the test); steady flow through two openings (own derivation).

    Examples
    --------
    >>> from bellcrank.units import convert
    >>> round(convert(leak_down_reading(1.6e-6), "psi", "pressure"), 2)
    33.29
    """
    _refuse_wrong_tester(supply, orifice, ambient)
    refuse_unless_positive("Area of the leaks", leak, "mm²", "area")
    before, low, high = ambient + supply, ambient, ambient + supply
    for _ in range(HALVINGS):
        inside = (low + high) / 2
        comes = orifice * before * flow_number(inside / before)
        goes = leak * inside * flow_number(ambient / inside)
        low, high = (inside, high) if comes > goes else (low, inside)
    return (low + high) / 2 - ambient


def _refuse_wrong_tester(supply: float, orifice: float, ambient: float) -> None:
    refuse_unless_positive("Supply of the tester", supply, "psi", "pressure")
    refuse_unless_positive("Orifice of the tester", orifice, "mm²", "area")
    refuse_unless_positive("Pressure of the air", ambient, "kPa", "pressure")
