"""Reading a blade strike from what was typed, and what it did to taper and key."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.both_systems import both_torques, both_windows
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.run_on import bar_inertia, ring_inertia, stop_angle
from bellcrank.fastening.strike import NOTHING, Blow, KeyInWay, Likely, NutAndTaper, Strike, judge_strike
from bellcrank.fastening.taper_forces import Taper
from bellcrank.knowledge.model import Library
from bellcrank.shop.keyed import Keyed, key_on
from bellcrank.shop.tapers import nut_from_words, taper_from_words
from bellcrank.units import read_positive

INERTIA = re.compile(r"([-+]?\d*[.,]?\d+)\s*(?:kg\s*[·*. ]?\s*m\s*(?:²|\^?2))?", re.IGNORECASE)
WHICH_WHEEL = "Type the flywheel's mass and diameter, or its inertia, like “0.01 kg·m²”."
HOLDS = {
    Likely.YES: "The taper holds by itself.",
    Likely.PERHAPS: "The taper holds if it is clean and dry, and slips if it is oily.",
    Likely.NO: "The taper alone does not hold.",
}
SHEARS = {
    Likely.YES: "The key shears.",
    Likely.PERHAPS: "The key may shear.",
    Likely.NO: "The key is not sheared; look at it and at its keyway for a step.",
}
CAUTIONS = (
    "Plug lead off and tied back before you turn anything or reach for the blade.",
    "After a strike look at crank, blade, adapter and flywheel too: a straight key proves nothing about them.",
)


@dataclass(frozen=True, slots=True)
class StruckSeat:
    """A seat that was struck, and what became of it."""

    taper: Taper
    key: Keyed | None
    strike: Strike


def strike_from_words(library: Library, typed: Mapping[str, str]) -> StruckSeat:
    """Read a strike: taper and nut as for a pull, flywheel, speed, how it stopped, and where known key and blade.

    The keys are flywheel_mass with flywheel_diameter or flywheel_inertia, speed, stop_angle or stop_time, blade_mass
    with blade_length, and those of a taper, a nut and a key; without a key the taper is alone.
    """
    taper = taper_from_words(typed)
    diameter, torque = nut_from_words(typed)
    key = key_on(library, typed, taper.mean_diameter) if typed.get("key") or typed.get("key_length") else None
    in_way = KeyInWay(key.carries.shear_ultimate, key.fitted.width, taper.mean_diameter) if key else None
    return StruckSeat(taper, key, judge_strike(_blow(typed), NutAndTaper(taper, diameter, torque), in_way))


def strike_words(strike: Strike, unit: str, *, keyed: bool) -> tuple[str, ...]:
    """Say what a blow did, torques first in ``unit``; ``keyed`` is whether there was a key in the way."""
    grip = strike.grip
    told = [
        f"Stopping the flywheel with the crank took {both_torques(strike.mean_torque, unit)} on average.",
        f"The taper slips somewhere from {both_windows(grip.low, grip.high, unit)}; with the nut at half torque it "
        f"slips from {both_torques(strike.half_nut_grip.low, unit)} on.",
        HOLDS[strike.taper_holds],
    ]
    if keyed and strike.taper_holds is not Likely.YES:
        told.append(SHEARS[strike.key_shears])
    if strike.run_on_high > NOTHING:
        told.append(
            f"The flywheel runs ahead of the crank by {_angle(strike.run_on_low)} to {_angle(strike.run_on_high)}: the "
            "spark comes early by that much, and the engine kicks back or does not start."
        )
    if strike.taper_holds is not Likely.YES:
        told.append(
            f"Only from {both_torques(strike.nut_torque_to_hold, unit)} on the nut would the taper alone surely hold "
            "such a blow, even oily; never go above what the maker gives for the nut."
        )
    return tuple(told)


def _angle(angle: float) -> str:
    return f"{math.degrees(angle):.0f}°"


def _blow(typed: Mapping[str, str]) -> Blow:
    by_angle, by_time = typed.get("stop_angle", ""), typed.get("stop_time", "")
    if bool(by_angle) == bool(by_time):
        raise NotUnderstood("How did it stop? Type either the angle, like “45 °”, or the time, like “0.005 s”.")
    speed = read_positive(typed.get("speed", ""), "speed", default="rpm", what="Speed").si
    if by_angle:
        angle = read_positive(by_angle, "angle", default="°", what="Angle to stop").si
    else:
        angle = stop_angle(speed, read_positive(by_time, "time", default="s", what="Time to stop").si)
    return Blow(_inertia(typed), speed, angle, _blade(typed))


def _inertia(typed: Mapping[str, str]) -> float:
    sizes, known = (
        (typed.get("flywheel_mass", ""), typed.get("flywheel_diameter", "")),
        typed.get("flywheel_inertia", ""),
    )
    if any(sizes) == bool(known) or (any(sizes) and not all(sizes)):
        raise NotUnderstood(f"It is not clear what the flywheel weighs. {WHICH_WHEEL}", "flywheel_inertia")
    if known:
        return _read_inertia(known)
    mass = read_positive(sizes[0], "mass", default="kg", what="Mass of the flywheel").si
    return ring_inertia(mass, read_positive(sizes[1], "length", default="mm", what="Flywheel diameter").si, 0.0)


def _read_inertia(text: str) -> float:
    """Read a moment of inertia [kg·m²]; the physics refuses what no flywheel has."""
    found = INERTIA.fullmatch(text.strip())
    if found is None:
        wrong = f"Inertia of the flywheel is “{text}”; it must be a number in kg·m², like 0.01."
        raise NotUnderstood(wrong, "flywheel_inertia")
    return float(found[1].replace(",", "."))


def _blade(typed: Mapping[str, str]) -> float | None:
    weighs, long = typed.get("blade_mass", ""), typed.get("blade_length", "")
    if bool(weighs) != bool(long):
        raise NotUnderstood("The blade needs both its mass and its length. Type both, or neither.", "blade_mass")
    if not weighs:
        return None
    mass = read_positive(weighs, "mass", default="kg", what="Mass of the blade").si
    return bar_inertia(mass, read_positive(long, "length", default="mm", what="Length of the blade").si)
