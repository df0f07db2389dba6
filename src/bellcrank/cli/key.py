"""``bellcrank key``: sizes of a key and the torque it carries alone."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.terminal import wrap
from bellcrank.knowledge.model import Library
from bellcrank.shop.answers import Answered, told_of_key
from bellcrank.shop.keyed import USUAL_HUB, USUAL_KEY, Keyed, key_from_words
from bellcrank.units import convert


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
    gives_way_low_nm: float  # the weakest of key and keyway
    gives_way_high_nm: float
    marked_nm: float  # something stays marked from here on
    gives_way_first: tuple[str, ...]  # what of it may go first; more than one: nobody can tell
    shear_torque_nm: float  # the key parts, at the strength on record
    shear_low_nm: float
    shear_high_nm: float
    shear_marked_nm: float  # it is left with a step
    key_side_low_nm: float  # the key's side is crushed
    key_side_high_nm: float
    key_side_marked_nm: float
    keyway_low_nm: float  # the side of the hub's keyway breaks out
    keyway_high_nm: float
    keyway_marked_nm: float
    words: tuple[str, ...]
    notes: tuple[str, ...]
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
    found = key_from_words(library, {name: str(value) for name, value in typed.items() if value})
    told = told_of_key(library, found, typed["unit"])
    answer = _answer(library, found, told)
    desk.tell(answer, lambda: _lines(answer, told))


def _answer(library: Library, found: Keyed, told: Answered) -> KeyAnswer:
    joint, carries = found.weakest, found.carries
    return KeyAnswer(
        key=found.words,
        material=found.material.words,
        hub=found.hub.words,
        width_mm=convert(found.fitted.width, "mm", "length"),
        shaft_seat_mm=convert(found.shaft_seat, "mm", "length"),
        hub_seat_mm=convert(found.hub_seat, "mm", "length"),
        shear_area_mm2=convert(found.fitted.shear_area, "mm²", "area"),
        gives_way_low_nm=joint.low,
        gives_way_high_nm=joint.high,
        marked_nm=joint.marked,
        gives_way_first=joint.first,
        shear_torque_nm=carries.shear_ultimate,
        shear_low_nm=carries.shear.low,
        shear_high_nm=carries.shear.high,
        shear_marked_nm=carries.shear.marked,
        key_side_low_nm=carries.key_side.low,
        key_side_high_nm=carries.key_side.high,
        key_side_marked_nm=carries.key_side.marked,
        keyway_low_nm=carries.hub_side.low,
        keyway_high_nm=carries.hub_side.high,
        keyway_marked_nm=carries.hub_side.marked,
        words=(f"{told.said}.", *told.sentences),
        notes=told.notes,
        source=library.sources[found.source].title,
    )


def _lines(answer: KeyAnswer, told: Answered) -> list[str]:
    return [
        wrap(f"{answer.key} of {answer.material}, hub of {answer.hub}"),
        wrap(told.said, first="  ", indent="  "),
        *(wrap(one, first="  ", indent="  ") for one in told.sentences),
        "",
        *(wrap(f"{words} {value}", first="  ", indent="    ") for words, value in told.lines),
        "",
        *(wrap(one, first="  - ", indent="    ") for one in told.notes[1:]),
    ]
