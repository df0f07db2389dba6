"""``bellcrank strike``: what a blade strike did to taper and key."""

import math
import re
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.keys import find_woodruff, key_capacity
from bellcrank.fastening.run_on import bar_inertia, ring_inertia, stop_angle
from bellcrank.fastening.strike import Blow, KeyInWay, NutAndTaper, Strike, judge_strike
from bellcrank.fastening.taper_forces import Taper
from bellcrank.knowledge.model import Library
from bellcrank.shop.tapers import drive_material_named, nut_from_words, taper_from_words
from bellcrank.units import read_positive

INERTIA = re.compile(r"([-+]?\d*[.,]?\d+)\s*(?:kg\s*[·*. ]?\s*m\s*(?:²|\^?2))?", re.IGNORECASE)
WHICH_WHEEL = "Type --flywheel-mass with --flywheel-diameter, or --flywheel-inertia “0.01 kg·m²”."
CAUTIONS = (
    "Plug lead off and tied back before you turn anything or reach for the blade.",
    "After a strike look at crank, blade, adapter and flywheel too: a straight key proves nothing about them.",
)


class Typed(TypedDict):
    """What may be typed about a strike."""

    flywheel_mass: str
    flywheel_diameter: str
    flywheel_inertia: str
    speed: str
    stop_angle: str
    stop_time: str
    blade_mass: str
    blade_length: str
    ratio: str
    mean_diameter: str
    length: str
    nut: str
    nut_torque: str
    key: str
    key_material: str
    hub_material: str


@dataclass(frozen=True, slots=True)
class StrikeAnswer:
    """What a strike did, every figure named with its unit."""

    mean_torque_nm: float  # in the crank, through taper and key
    blade_torque_nm: float | None  # that stopped the blade itself
    grip_low_nm: float  # of the taper, oily
    grip_high_nm: float  # dry
    half_nut_grip_low_nm: float
    half_nut_grip_high_nm: float
    taper_holds: str  # no, perhaps, yes
    key_shears: str
    run_on_low_deg: float  # flywheel ahead of the crank: the spark comes early by so much
    run_on_high_deg: float
    nut_torque_to_hold_nm: float
    words: tuple[str, ...]
    cautions: tuple[str, ...]


