"""``bellcrank leakdown``: the area of the leaks from a leak-down reading, and back."""

import math
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.engine.leak_down import leak_area, leak_down_reading
from bellcrank.errors import NotUnderstood
from bellcrank.shop.engines import air_from_words
from bellcrank.units import convert, read_positive

CAUTIONS = (
    "Plug lead off. Hold the crank or the blade bolt with a bar: the air turns the engine with force.",
    "Take the bar out, and the tool off the blade bolt, before the plug goes back.",
)
NOTES = (
    "The area is that of a clean hole like the tester's own: it does not depend on the tester, the percentage does.",
    "Listen where it comes out: carburettor the intake valve, muffler the exhaust valve, breather the rings.",
)


class Typed(TypedDict):
    """What may be typed about a leak-down test."""

    reading: str
    leak: str
    supply: str
    orifice: str
    height: str


@dataclass(frozen=True, slots=True)
class LeakDown:
    """A leak, whichever side it was told by."""

    reading_psi: float
    reading_pa: float
    supply_psi: float
    orifice_mm2: float
    orifice_diameter_mm: float
    leak_area_mm2: float
    leak_percent: float  # of the supply, as the tester's scale says it
    cautions: tuple[str, ...]
    notes: tuple[str, ...]


@click.command("leakdown")
@click.option("--reading", default="", metavar="“70 psi”", help="On the gauge behind the orifice.")
@click.option("--leak", default="", metavar="“0.4 mm²”", help="Instead: what would such a leak read?")
@click.option("--supply", default="80 psi", show_default=True, help="On the gauge before the orifice.")
@click.option("--orifice", default="0.040 in", show_default=True, help="Diameter of the tester's orifice.")
@click.option("--height", default="", metavar="“500 m”", help="Above the sea.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Turn a leak-down reading into the area of the leaks, or an area into the reading."""
    answer = _answer(typed)
    desk.tell(answer, lambda: _lines(answer))


def _answer(typed: Typed) -> LeakDown:
    if bool(typed["reading"]) == bool(typed["leak"]):
        raise NotUnderstood("Type either --reading “70 psi”, or --leak “0.4 mm²” to see what that reads.")
    supply = read_positive(typed["supply"], "pressure", what="Supply of the tester").si
    across = read_positive(typed["orifice"], "length", default="mm", what="Orifice of the tester").si
    orifice, ambient = math.pi / 4 * across**2, air_from_words(typed["height"]).pressure
    if typed["reading"]:
        reading = read_positive(typed["reading"], "pressure", what="Leak-down reading").si
        leak = leak_area(reading, supply=supply, orifice=orifice, ambient=ambient)
    else:
        leak = read_positive(typed["leak"], "area", default="mm²", what="Area of the leaks").si
        reading = leak_down_reading(leak, supply=supply, orifice=orifice, ambient=ambient)
    return LeakDown(
        reading_psi=convert(reading, "psi", "pressure"),
        reading_pa=reading,
        supply_psi=convert(supply, "psi", "pressure"),
        orifice_mm2=convert(orifice, "mm²", "area"),
        orifice_diameter_mm=convert(across, "mm", "length"),
        leak_area_mm2=convert(leak, "mm²", "area"),
        leak_percent=100 * (1 - reading / supply),
        cautions=CAUTIONS,
        notes=NOTES,
    )


def _lines(answer: LeakDown) -> list[str]:
    return [
        *(wrap(caution, first="! ", indent="  ") for caution in answer.cautions),
        "",
        f"  leaks     {answer.leak_area_mm2:.2f} mm²",
        f"  reading   {answer.reading_psi:.1f} of {answer.supply_psi:.0f} psi, {answer.leak_percent:.0f} % lost",
        f"  tester    orifice {answer.orifice_diameter_mm:.2f} mm across",
        "",
        *(wrap(one, first="  - ", indent="    ") for one in answer.notes),
    ]
