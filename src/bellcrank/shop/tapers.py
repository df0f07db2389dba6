"""Reading tapers, shafts and what they are made of from what was typed."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bellcrank.both_systems import both_forces
from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.hub_stress import Hub
from bellcrank.fastening.strike import DRY, DRY_NUT, OILED_NUT, OILY
from bellcrank.fastening.taper import TaperSeat, taper_release, taper_seat
from bellcrank.fastening.taper_forces import Taper, nut_force, parse_taper
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.shop.numbers import read_friction
from bellcrank.units import read_positive

CLEAN = 0.15  # [-] friction of a clean taper, from memory; cone tests print 0.15 to 0.20 for dry steel
FRETTED = (0.25, 0.35)  # [-] friction at which a fretted taper breaks out, from memory
WHICH_PUSH = "Type its push, like “25 kN”, or its thread and torque, like 5/8-18 and “60 ft·lb”, not both."


@dataclass(frozen=True, slots=True)
class SeatedTaper:
    """A hub pushed onto its taper: what holds it, what frees it, and what that rests on; forces in N."""

    taper: Taper
    friction: float
    push: float  # of the nut
    seat: TaperSeat[float]
    fretted_low: float  # force that frees it once it has fretted
    fretted_high: float
    notes: tuple[str, ...]


def taper_from_words(typed: Mapping[str, str]) -> Taper:
    """Read a taper from ratio, mean_diameter and length; lengths without a unit are millimetres."""
    return Taper(
        parse_taper(typed.get("ratio", "")),
        read_positive(typed.get("mean_diameter", ""), "length", default="mm", what="Mean diameter of the taper").si,
        read_positive(typed.get("length", ""), "length", default="mm", what="Length of the taper").si,
    )


def seated_from_words(typed: Mapping[str, str], hub: Hub | None = None, unit: str = "N·m") -> SeatedTaper:
    """Read a taper with nut_force, or nut and nut_torque, and where known friction: what it holds and what frees it.

    ``unit`` is the one torques are said in; the notes say forces in its system first.
    """
    taper = taper_from_words(typed)
    friction = read_friction(typed["friction"]) if typed.get("friction") else CLEAN
    push, pushes = _push(typed, unit)
    seat = taper_seat(push, taper, friction, hub=hub)
    low, high = (taper_release(seat.normal_force, taper, max(friction, broken_out)) for broken_out in FRETTED)
    return SeatedTaper(taper, friction, push, seat, low, high, (*pushes, *_notes(friction, bool(seat.self_locking))))


def _push(typed: Mapping[str, str], unit: str) -> tuple[float, tuple[str, ...]]:
    """Give the push of the nut [N] as typed, or the least its torque gives, and what is to be said of that."""
    by_torque = [bool(typed.get(name)) for name in ("nut", "nut_torque")]
    if any(by_torque) == bool(typed.get("nut_force")) or (any(by_torque) and not all(by_torque)):
        raise NotUnderstood(f"It is not clear how hard the nut pushes. {WHICH_PUSH}", "nut_force")
    if not any(by_torque):
        return read_positive(typed["nut_force"], "force", default="kN", what="Push of the nut").si, ()
    diameter, torque = nut_from_words(typed)
    least, most = nut_force(torque, diameter, DRY_NUT), nut_force(torque, diameter, OILED_NUT)
    told = f"Push of the nut: {both_forces(least, unit)}, its torque on a dry thread; oiled it pushes with"
    return least, (f"{told} {both_forces(most, unit)}, and all figures are higher in step.",)


def _notes(friction: float, self_locking: bool) -> tuple[str, ...]:
    loose = () if self_locking else ("It does not stay on by itself: with the nut off it drops loose.",)
    return (
        *loose,
        f"Friction {friction:g} on the taper, as it was seated.",
        "First slip is just after tightening; once it has slipped or shaken in, it holds more.",
        f"A fretted taper is taken to break out at friction {FRETTED[0]:g} to {FRETTED[1]:g} (from memory).",
    )


def drive_material_named(library: Library, name: str, field: str) -> DriveMaterial:
    """Find what a shaft, hub or key is made of, by its key or its words."""
    plain = name.strip().casefold()
    found = next((m for m in library.drive_materials.values() if plain in _names(m)), None)
    if found is None:
        known = ", ".join(material.words for material in library.drive_materials.values())
        raise NotFound(f"There is no shaft, hub or key material “{name}”. It must be one of {known}.", field)
    return found


def _names(material: DriveMaterial) -> Iterable[str]:
    return material.key.casefold(), material.words.casefold()


def nut_from_words(typed: Mapping[str, str]) -> tuple[float, float]:
    """Read the flywheel nut: its thread's diameter [m] and the torque that was on it [N·m]."""
    diameter = parse_thread(typed.get("nut", "")).diameter
    return diameter, read_positive(typed.get("nut_torque", ""), "torque", what="Torque on the flywheel nut").si


def release_range(typed: Mapping[str, str]) -> tuple[float, float]:
    """Give the least and the most force [N] that frees the taper that was typed, by its state.

    The nut pushes with T/(K d), K from dry to oiled; a clean taper breaks out at the friction it was seated with, from
    oily to dry, and a fretted one at 0.25 to 0.35 whatever it was seated with.
    """
    taper = taper_from_words(typed)
    diameter, torque = nut_from_words(typed)
    least, most = nut_force(torque, diameter, DRY_NUT), nut_force(torque, diameter, OILED_NUT)
    clean = (taper_seat(least, taper, OILY).release_force, taper_seat(most, taper, DRY).release_force)
    seated = (taper_seat(least, taper, DRY).normal_force, taper_seat(most, taper, OILY).normal_force)
    fretted = (taper_release(seated[0], taper, FRETTED[0]), taper_release(seated[1], taper, FRETTED[1]))
    low, high = {"clean": clean, "fretted": fretted}.get(typed.get("state", ""), (clean[0], fretted[1]))
    return max(0.0, low), max(high, 1.0)
