"""``bellcrank strike``: what a blade strike did to taper and key."""

import math
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.terminal import wrap
from bellcrank.shop.keyed import USUAL_HUB, USUAL_KEY
from bellcrank.shop.strikes import CAUTIONS, StruckSeat, strike_from_words, strike_words


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
    key_length: str
    inch: bool
    key_material: str
    hub_material: str
    unit: str


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
    key_gives_way: str  # the key, or its keyway in the flywheel: no, perhaps, yes
    gives_way_first: tuple[str, ...]  # what of the two it may be
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
@click.option("--key-length", default="", metavar="“25 mm”", help="Of a parallel key instead, which the shaft chooses.")
@click.option("--inch", is_flag=True, help="With --key-length: by the inch standard.")
@click.option("--key-material", default=USUAL_KEY, show_default=True, help="What the key is made of.")
@click.option("--hub-material", default=USUAL_HUB, show_default=True, help="What the flywheel is made of.")
@unit_option
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say what a blade strike did to taper and key, how far the flywheel ran ahead, and the nut's part in it."""
    words = {name: str(value) for name, value in typed.items() if value}
    answer = _answer(strike_from_words(open_library(), words), typed["unit"])
    desk.tell(answer, lambda: _lines(answer))


def _answer(struck: StruckSeat, unit: str) -> StrikeAnswer:
    found = struck.strike
    return StrikeAnswer(
        mean_torque_nm=found.mean_torque,
        blade_torque_nm=found.blade_torque,
        grip_low_nm=found.grip.low,
        grip_high_nm=found.grip.high,
        half_nut_grip_low_nm=found.half_nut_grip.low,
        half_nut_grip_high_nm=found.half_nut_grip.high,
        taper_holds=found.taper_holds,
        key_gives_way=found.key_gives_way,
        gives_way_first=found.first,
        run_on_low_deg=math.degrees(found.run_on_low),
        run_on_high_deg=math.degrees(found.run_on_high),
        nut_torque_to_hold_nm=found.nut_torque_to_hold,
        words=strike_words(found, unit),
        cautions=CAUTIONS,
    )


def _lines(answer: StrikeAnswer) -> list[str]:
    cautions = (wrap(caution, first="! ", indent="  ") for caution in answer.cautions)
    return [*cautions, "", *(wrap(one, first="  ", indent="  ") for one in answer.words)]
