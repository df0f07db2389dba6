"""Reading a blade strike from what was typed, and what it did to taper and key."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.both_systems import both_torques, both_windows
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.key_joint import GivesWay
from bellcrank.fastening.run_on import bar_inertia, ring_inertia, stop_angle
from bellcrank.fastening.strike import NOTHING, Blow, KeyInWay, Likely, NutAndTaper, Strike, judge_strike
from bellcrank.fastening.taper_forces import Taper
from bellcrank.knowledge.model import Library
from bellcrank.shop.key_words import goes, may_go
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
    fit = NutAndTaper(taper, diameter, torque)
    return StruckSeat(taper, key, judge_strike(_blow(typed), fit, _in_way(key) if key else None))


def strike_words(strike: Strike, unit: str) -> tuple[str, ...]:
    """Say what a blow did, torques first in ``unit``; nothing of a key where there was none."""
    grip = strike.grip
    told = [
        f"Stopping the flywheel with the crank took {both_torques(strike.mean_torque, unit)} on average.",
        f"The taper slips somewhere from {both_windows(grip.low, grip.high, unit)}; with the nut at half torque it "
        f"slips from {both_torques(strike.half_nut_grip.low, unit)} on.",
        HOLDS[strike.taper_holds],
    ]
    if strike.first and strike.taper_holds is not Likely.YES:
        told.append(_of_the_key(strike))
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


def _in_way(key: Keyed) -> KeyInWay:
    """Give a key as a blow meets it: as strong as the weakest of key and keyway."""
    joint = key.weakest
    return KeyInWay(joint.low, joint.high, key.fitted.width, key.shaft, joint.first)


def _of_the_key(strike: Strike) -> str:
    what, how = goes(strike.first)
    if strike.key_gives_way is Likely.NO:
        return "Key and keyway do not give way; look at both for a step."
    said = f"{what} {how}" if strike.key_gives_way is Likely.YES else may_go(strike.first)
    both = GivesWay.KEYWAY in strike.first
    look = " Which of the two cannot be told: look at both." if both and len(strike.first) > 1 else ""
    flywheel = " A flywheel whose keyway is broken is not mended by a new key." if both else ""
    return f"{said[:1].upper()}{said[1:]}.{look}{flywheel}"


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
