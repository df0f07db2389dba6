"""A key between shaft and hub: what marks it for good, what breaks it, and which of key and keyway gives way first."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Generic

from bellcrank.errors import OutOfRange
from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.keys import LEAST_SHAFT, FittedKey, Quantity, key_torque
from bellcrank.measuring.refusals import refuse_outside

SHEAR_YIELD_SHARE = 0.5  # [-] of the yield strength: greatest shear (Tresca), as Mott takes it for keys
SHEAR_SPREAD = 0.1  # [-] either way: how far one key's shear strength lies from that on record; guess
# [-] over the yield strength: DIN 6892's support factor of a key, which stands free, and of a hub; from memory
KEY_SUPPORT, HUB_SUPPORT = 1.0, 1.5


class GivesWay(StrEnum):
    """What of a keyed joint gives way."""

    SHEAR = "key shears"
    CRUSH = "key is crushed"
    KEYWAY = "keyway breaks"


@dataclass(frozen=True, slots=True)
class Withstood(Generic[Quantity]):
    """Torque one part of a keyed joint withstands. [N·m]"""

    marked: Quantity  # from here on it stays marked
    low: Quantity  # it breaks, at the least
    high: Quantity  # at the most


@dataclass(frozen=True, slots=True)
class KeyCapacity(Generic[Quantity]):
    """Torque one key carries alone, the taper's share left out. [N·m]"""

    shear_ultimate: Quantity  # at the shear strength on record
    shear: Withstood[Quantity]  # the key at the shaft's surface; marked: it is left with a step
    key_side: Withstood[Quantity]  # the key's side in the hub
    hub_side: Withstood[Quantity]  # the side of the hub's keyway

    @property
    def parts(self) -> dict[GivesWay, Withstood[Quantity]]:
        """What may give way, with what it withstands."""
        return {GivesWay.SHEAR: self.shear, GivesWay.CRUSH: self.key_side, GivesWay.KEYWAY: self.hub_side}


@dataclass(frozen=True, slots=True)
class Weakest:
    """A keyed joint as a whole: it is no stronger than the weakest of its parts."""

    low: float  # it gives way, at the least [N·m]
    high: float  # at the most [N·m]
    marked: float  # from here on something stays marked [N·m]
    first: tuple[GivesWay, ...]  # what may go first, the likeliest first; more than one: nobody can tell

    @property
    def only_key(self) -> bool:
        """Whether the key goes before the keyway whatever happens."""
        return GivesWay.KEYWAY not in self.first


def key_capacity(
    key: FittedKey, material: DriveMaterial, shaft_diameter: Quantity, hub: DriveMaterial
) -> KeyCapacity[Quantity]:
    """Torque a single key carries in shear and on its sides, before it stays marked and before it breaks.

    Parameters
    ----------
    key : FittedKey
        What of the key carries. [-]
    material : DriveMaterial
        What the key is made of. [-]
    shaft_diameter : float or array, shape (n,)
        Shaft diameter at the key; on a taper, half way along the key. [m]
    hub : DriveMaterial
        What the hub is made of. [-]

    Returns
    -------
    KeyCapacity
        Torques of shear, of the key's side and of the keyway's in the hub. [N·m]

    Raises
    ------
    OutOfRange
        When the shaft is thinner than two key widths, or no shear strength is on record.

    Notes
    -----
    A key keeps a step from half its yield strength in shear. The metal round a keyway holds its side, which so bears
    more than a bar that is pulled: a hub stays marked from 1.5 times its yield strength, a key, which stands free,
    from once, and either breaks out at 1.5 to 2 times its tensile strength; a brittle hub at once to twice, unmarked
    before. The seat in the shaft is deeper and of steel, and left out; so is the taper.

    References
    ----------
    Mott, Machine Elements in Mechanical Design, equations 11-1 to 11-5; DIN 6892, support factors (from memory);
    MIL-HDBK-5, bearing strengths of aluminium and steel at edge distances 1.5 and 2 (from memory).

    Examples
    --------
    >>> steel = DriveMaterial("steel", "steel", 440e6, 370e6, 265e6, 206e9, 0.3)
    >>> square = FittedKey("5 mm key", 0.005, 0.005 * 0.02, 0.0025 * 0.02)
    >>> capacity = key_capacity(square, steel, 0.016, steel)
    >>> round(capacity.shear.marked, 1), round(capacity.key_side.marked, 1), round(capacity.hub_side.low, 1)
    (148.0, 148.0, 264.0)
    """
    share = shaft_diameter / key.width
    refuse_outside("Shaft diameter over key width", share, LEAST_SHAFT, 100, "Measure shaft and key again.")
    shear = key_torque(key.shear_area, _shear_strength(material), shaft_diameter)
    step = SHEAR_YIELD_SHARE * material.side_marked(KEY_SUPPORT)
    return KeyCapacity(
        shear_ultimate=shear,
        shear=Withstood(
            key_torque(key.shear_area, step, shaft_diameter), (1 - SHEAR_SPREAD) * shear, (1 + SHEAR_SPREAD) * shear
        ),
        key_side=_side(key, material, KEY_SUPPORT, shaft_diameter),
        hub_side=_side(key, hub, HUB_SUPPORT, shaft_diameter),
    )


def weakest(carries: KeyCapacity[float]) -> Weakest:
    """Give when a keyed joint gives way, and what of it may go first.

    Parameters
    ----------
    carries : KeyCapacity
        What its parts withstand. [N·m]

    Returns
    -------
    Weakest
        Least and most torque, and every part whose range begins before another's has surely ended. [N·m]

    References
    ----------
    A chain is as strong as its weakest link (own comparison of ranges).

    Examples
    --------
    >>> zinc = KeyCapacity(175.0, Withstood(91.0, 158.0, 193.0), Withstood(94.0, 180.0, 241.0),
    ...                    Withstood(102.0, 207.0, 275.0))
    >>> [str(one) for one in weakest(zinc).first]
    ['key shears', 'key is crushed']
    """
    parts = carries.parts
    high = min(one.high for one in parts.values())
    first = sorted((one for one in parts if parts[one].low <= high), key=lambda one: parts[one].low)
    return Weakest(
        low=min(one.low for one in parts.values()),
        high=high,
        marked=min(one.marked for one in parts.values()),
        first=tuple(first),
    )


def _side(key: FittedKey, material: DriveMaterial, support: float, shaft_diameter: Quantity) -> Withstood[Quantity]:
    """What a side withstands on which key and hub press on each other."""
    low, high = material.side_breaks
    marked = material.side_marked(support)
    return Withstood(
        *(key_torque(key.hub_side_area, pressure, shaft_diameter) for pressure in (marked, low, high)),
    )


def _shear_strength(material: DriveMaterial) -> float:
    if material.shear is None:
        raise OutOfRange(
            f"No shear strength is on record for {material.words}, so a key of it is not computed. Choose what the key "
            "is made of: soft zinc, aluminium or key steel."
        )
    return material.shear
