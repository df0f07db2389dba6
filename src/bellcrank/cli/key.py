"""``bellcrank key``: sizes of a key and the torque it carries alone."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.keys import FittedKey, SizeUnit, find_parallel, find_woodruff, key_capacity
from bellcrank.knowledge.model import Library
from bellcrank.shop.tapers import drive_material_named
from bellcrank.shop.words import both_torques
from bellcrank.units import convert, read_positive

WHICH = "Type a Woodruff key, like “bellcrank key 606 --shaft 20mm”, or the length of a parallel one with --length."


class Typed(TypedDict):
    """What may be typed about a key."""

    number: str
    shaft: str
    length: str
    inch: bool
    material: str
    hub: str


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
@click.argument("number", required=False, default="", metavar="[606|3/16x3/4|4x6.5]")
@click.option("--shaft", required=True, metavar="“20 mm”", help="Shaft diameter; on a taper, half way along the key.")
@click.option("--length", default="", metavar="“25 mm”", help="Of a parallel key, which the shaft's diameter chooses.")
@click.option("--inch", is_flag=True, help="With --length: by the inch standard.")
@click.option("--material", default="key-steel", show_default=True, help="What the key is made of.")
@click.option("--hub", default="cast-aluminium", show_default=True, help="What the hub is made of.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Give the sizes of a Woodruff or parallel key, and the torque it carries without the taper's help."""
    answer = _answer(open_library(), typed)
    desk.tell(answer, lambda: _lines(answer))


def _answer(library: Library, typed: Typed) -> KeyAnswer:
    if bool(typed["number"]) == bool(typed["length"]):
        raise NotUnderstood(f"It is not clear which key is meant. {WHICH}")
    shaft = read_positive(typed["shaft"], "length", default="mm", what="Shaft diameter").si
    if typed["number"]:
        woodruff = find_woodruff(typed["number"], library.woodruff_keys)
        fitted, seats, source = woodruff.fitted(), (woodruff.shaft_seat, woodruff.hub_seat), woodruff.source
    else:
        unit = SizeUnit.INCH if typed["inch"] else SizeUnit.MILLIMETRE
        parallel = find_parallel(shaft, library.parallel_keys, unit)
        length = read_positive(typed["length"], "length", default="mm", what="Length of the key").si
        fitted, seats, source = parallel.fitted(length), (parallel.shaft_seat, parallel.hub_seat), parallel.source
    return _carries(library, typed, fitted, shaft, seats, source)


def _carries(
    library: Library, typed: Typed, fitted: FittedKey, shaft: float, seats: tuple[float, float], source: str
) -> KeyAnswer:
    material = drive_material_named(library, typed["material"], "material")
    hub = drive_material_named(library, typed["hub"], "hub")
    found = key_capacity(fitted, material, shaft, hub)
    return KeyAnswer(
        key=f"Woodruff key {fitted.words}" if typed["number"] else fitted.words,
        material=material.words,
        hub=hub.words,
        width_mm=convert(fitted.width, "mm", "length"),
        shaft_seat_mm=convert(seats[0], "mm", "length"),
        hub_seat_mm=convert(seats[1], "mm", "length"),
        shear_area_mm2=convert(fitted.shear_area, "mm²", "area"),
        shear_torque_nm=found.shear_ultimate,
        shear_yield_torque_nm=found.shear_yield,
        side_torque_nm=found.bearing_ultimate,
        side_yield_torque_nm=found.bearing_yield,
        source=library.sources[source].title,
    )


def _lines(answer: KeyAnswer) -> list[str]:
    parts, steps = both_torques(answer.shear_torque_nm), both_torques(answer.shear_yield_torque_nm)
    crushed, breaks = both_torques(answer.side_yield_torque_nm), both_torques(answer.side_torque_nm)
    alone = "The key alone: a taper that grips carries most of it, and the key only places the hub."
    return [
        wrap(f"{answer.key} of {answer.material}, hub of {answer.hub}"),
        "",
        f"  shears at   {parts}; a step shows from {steps}",
        f"  keyway      crushed from {crushed}, breaks at {breaks}",
        f"  width       {answer.width_mm:.2f} mm",
        f"  seat        {answer.shaft_seat_mm:.2f} mm in the shaft, {answer.hub_seat_mm:.2f} mm in the hub",
        "",
        wrap(alone, first="  - ", indent="    "),
        wrap(f"Sizes: {answer.source}.", first="  - ", indent="    "),
    ]
