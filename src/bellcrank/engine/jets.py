"""Main jet and mixture where the air is thinner or warmer than where the jet was chosen."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])


def richness_factor(density: Quantity, chosen_at: float) -> Quantity:
    """How much richer one and the same jet runs in other air.

    Parameters
    ----------
    density : float or array, shape (n,)
        Of the air it runs in. [kg/m³]
    chosen_at : float
        Of the air the jet was right in. [kg/m³]

    Returns
    -------
    float or array, shape (n,)
        √(ρ0/ρ): above one is richer. [-]

    Raises
    ------
    OutOfRange
        When a density is not above zero.

    Notes
    -----
    The engine draws the same volume; the pull on the fuel goes with the density of the air, so fuel over air goes with
    1/√ρ. Idle circuit, fixed air bleeds and compressibility are left out.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, chapter 7, carburettors (from memory).

    Examples
    --------
    >>> round(richness_factor(1.1117, 1.2250), 4)
    1.0497
    """
    _refuse_wrong_air(density, chosen_at)
    factor: Quantity = (chosen_at / density) ** 0.5
    return factor


def jet_area_factor(density: Quantity, chosen_at: float) -> Quantity:
    """Area of the jet that gives the old mixture in other air, over the area of the old jet.

    Parameters
    ----------
    density : float or array, shape (n,)
        Of the air it runs in. [kg/m³]
    chosen_at : float
        Of the air the old jet was right in. [kg/m³]

    Returns
    -------
    float or array, shape (n,)
        √(ρ/ρ0). [-]

    Raises
    ------
    OutOfRange
        When a density is not above zero.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, chapter 7, carburettors (from memory).

    Examples
    --------
    >>> round(jet_area_factor(1.1117, 1.2250), 3)
    0.953
    """
    _refuse_wrong_air(density, chosen_at)
    factor: Quantity = (density / chosen_at) ** 0.5
    return factor


def jet_diameter(old: Quantity, density: Quantity, chosen_at: float) -> Quantity:
    """Diameter of the jet that gives the old mixture in other air.

    Parameters
    ----------
    old : float or array, shape (n,)
        Diameter of the old jet. [m]
    density : float or array, shape (n,)
        Of the air it runs in. [kg/m³]
    chosen_at : float
        Of the air the old jet was right in. [kg/m³]

    Returns
    -------
    float or array, shape (n,)
        d0 (ρ/ρ0)^¼. [m]

    Raises
    ------
    OutOfRange
        When a diameter or density is not above zero.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, chapter 7, carburettors (from memory).

    Examples
    --------
    >>> round(jet_diameter(0.70e-3, 1.1117, 1.2250) * 1e3, 3)
    0.683
    """
    refuse_unless_positive("Diameter of the jet", old, "mm", "length")
    diameter: Quantity = old * jet_area_factor(density, chosen_at) ** 0.5
    return diameter


def _refuse_wrong_air(density: Quantity, chosen_at: float) -> None:
    for words, value in (("Density of the air", density), ("Density of the air the jet was chosen in", chosen_at)):
        refuse_unless_positive(words, value, "kg/m³", "density")
