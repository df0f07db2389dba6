"""Woodruff and parallel keys: their sizes, found by what is stamped on the bag or by the shaft."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import NotFound, OutOfRange
from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.sources import Basis
from bellcrank.units import show

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

SAME_SIZE = 1e-7  # [m] a shaft typed in the other unit still meets the end of its range
LEAST_SHAFT = 2.0  # [-] shaft diameter over key width; a wider key leaves no shaft


class SizeUnit(StrEnum):
    """What the sizes of a standard are printed in."""

    INCH = "in"
    MILLIMETRE = "mm"


@dataclass(frozen=True, slots=True)
class WoodruffKey:
    """A half-moon key and its seats, nominal sizes. [m]"""

    key: str  # "606", or "4x6.5" for a metric one
    size: str  # width x disc diameter in inches, width x height x disc diameter in millimetres
    unit: SizeUnit
    width: float
    disc_diameter: float
    offset: float  # from the centre of the disc down to the flat top
    shaft_seat: float  # depth at the side of the shaft
    hub_seat: float
    basis: Basis
    source: str

    @property
    def height(self) -> float:
        """Height of the key, disc edge to flat top. [m]"""
        return self.disc_diameter / 2 - self.offset

    @property
    def length(self) -> float:
        """Length of the flat top. [m]"""
        return chord(self.disc_diameter, self.height)

    def fitted(self) -> "FittedKey":
        """Give the faces it carries with: shear at the shaft's surface, side of the hub's keyway."""
        at_surface = chord(self.disc_diameter, self.shaft_seat)
        return FittedKey(self.key, self.width, self.width * at_surface, (self.height - self.shaft_seat) * at_surface)


@dataclass(frozen=True, slots=True)
class ParallelKey:
    """A square or rectangular key and its seats for a range of shafts, nominal sizes. [m]"""

    unit: SizeUnit
    over: float  # shaft diameter; included only where no thinner shaft is in the table
    up_to: float  # shaft diameter, included
    width: float
    height: float
    shaft_seat: float  # depth at the side of the key
    hub_seat: float
    basis: Basis
    source: str

    def fitted(self, length: float) -> "FittedKey":
        """Give the faces a key of that length [m] carries with; ends cut square."""
        refuse_unless_positive("Length of the key", length, "mm", "length")
        digits = 1 if self.unit is SizeUnit.MILLIMETRE else 4
        words = f"{show(self.width, self.unit, 'length', digits)} key"
        return FittedKey(words, self.width, self.width * length, (self.height - self.shaft_seat) * length)


@dataclass(frozen=True, slots=True)
class FittedKey:
    """What of a key carries torque."""

    words: str
    width: float  # [m]
    shear_area: float  # at the shaft's surface [m²]
    hub_side_area: float  # on which it presses on the hub's keyway [m²]


def find_woodruff(text: str, keys: Iterable[WoodruffKey]) -> WoodruffKey:
    """Give the Woodruff key with that number or size: “606”, “#606”, “3/16x3/4”, “4x6.5”.

    Raises
    ------
    NotFound
        When there is none such in the table.
    """
    wanted = _plain(text)
    for each in keys:
        if wanted in (each.key, each.size):
            return each
    raise NotFound(
        f"There is no Woodruff key “{text.strip()}” in our table. Type the number, such as 606, or the sizes: width x "
        "diameter in inches, such as 3/16x3/4, or width x height in millimetres, such as 4x6.5."
    )


def find_parallel(
    shaft_diameter: float, keys: Iterable[ParallelKey], unit: SizeUnit = SizeUnit.MILLIMETRE
) -> ParallelKey:
    """Give the parallel key the metric or the inch standard puts in a shaft of that diameter [m].

    Raises
    ------
    OutOfRange
        When the shaft is thinner or thicker than the table.
    """
    refuse_unless_positive("Shaft diameter", shaft_diameter, unit, "length")
    table = sorted((each for each in keys if each.unit is unit), key=lambda each: each.over)
    for each in table:
        if each.over - SAME_SIZE <= shaft_diameter <= each.up_to + SAME_SIZE:
            return each
    thinnest, thickest = show(table[0].over, unit, "length"), show(table[-1].up_to, unit, "length")
    raise OutOfRange(
        f"Shaft diameter is {show(shaft_diameter, unit, 'length')}; our table of keys goes from {thinnest} to "
        f"{thickest}. Measure the key itself."
    )


def chord(disc_diameter: Quantity, depth: Quantity) -> Quantity:
    """Length of a Woodruff key at a depth from the round side.

    Parameters
    ----------
    disc_diameter : float or array, shape (n,)
        Diameter of the disc the key is cut from. [m]
    depth : float or array, shape (n,)
        Depth from the edge of the disc: the key's height for its top, the shaft seat for the shaft's surface. [m]

    Returns
    -------
    float or array, shape (n,)
        Chord 2 √((B/2)² − (B/2 − t)²). [m]

    Raises
    ------
    OutOfRange
        When a size is not above zero, or the seat deeper than half the disc.

    References
    ----------
    ANSI B17.2 and DIN 6888: the printed lengths follow from disc and height by this chord.

    Examples
    --------
    >>> round(chord(16.0, 6.5), 2)
    15.72
    """
    refuse_unless_positive("Diameter of the key's disc", disc_diameter, "mm", "length")
    refuse_unless_positive("Depth of the key", depth, "mm", "length")
    share = depth / disc_diameter
    refuse_outside("Depth of the key over its disc", share, 0.0, 0.5, "A Woodruff key is less than half a disc.")
    length: Quantity = 2 * (depth * (disc_diameter - depth)) ** 0.5
    return length


def key_torque(area: float, stress: float, shaft_diameter: Quantity) -> Quantity:
    """Torque carried by a face of a key at a stress.

    Parameters
    ----------
    area : float
        Shear area, or area of the side that presses. [m²]
    stress : float
        Shear stress, or pressure on the side. [Pa]
    shaft_diameter : float or array, shape (n,)
        Shaft diameter at the key; on a taper, half way along the key. [m]

    Returns
    -------
    float or array, shape (n,)
        Torque: stress x area x d/2. [N·m]

    Raises
    ------
    OutOfRange
        When a number is not above zero.

    References
    ----------
    Mott, Machine Elements in Mechanical Design, equations 11-1 and 11-3: τ = 2T/(d W L), σ = 4T/(d H L).

    Examples
    --------
    >>> round(key_torque(64.8e-6, 214e6, 0.0206), 1)
    142.8
    """
    refuse_unless_positive("Area of the key", area, "mm²", "area")
    refuse_unless_positive("Stress in the key", stress, "MPa", "pressure")
    refuse_unless_positive("Shaft diameter", shaft_diameter, "mm", "length")
    return area * stress * (shaft_diameter / 2)


def _plain(text: str) -> str:
    """Take away what does not matter: signs and words before the number, marks of inches, spaces, the cross."""
    plain = text.casefold().replace("×", "x").replace(",", ".")
    for word in ("woodruff", "key", "no.", "no", "#", "mm", "in", '"', "″", " "):
        plain = plain.replace(word, "")
    return plain
