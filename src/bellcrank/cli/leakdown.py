"""``bellcrank leakdown``: the area of the leaks from a leak-down reading, and back."""

import math
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.shop.engines import (
    LEAK_CAUTIONS,
    LEAK_NOTES,
    USUAL_ORIFICE,
    USUAL_SUPPLY,
    LeakFound,
    leak_from_words,
)
from bellcrank.units import convert


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
@click.option("--supply", default=USUAL_SUPPLY, show_default=True, help="On the gauge before the orifice.")
@click.option("--orifice", default=USUAL_ORIFICE, show_default=True, help="Diameter of the tester's orifice.")
@click.option("--height", default="", metavar="“500 m”", help="Above the sea.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Turn a leak-down reading into the area of the leaks, or an area into the reading."""
    answer = _answer(leak_from_words({name: str(value) for name, value in typed.items()}))
    desk.tell(answer, lambda: _lines(answer))


def _answer(found: LeakFound) -> LeakDown:
    return LeakDown(
        reading_psi=convert(found.reading, "psi", "pressure"),
        reading_pa=found.reading,
        supply_psi=convert(found.supply, "psi", "pressure"),
        orifice_mm2=convert(found.orifice, "mm²", "area"),
        orifice_diameter_mm=convert(2 * math.sqrt(found.orifice / math.pi), "mm", "length"),
        leak_area_mm2=convert(found.leak, "mm²", "area"),
        leak_percent=100 * found.lost,
        cautions=LEAK_CAUTIONS,
        notes=LEAK_NOTES,
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
