"""Pressure under a head: what presses, what the face takes."""

import math
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.fastening.heads import Face
from bellcrank.fastening.strength import Material
from bellcrank.measuring.refusals import refuse_if_negative, refuse_unless_positive

Quantity = TypeVar("Quantity", float, NDArray[np.float64])


@dataclass(frozen=True, slots=True)
class HeadPressure:
    """A face under load. Pressures in [Pa]."""

    pressure: float
    limit: float
    ok: bool
    most_force: float  # at which the face gives way [N]


def face_pressure(force: Quantity, *, bearing_diameter: float, hole_diameter: float) -> Quantity:
    """Pressure of a head on the face under it.

    Parameters
    ----------
    force : float or array, shape (n,)
        Clamp. [N]
    bearing_diameter : float
        Outside diameter of the face under the head. [m]
    hole_diameter : float
        Diameter of the clearance hole, its chamfer included. [m]

    Returns
    -------
    float or array, shape (n,)
        Pressure, taken as even. [Pa]

    Raises
    ------
    OutOfRange
        When the force is negative or the face no larger than its hole.

    References
    ----------
    VDI 2230:2003, pressure under the head, p = F/A_p, A_p = π/4 (dw² − dh²).

    Examples
    --------
    >>> round(face_pressure(10_200.0, bearing_diameter=0.00888, hole_diameter=0.0066) / 1e6, 0)
    368.0
    """
    refuse_if_negative("Clamp", force, "N", "force")
    refuse_unless_positive("Diameter of the face under the head", bearing_diameter, "mm", "length")
    refuse_unless_positive("Diameter of the hole under the head", hole_diameter, "mm", "length")
    refuse_unless_positive("Width of the face around the hole", bearing_diameter - hole_diameter, "mm", "length")
    return force / (math.pi / 4 * (bearing_diameter**2 - hole_diameter**2))


def head_pressure(force: float, face: Face, material: Material) -> HeadPressure:
    """Judge a clamp [N] by the pressure the face under the head takes.

    References
    ----------
    VDI 2230:2003, limit pressures under the head (packs/common/materials.csv).
    """
    if material.bearing is None:
        raise OutOfRange(
            f"No pressure limit is on record for {material.words} under a head; it must be a metal with one. Put a "
            "steel washer under the head and choose steel."
        )
    pressure = face_pressure(force, bearing_diameter=face.bearing_diameter, hole_diameter=face.hole_diameter)
    return HeadPressure(
        pressure=pressure,
        limit=material.bearing,
        ok=pressure <= material.bearing,
        most_force=material.bearing * face.area,
    )
