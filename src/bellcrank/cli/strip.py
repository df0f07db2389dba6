"""``bellcrank strip``: at which pull a screw strips out."""

from dataclasses import dataclass

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotFound
from bellcrank.fastening.pull_out import StripAnswer, WornHole, pull_out
from bellcrank.fastening.strength import strength_at
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.shop.numbers import material_named
from bellcrank.shop.words import both_forces
from bellcrank.units import convert, read_positive


@dataclass(frozen=True, slots=True)
class StripOut:
    """At which pull a screw strips out, every figure named with its unit."""

    thread: str
    into: str
    engaged_mm: float
    internal_area_mm2: float  # of the hole's thread
    external_area_mm2: float  # of the screw's
    strip_force_n: float  # what a new, full thread holds
    strip_force_low_n: float  # what to count on
    worn_bound_n: float  # what a worn, loose thread holds at the least
    gives_way: str
    strength_ratio: float | None
    notes: tuple[str, ...]


@click.command("strip")
@click.option("--thread", required=True, metavar="M8|1/4-20", help="The thread.")
@click.option("--engaged", required=True, metavar="“10 mm”", help="Length of full thread engaged.")
@click.option("--into", required=True, metavar="MATERIAL", help="What it screws into.")
@click.option("--class", "strength", default="", metavar="8.8|G5", help="Of the screw: its own thread is judged too.")
@click.option("--boss", default="", metavar="“14 mm”", help="Width of the boss around a hole near an edge.")
@click.option("--hole", default="", metavar="“5.2 mm”", help="Measured inside a worn or drilled-out thread.")
@every_command
@pass_desk
def command(desk: Desk, thread: str, engaged: str, into: str, strength: str, boss: str, hole: str) -> None:
    """Give the pull at which a screw strips out of what it is screwed into."""
    library, size = open_library(), parse_thread(thread)
    length = read_positive(engaged, "length", default="mm", what="Thread engaged").si
    material = material_named(library, into, "into")
    found = pull_out(
        size,
        length,
        material,
        bolt_tensile=_tensile(library, strength, size.diameter) if strength else None,
        boss_width=read_positive(boss, "length", default="mm", what="Width of the boss").si if boss else None,
        worn=WornHole(read_positive(hole, "length", default="mm", what="Measured hole").si) if hole else None,
    )
    answer = _answer(size.name, material.words, length, found)
    desk.tell(answer, lambda: _lines(answer))


def _tensile(library: Library, strength: str, diameter: float) -> float:
    if strength not in library.strength_classes:
        known = ", ".join(library.strength_classes)
        raise NotFound(f"There is no strength class “{strength}”. It must be one of {known}.", "strength")
    return strength_at(library.strength_classes[strength], diameter).tensile


def _answer(thread: str, into: str, length: float, found: StripAnswer) -> StripOut:
    return StripOut(
        thread=thread,
        into=into,
        engaged_mm=convert(length, "mm", "length"),
        internal_area_mm2=convert(found.internal_area, "mm²", "area"),
        external_area_mm2=convert(found.external_area, "mm²", "area"),
        strip_force_n=found.strip_force,
        strip_force_low_n=found.strip_force_low,
        worn_bound_n=found.worn_bound,
        gives_way=found.gives_way,
        strength_ratio=found.strength_ratio,
        notes=found.notes,
    )


def _lines(answer: StripOut) -> list[str]:
    return [
        wrap(f"{answer.thread}, {answer.engaged_mm:.1f} mm of full thread in {answer.into}"),
        "",
        f"  count on   {both_forces(answer.strip_force_low_n)}",
        f"  new, full  {both_forces(answer.strip_force_n)}; the {answer.gives_way}'s thread gives way",
        f"  worn       {both_forces(answer.worn_bound_n)} at the least, when the threads no longer match",
        f"  shear area {answer.internal_area_mm2:.1f} mm² in the hole, {answer.external_area_mm2:.1f} mm² on the screw",
        "",
        *(wrap(note, first="  - ", indent="    ") for note in answer.notes),
    ]