@click.command("strike")
@click.option("--flywheel-mass", default="", metavar="“2.2 kg”", help="With all that hangs on it.")
@click.option("--flywheel-diameter", default="", metavar="“200 mm”", help="Outside; taken as an even disc.")
@click.option("--flywheel-inertia", default="", metavar="“0.01 kg·m²”", help="Instead of mass and diameter, if known.")
@click.option("--speed", required=True, metavar="“3000 rpm”", help="Of the engine when it struck.")
@click.option("--stop-angle", default="", metavar="“45 °”", help="Through which the crank came to a stop.")
@click.option("--stop-time", default="", metavar="“0.005 s”", help="Or the time it took.")
@click.option("--blade-mass", default="", metavar="“0.6 kg”", help="With --blade-length: what the blade itself took.")
@click.option("--blade-length", default="", metavar="“530 mm”", help="Tip to tip.")
@click.option("--ratio", required=True, metavar="1:8", help="Of the taper.")
@click.option("--mean-diameter", required=True, metavar="“22 mm”", help="Half way along the contact.")
@click.option("--length", required=True, metavar="“25 mm”", help="Of the contact.")
@click.option("--nut", required=True, metavar="5/8-18", help="Thread of the flywheel nut.")
@click.option("--nut-torque", required=True, metavar="“60 ft·lb”", help="That was on it.")
@click.option(
    "--key", default="", metavar="606", help="The Woodruff key, or its size, 3/16x3/4; else the taper is alone."
)
@click.option("--key-material", default="key-steel", show_default=True, help="What the key is made of.")
@click.option("--hub-material", default="cast-aluminium", show_default=True, help="What the flywheel is made of.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say what a blade strike did to taper and key, how far the flywheel ran ahead, and the nut's part in it."""
    words = {name: str(value) for name, value in typed.items()}
    taper = taper_from_words(words)
    diameter, torque = nut_from_words(words)
    found = judge_strike(_blow(typed), NutAndTaper(taper, diameter, torque), _key(open_library(), typed, taper))
    answer = _answer(found)
    desk.tell(answer, lambda: _lines(answer))


def _blow(typed: Typed) -> Blow:
    if bool(typed["stop_angle"]) == bool(typed["stop_time"]):
        raise NotUnderstood("How did it stop? Type either --stop-angle “45 °” or --stop-time “0.005 s”.")
    speed = read_positive(typed["speed"], "speed", default="rpm", what="Speed").si
    if typed["stop_angle"]:
        angle = read_positive(typed["stop_angle"], "angle", default="°", what="Angle to stop").si
    else:
        angle = stop_angle(speed, read_positive(typed["stop_time"], "time", default="s", what="Time to stop").si)
    return Blow(_inertia(typed), speed, angle, _blade(typed))


def _inertia(typed: Typed) -> float:
    sizes = (typed["flywheel_mass"], typed["flywheel_diameter"])
    if any(sizes) == bool(typed["flywheel_inertia"]) or (any(sizes) and not all(sizes)):
        raise NotUnderstood(f"It is not clear what the flywheel weighs. {WHICH_WHEEL}", "flywheel_inertia")
    if typed["flywheel_inertia"]:
        return _read_inertia(typed["flywheel_inertia"])
    mass = read_positive(typed["flywheel_mass"], "mass", default="kg", what="Mass of the flywheel").si
    outside = read_positive(typed["flywheel_diameter"], "length", default="mm", what="Flywheel diameter").si
    return ring_inertia(mass, outside, 0.0)


def _read_inertia(text: str) -> float:
    """Read a moment of inertia [kg·m²]; the physics refuses what no flywheel has."""
    found = INERTIA.fullmatch(text.strip())
    if found is None:
        wrong = f"Inertia of the flywheel is “{text}”; it must be a number in kg·m², like 0.01."
        raise NotUnderstood(wrong, "flywheel_inertia")
    return float(found[1].replace(",", "."))


def _blade(typed: Typed) -> float | None:
    if bool(typed["blade_mass"]) != bool(typed["blade_length"]):
        raise NotUnderstood("The blade needs both its mass and its length. Type --blade-mass and --blade-length.")
    if not typed["blade_mass"]:
        return None
    mass = read_positive(typed["blade_mass"], "mass", default="kg", what="Mass of the blade").si
    return bar_inertia(
        mass, read_positive(typed["blade_length"], "length", default="mm", what="Length of the blade").si
    )


def _key(library: Library, typed: Typed, taper: Taper) -> KeyInWay | None:
    if not typed["key"]:
        return None
    fitted = find_woodruff(typed["key"], library.woodruff_keys).fitted()
    material = drive_material_named(library, typed["key_material"], "key_material")
    hub = drive_material_named(library, typed["hub_material"], "hub_material")
    capacity = key_capacity(fitted, material, taper.mean_diameter, hub)
    return KeyInWay(capacity.shear_ultimate, fitted.width, taper.mean_diameter)


def _answer(found: Strike) -> StrikeAnswer:
    return StrikeAnswer(
        mean_torque_nm=found.mean_torque,
        blade_torque_nm=found.blade_torque,
        grip_low_nm=found.grip.low,
        grip_high_nm=found.grip.high,
        half_nut_grip_low_nm=found.half_nut_grip.low,
        half_nut_grip_high_nm=found.half_nut_grip.high,
        taper_holds=found.taper_holds,
        key_shears=found.key_shears,
        run_on_low_deg=math.degrees(found.run_on_low),
        run_on_high_deg=math.degrees(found.run_on_high),
        nut_torque_to_hold_nm=found.nut_torque_to_hold,
        words=found.words,
        cautions=CAUTIONS,
    )


def _lines(answer: StrikeAnswer) -> list[str]:
    cautions = (wrap(caution, first="! ", indent="  ") for caution in answer.cautions)
    return [*cautions, "", *(wrap(one, first="  ", indent="  ") for one in answer.words)]
