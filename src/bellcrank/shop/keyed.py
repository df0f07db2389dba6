"""Reading a Woodruff or parallel key from what was typed, and what it carries alone."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.errors import NotUnderstood
from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.key_joint import KeyCapacity, Weakest, key_capacity, weakest
from bellcrank.fastening.keys import FittedKey, SizeUnit, find_parallel, find_woodruff
from bellcrank.knowledge.model import Library
from bellcrank.shop.tapers import drive_material_named
from bellcrank.units import read_positive

USUAL_KEY, USUAL_HUB = "key-steel", "cast-aluminium"  # what key and flywheel are made of when nothing is said
WHICH = "Type a Woodruff key, such as 606 or 3/16x3/4, or the length of a parallel one, not both."


@dataclass(frozen=True, slots=True)
class Keyed:
    """A key in its keyway, lengths in m, and what it carries alone in N·m."""

    words: str
    fitted: FittedKey
    shaft: float  # diameter
    shaft_seat: float  # depth of the keyway
    hub_seat: float
    woodruff: bool
    material: DriveMaterial
    hub: DriveMaterial
    carries: KeyCapacity[float]
    source: str  # key of the source of its sizes

    @property
    def weakest(self) -> Weakest:
        """When key and keyway together give way, and which of them first."""
        return weakest(self.carries)


def key_from_words(library: Library, typed: Mapping[str, str]) -> Keyed:
    """Read key (its number or size) or key_length, shaft, inch, key_material and hub_material.

    A parallel key follows from the shaft, by the inch standard where ``inch`` is not empty; no material is key steel in
    cast aluminium.
    """
    return key_on(
        library, typed, read_positive(typed.get("shaft", ""), "length", default="mm", what="Shaft diameter").si
    )


def key_on(library: Library, typed: Mapping[str, str], shaft: float) -> Keyed:
    """Read a key that sits on a shaft of known diameter [m]."""
    number, length = typed.get("key", ""), typed.get("key_length", "")
    if bool(number) == bool(length):
        raise NotUnderstood(f"It is not clear which key is meant. {WHICH}", "key")
    material = drive_material_named(library, typed.get("key_material") or USUAL_KEY, "key_material")
    hub = drive_material_named(library, typed.get("hub_material") or USUAL_HUB, "hub_material")
    if number:
        woodruff = find_woodruff(number, library.woodruff_keys)
        fitted, seats, source = woodruff.fitted(), (woodruff.shaft_seat, woodruff.hub_seat), woodruff.source
    else:
        parallel = find_parallel(
            shaft, library.parallel_keys, SizeUnit.INCH if typed.get("inch") else SizeUnit.MILLIMETRE
        )
        fitted = parallel.fitted(read_positive(length, "length", default="mm", what="Length of the key").si)
        seats, source = (parallel.shaft_seat, parallel.hub_seat), parallel.source
    return Keyed(
        words=f"Woodruff key {fitted.words}" if number else fitted.words,
        fitted=fitted,
        shaft=shaft,
        shaft_seat=seats[0],
        hub_seat=seats[1],
        woodruff=bool(number),
        material=material,
        hub=hub,
        carries=key_capacity(fitted, material, shaft, hub),
        source=source,
    )
