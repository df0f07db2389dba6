"""Heat and preload: a steel screw in an aluminium head is stretched as the head grows more than it."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.sources import Basis

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

MOST_EXPANSION = 100e-6  # [1/K] no metal reaches it
MOST_CHANGE = 400.0  # [K] beyond it strengths and expansions are no longer those of a cold bench


@dataclass(frozen=True, slots=True)
class Expansion:
    """How a material grows with heat, and how stiff it is."""

    key: str
    words: str
    per_kelvin: float  # [1/K]
    modulus: float  # [Pa]
    basis: Basis
    source: str  # key in the list of sources


def bar_stiffness(area: Quantity, length: Quantity, modulus: float) -> Quantity:
    """Stiffness of a bar in pull, such as a screw by its stress area and clamp length.

    Parameters
    ----------
    area : float or array, shape (n,)
        Cross-section. [m²]
    length : float or array, shape (n,)
        Length that stretches. [m]
    modulus : float
        Modulus of elasticity. [Pa]

    Returns
    -------
    float or array, shape (n,)
        Stiffness. [N/m]

    Raises
    ------
    OutOfRange
        When any of them is not above zero.

    References
    ----------
    Hooke's law, any mechanics handbook: E A/L.

    Examples
    --------
    >>> round(bar_stiffness(20e-6, 0.040, 210e9) / 1e6, 0)
    105.0
    """
    refuse_unless_positive("Cross-section", area, "mm²", "area")
    refuse_unless_positive("Clamp length", length, "mm", "length")
    refuse_unless_positive("Modulus of elasticity", modulus, "MPa", "pressure")
    return modulus * area / length


def thermal_preload_change(
    temperature_change: Quantity,
    *,
    clamp_length: float,
    screw_expansion: float,
    part_expansion: float,
    screw_stiffness: float,
    part_stiffness: float | None = None,
) -> Quantity:
    """Preload that a joint gains as it warms.

    Parameters
    ----------
    temperature_change : float or array, shape (n,)
        Warming of screw and part together; cooling is negative. [K]
    clamp_length : float
        Length between head and thread. [m]
    screw_expansion : float
        Expansion of the screw. [1/K]
    part_expansion : float
        Expansion of what it clamps. [1/K]
    screw_stiffness : float
        Stiffness of the screw. [N/m]
    part_stiffness : float, optional
        Stiffness of what it clamps; without it the part is taken as rigid, and the answer is an upper bound. [N/m]

    Returns
    -------
    float or array, shape (n,)
        Change of preload; negative where the joint loses clamp. [N]

    Raises
    ------
    OutOfRange
        When length or stiffness is not above zero, an expansion outside 0 to 100 µm/(m K), or the change beyond 400 K.

    Notes
    -----
    Derived, from equal lengths of screw and part under the same force:
    ΔF = (αp − αs) L ΔT / (1/ks + 1/kp). No creep, no yielding, one temperature.

    References
    ----------
    Compatibility of two springs in a row; compare NASA-TM-106943 (1995), thermal loads (form from memory).

    Examples
    --------
    >>> change = {"clamp_length": 0.040, "screw_expansion": 12e-6, "part_expansion": 23e-6}
    >>> round(thermal_preload_change(100.0, screw_stiffness=105e6, part_stiffness=315e6, **change))
    3465
    """
    advice = "Steel grows 12e-6, aluminium 23e-6 of its length per kelvin."
    refuse_outside("Change of temperature", temperature_change, -MOST_CHANGE, MOST_CHANGE, "Give it in kelvin.")
    refuse_outside("Expansion of the screw", screw_expansion, 0.0, MOST_EXPANSION, advice)
    refuse_outside("Expansion of the part", part_expansion, 0.0, MOST_EXPANSION, advice)
    refuse_unless_positive("Clamp length", clamp_length, "mm", "length")
    _refuse_limp("Stiffness of the screw", screw_stiffness)
    give = 1 / screw_stiffness
    if part_stiffness is not None:
        _refuse_limp("Stiffness of the part", part_stiffness)
        give += 1 / part_stiffness
    return (part_expansion - screw_expansion) * clamp_length / give * temperature_change


def _refuse_limp(words: str, stiffness: float) -> None:
    refuse_outside(f"{words} in N/m", stiffness, 1.0, 1e15, "Use the area times the modulus over the length.")
