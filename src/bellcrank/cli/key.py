"""``bellcrank key``: sizes of a key and the torque it carries alone."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.both_systems import both_lengths, both_torques
from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.terminal import wrap
from bellcrank.knowledge.model import Library
from bellcrank.shop.keyed import USUAL_HUB, USUAL_KEY, Keyed, key_from_words
from bellcrank.units import convert, to_si


class Typed(TypedDict):
    """What may be typed about a key."""

    key: str
    shaft: str
    key_length: str
    inch: bool
    key_material: str
    hub_material: str
    unit: str


@dataclass(frozen=True, slots=True)
class KeyAnswer:
    """What a key carries alone, every figure named with its unit."""

    key: str
    material: str
    hub: str
    width_mm: float
    shaft_seat_mm: float
    hub_seat_mm: float
    shear_area_mm2: float
    shear_torque_nm: float  # it parts
    shear_yield_torque_nm: float  # it is left with a step
    side_torque_nm: float  # the weaker of key and hub breaks out at the keyway
    side_yield_torque_nm: float  # the weaker of key and hub is crushed
    source: str


@click.command("key")
@click.argument("key", required=False, default="", metavar="[606|3/16x3/4|4x6.5]")
@click.option("--shaft", required=True, metavar="“20 mm”", help="Shaft diameter; on a taper, half way along the key.")
@click.option(
    "--length",
    "key_length",
    default="",
    metavar="“25 mm”",
    help="Of a parallel key, which the shaft's diameter chooses.",
)
@click.option("--inch", is_flag=True, help="With --length: by the inch standard.")
@click.option("--material", "key_material", default=USUAL_KEY, show_default=True, help="What the key is made of.")
@click.option("--hub", "hub_material", default=USUAL_HUB, show_default=True, help="What the hub is made of.")
@unit_option
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Give the sizes of a Woodruff or parallel key, and the torque it carries without the taper's help."""
    library = open_library()
    answer = _answer(library, key_from_words(library, {name: str(value) for name, value in typed.items() if value}))
    desk.tell(answer, lambda: _lines(answer, typed["unit"]))


def _answer(library: Library, found: Keyed) -> KeyAnswer:
    return KeyAnswer(
        key=found.words,
        material=found.material.words,
        hub=found.hub.words,
        width_mm=convert(found.fitted.width, "mm", "length"),
        shaft_seat_mm=convert(found.shaft_seat, "mm", "length"),
        hub_seat_mm=convert(found.hub_seat, "mm", "length"),
        shear_area_mm2=convert(found.fitted.shear_area, "mm²", "area"),
        shear_torque_nm=found.carries.shear_ultimate,
        shear_yield_torque_nm=found.carries.shear_yield,
        side_torque_nm=found.carries.bearing_ultimate,
        side_yield_torque_nm=found.carries.bearing_yield,
        source=library.sources[found.source].title,
    )


def _lines(answer: KeyAnswer, unit: str) -> list[str]:
    parts, steps = both_torques(answer.shear_torque_nm, unit), both_torques(answer.shear_yield_torque_nm, unit)
    crushed, breaks = both_torques(answer.side_yield_torque_nm, unit), both_torques(answer.side_torque_nm, unit)
    sizes = (answer.width_mm, answer.shaft_seat_mm, answer.hub_seat_mm)
    width, in_shaft, in_hub = (both_lengths(to_si(size, "mm", "length"), unit) for size in sizes)
    alone = "The key alone: a taper that grips carries most of it, and the key only places the hub."
    return [
        wrap(f"{answer.key} of {answer.material}, hub of {answer.hub}"),
        "",
        f"  shears at   {parts}; a step shows from {steps}",
        f"  keyway      crushed from {crushed}, breaks at {breaks}",
        f"  width       {width}",
        f"  seat        {in_shaft} in the shaft, {in_hub} in the hub",
        "",
        wrap(alone, first="  - ", indent="    "),
        wrap(f"Sizes: {answer.source}.", first="  - ", indent="    "),
    ]
