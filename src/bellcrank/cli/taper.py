"""``bellcrank taper``: what a hub on its taper holds, and what pulls it off."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.both_systems import both_forces, both_lengths, both_torques
from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.hub_stress import Hub
from bellcrank.fastening.taper import taper_hold_loose
from bellcrank.knowledge.model import Library
from bellcrank.shop.tapers import SeatedTaper, drive_material_named, seated_from_words
from bellcrank.units import convert, read_positive, to_si


class Typed(TypedDict):
    """What may be typed about a taper."""

    ratio: str
    mean_diameter: str
    length: str
    nut_force: str
    nut: str
    nut_torque: str
    friction: str
    hub_diameter: str
    hub_material: str
    shaft_material: str
    unit: str


@dataclass(frozen=True, slots=True)
class TaperAnswer:
    """What a taper holds, every figure named with its unit."""

    normal_force_n: float
    contact_area_mm2: float
    pressure_mpa: float
    slip_torque_low_nm: float  # first slip
    slip_torque_high_nm: float  # settled
    release_force_n: float  # at the friction it was seated with; below zero it drops off
    release_force_fretted_low_n: float
    release_force_fretted_high_n: float
    loose_nut_torque_nm: float  # it still holds with the nut off
    self_locking: bool
    hoop_stress_mpa: float | None
    axial_advance_mm: float | None
    notes: tuple[str, ...]


@click.command("taper")
@click.option("--ratio", required=True, metavar="1:8", help="Change of diameter over length.")
@click.option("--mean-diameter", required=True, metavar="“22 mm”", help="Half way along the contact.")
@click.option("--length", required=True, metavar="“25 mm”", help="Of the contact, along the axis.")
@click.option("--nut-force", default="", metavar="“25 kN”", help="With which the nut pushes the hub on.")
@click.option("--nut", default="", metavar="5/8-18", help="Instead of --nut-force: thread of the flywheel nut.")
@click.option("--nut-torque", default="", metavar="“60 ft·lb”", help="With --nut: it is tightened to.")
@click.option(
    "--friction", default="", metavar="0.15", help="On the taper, else clean: oily 0.10, clean 0.15, dry 0.20."
)
@click.option(
    "--hub-diameter", default="", metavar="“45 mm”", help="Outside of the boss, for its stress and its way on."
)
@click.option("--hub-material", default="", metavar="MATERIAL", help="With --hub-diameter; else grey cast iron.")
@click.option("--shaft-material", default="", metavar="MATERIAL", help="With --hub-diameter; else crankshaft steel.")
@unit_option
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Give what a hub on its taper holds before it slips, and the force that pulls it off."""
    words = {name: str(value) for name, value in typed.items()}
    answer = _answer(seated_from_words(words, _hub(open_library(), typed), typed["unit"]))
    desk.tell(answer, lambda: _lines(answer, typed["unit"]))


def _hub(library: Library, typed: Typed) -> Hub | None:
    if not typed["hub_diameter"]:
        if typed["hub_material"] or typed["shaft_material"]:
            raise NotUnderstood("The material counts only with the hub's diameter. Type --hub-diameter too.")
        return None
    return Hub(
        read_positive(typed["hub_diameter"], "length", default="mm", what="Outside of the hub").si,
        drive_material_named(library, typed["hub_material"] or "grey-iron", "hub_material"),
        drive_material_named(library, typed["shaft_material"] or "shaft-steel", "shaft_material"),
    )


def _answer(found: SeatedTaper) -> TaperAnswer:
    seat = found.seat
    return TaperAnswer(
        normal_force_n=seat.normal_force,
        contact_area_mm2=convert(seat.contact_area, "mm²", "area"),
        pressure_mpa=convert(seat.pressure, "MPa", "pressure"),
        slip_torque_low_nm=seat.slip_torque_low,
        slip_torque_high_nm=seat.slip_torque_high,
        release_force_n=seat.release_force,
        release_force_fretted_low_n=found.fretted_low,
        release_force_fretted_high_n=found.fretted_high,
        loose_nut_torque_nm=taper_hold_loose(seat.normal_force, found.taper, found.friction),
        self_locking=bool(seat.self_locking),
        hoop_stress_mpa=convert(seat.hub.hoop_stress, "MPa", "pressure") if seat.hub else None,
        axial_advance_mm=convert(seat.hub.axial_advance, "mm", "length") if seat.hub else None,
        notes=found.notes,
    )


def _lines(answer: TaperAnswer, unit: str) -> list[str]:
    first, settled = both_torques(answer.slip_torque_low_nm, unit), both_torques(answer.slip_torque_high_nm, unit)
    lines = [
        f"  slips at    {first} first, {settled} settled",
        f"  nut off     still {both_torques(answer.loose_nut_torque_nm, unit)}",
        f"  pulls off   {both_forces(answer.release_force_n, unit)}",
        f"  fretted     {both_forces(answer.release_force_fretted_low_n, unit)} to "
        f"{both_forces(answer.release_force_fretted_high_n, unit)}",
        f"  pressure    {answer.pressure_mpa:.0f} MPa on {answer.contact_area_mm2:.0f} mm²",
        f"  square on the flank {both_forces(answer.normal_force_n, unit)}",
    ]
    if answer.axial_advance_mm is not None:
        lines.append(
            f"  goes on     {both_lengths(to_si(answer.axial_advance_mm, 'mm', 'length'), unit)} from hand-seated to "
            f"tight; hoop stress {answer.hoop_stress_mpa:.0f} MPa"
        )
    return [*lines, "", *(wrap(note, first="  - ", indent="    ") for note in answer.notes)]
