"""What a pressed or tapered hub feels: stress at the bore, interference, and how far it creeps up the taper."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.measuring.refusals import refuse_if_negative, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])


@dataclass(frozen=True, slots=True)
class Hub:
    """The hub on a taper and the solid shaft it sits on."""

    outside_diameter: float  # of the boss round the taper [m]
    material: DriveMaterial
    shaft: DriveMaterial


def hub_hoop_stress(pressure: Quantity, bore_diameter: float, outside_diameter: float) -> Quantity:
    """Pull round the bore of a hub under pressure from its shaft.

    Parameters
    ----------
    pressure : float or array, shape (n,)
        Pressure between shaft and hub. [Pa]
    bore_diameter : float
        Diameter of the bore; of a taper, the mean one. [m]
    outside_diameter : float
        Outside diameter of the hub. [m]

    Returns
    -------
    float or array, shape (n,)
        Hoop stress at the bore, p (1 + Q²)/(1 − Q²) with Q = bore over outside. [Pa]

    Raises
    ------
    OutOfRange
        When the pressure is negative or the hub has no wall.

    References
    ----------
    Lamé, thick-walled cylinder, inner pressure.

    Examples
    --------
    >>> round(hub_hoop_stress(90.0, 1.0, 2.0), 1)
    150.0
    """
    refuse_if_negative("Pressure on the taper", pressure, "MPa", "pressure")
    squared = _diameter_ratio(bore_diameter, outside_diameter) ** 2
    return pressure * ((1 + squared) / (1 - squared))


def hub_equivalent_stress(pressure: Quantity, bore_diameter: float, outside_diameter: float) -> Quantity:
    """Stress at the bore to hold against the yield strength of the hub.

    Parameters
    ----------
    pressure : float or array, shape (n,)
        Pressure between shaft and hub. [Pa]
    bore_diameter : float
        Diameter of the bore; of a taper, the mean one. [m]
    outside_diameter : float
        Outside diameter of the hub. [m]

    Returns
    -------
    float or array, shape (n,)
        Equivalent stress after Tresca, 2 p/(1 − Q²): hoop stress and pressure together. [Pa]

    Raises
    ------
    OutOfRange
        When the pressure is negative or the hub has no wall.

    References
    ----------
    Lamé, thick-walled cylinder; Tresca, greatest shear.

    Examples
    --------
    >>> round(hub_equivalent_stress(90.0, 1.0, 2.0), 1)
    240.0
    """
    refuse_if_negative("Pressure on the taper", pressure, "MPa", "pressure")
    return 2 * pressure / (1 - _diameter_ratio(bore_diameter, outside_diameter) ** 2)


def hub_compliance(bore_diameter: float, outside_diameter: float, modulus: float, poisson: float) -> float:
    """Widening of a hub's bore, as a share of it, for each unit of pressure.

    Parameters
    ----------
    bore_diameter : float
        Diameter of the bore; of a taper, the mean one. [m]
    outside_diameter : float
        Outside diameter of the hub. [m]
    modulus : float
        Young's modulus of the hub. [Pa]
    poisson : float
        Poisson's ratio of the hub. [-]

    Returns
    -------
    float
        Kh = [(1 + Q²)/(1 − Q²) + ν]/E. [1/Pa]

    Raises
    ------
    OutOfRange
        When the modulus is not above zero or the hub has no wall.

    References
    ----------
    Niemann/Winter/Höhn, Maschinenelemente 1, strain influence factor of the hub.

    Examples
    --------
    >>> round(hub_compliance(1.0, 2.0, 100e9, 0.3) * 1e12, 2)
    19.67
    """
    refuse_unless_positive("Modulus of the hub", modulus, "MPa", "pressure")
    return (hub_hoop_stress(1.0, bore_diameter, outside_diameter) + poisson) / modulus


def shaft_compliance(modulus: float, poisson: float) -> float:
    """Narrowing of a solid shaft, as a share of its diameter, for each unit of pressure.

    Parameters
    ----------
    modulus : float
        Young's modulus of the shaft. [Pa]
    poisson : float
        Poisson's ratio of the shaft. [-]

    Returns
    -------
    float
        Ks = (1 − ν)/E. [1/Pa]

    Raises
    ------
    OutOfRange
        When the modulus is not above zero.

    References
    ----------
    Niemann/Winter/Höhn, Maschinenelemente 1, strain influence factor of the shaft.

    Examples
    --------
    >>> round(shaft_compliance(210e9, 0.3) * 1e12, 3)
    3.333
    """
    refuse_unless_positive("Modulus of the shaft", modulus, "MPa", "pressure")
    return (1 - poisson) / modulus


def interference(pressure: Quantity, bore_diameter: float, hub: Hub) -> Quantity:
    """Difference of diameters that a pressure between shaft and hub takes up.

    Parameters
    ----------
    pressure : float or array, shape (n,)
        Pressure between shaft and hub. [Pa]
    bore_diameter : float
        Diameter of the bore; of a taper, the mean one. [m]
    hub : Hub
        Outside diameter of the hub, its material and the shaft's. [-]

    Returns
    -------
    float or array, shape (n,)
        Interference in diameter δ = p D (Kh + Ks), without the smoothing of rough faces. [m]

    Raises
    ------
    OutOfRange
        When the pressure is negative or the hub has no wall.

    References
    ----------
    Niemann/Winter/Höhn, Maschinenelemente 1, working interference of a press connection.

    Examples
    --------
    >>> from bellcrank.fastening.drive_materials import DriveMaterial
    >>> steel = DriveMaterial("steel", "steel", 690e6, 440e6, None, 210e9, 0.3)
    >>> round(interference(112.5e6, 0.0515, Hub(0.094, steel, steel)) * 1e6)
    79
    """
    refuse_if_negative("Pressure on the taper", pressure, "MPa", "pressure")
    widening = hub_compliance(bore_diameter, hub.outside_diameter, hub.material.modulus, hub.material.poisson)
    return pressure * (bore_diameter * (widening + shaft_compliance(hub.shaft.modulus, hub.shaft.poisson)))


def _diameter_ratio(bore_diameter: float, outside_diameter: float) -> float:
    refuse_unless_positive("Bore of the hub", bore_diameter, "mm", "length")
    refuse_unless_positive("Wall of the hub round the bore", outside_diameter - bore_diameter, "mm", "length")
    return bore_diameter / outside_diameter
