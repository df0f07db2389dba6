"""``bellcrank jet``: the main jet for thinner or warmer air."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.shop.engines import JET_NOTES, JetFound, jet_from_words, richer_words
from bellcrank.units import convert, show


class Typed(TypedDict):
    """What may be typed about a jet."""

    jet: str
    height: str
    temperature: str
    from_height: str
    from_temperature: str


@dataclass(frozen=True, slots=True)
class JetAnswer:
    """A jet in other air."""

    richness: float  # fuel over air with the old jet, over what it was
    richer_percent: float
    richness_by_height: float  # the part of it that comes from thinner air
    richness_by_temperature: float  # and from warmer air; both multiply
    temperature_c: float  # of the air it runs in
    chosen_temperature_c: float  # of that it was chosen for
    old_mm: float | None
    jet_mm: float | None
    jet_factor: float  # new diameter over old
    density_kg_m3: float
    chosen_density_kg_m3: float
    power_percent: float  # of that in the air it was chosen for, mixture right
    notes: tuple[str, ...]


@click.command("jet")
@click.option("--jet", default="", metavar="“0.70 mm”", help="The jet that was right where it was chosen.")
@click.option("--height", required=True, metavar="“1500 m”", help="Above the sea where it runs now.")
@click.option("--temperature", default="", metavar="“30 °C”", help="Of the air there; else as the standard has it.")
@click.option("--from-height", default="", metavar="“0 m”", help="Where the jet was right; else sea level.")
@click.option("--from-temperature", default="", metavar="“15 °C”", help="Of the air there.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say how much richer a jet runs in other air, and which jet gives the old mixture."""
    answer = _answer(jet_from_words({name: str(value) for name, value in typed.items()}))
    desk.tell(answer, lambda: _lines(answer))


def _answer(found: JetFound) -> JetAnswer:
    return JetAnswer(
        richness=found.richness,
        richer_percent=100 * (found.richness - 1),
        richness_by_height=found.by_height,
        richness_by_temperature=found.by_temperature,
        temperature_c=convert(found.temperature, "°C", "temperature"),
        chosen_temperature_c=convert(found.chosen_temperature, "°C", "temperature"),
        old_mm=None if found.old is None else convert(found.old, "mm", "length"),
        jet_mm=None if found.new is None else convert(found.new, "mm", "length"),
        jet_factor=found.factor,
        density_kg_m3=found.density,
        chosen_density_kg_m3=found.chosen_density,
        power_percent=100 * found.density / found.chosen_density,
        notes=JET_NOTES,
    )


def _lines(answer: JetAnswer) -> list[str]:
    how = "richer" if answer.richness >= 1 else "leaner"
    warmth = f"{answer.temperature_c:.0f} °C instead of {answer.chosen_temperature_c:.0f} °C"
    lines = [
        f"  mixture   {abs(answer.richer_percent):.1f} % {how} with the old jet",
        f"            by height {richer_words(answer.richness_by_height)}",
        f"            by warmth {richer_words(answer.richness_by_temperature)}, {warmth}",
        f"  power     {answer.power_percent:.0f} % of what it had there, mixture right",
        f"  jet       {answer.jet_factor:.3f} of the old diameter",
    ]
    if answer.old_mm is not None and answer.jet_mm is not None:
        lines[-1] += f": {answer.jet_mm:.3f} mm instead of {answer.old_mm:.3f} mm"
    air = f"{show(answer.density_kg_m3, 'kg/m³', 'density')} instead of {answer.chosen_density_kg_m3:.3f} kg/m³"
    return [*lines, f"  air       {air}", "", *(wrap(one, first="  - ", indent="    ") for one in answer.notes)]
