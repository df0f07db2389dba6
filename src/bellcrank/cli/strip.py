"""``bellcrank strip``: at which pull a screw strips out."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.both_systems import both_forces, both_lengths
from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.terminal import wrap
from bellcrank.fastening.pull_out import StripAnswer
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.shop.numbers import material_named, strip_from_words
from bellcrank.units import convert, read_positive, to_si


class Typed(TypedDict):
    """What may be typed about a thread that may strip."""

    thread: str
    engaged: str
    into: str
    strength: str
    boss: str
    hole: str
    unit: str


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
@unit_option
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Give the pull at which a screw strips out of what it is screwed into."""
    library, words = open_library(), {name: str(value) for name, value in typed.items()}
    found = strip_from_words(library, words)
    answer = _answer(library, words, found)
    desk.tell(answer, lambda: _lines(answer, typed["unit"]))


def _answer(library: Library, words: Mapping[str, str], found: StripAnswer) -> StripOut:
    return StripOut(
        thread=parse_thread(words["thread"]).name,
        into=material_named(library, words["into"], "into").words,
        engaged_mm=convert(read_positive(words["engaged"], "length", default="mm").si, "mm", "length"),
        internal_area_mm2=convert(found.internal_area, "mm²", "area"),
        external_area_mm2=convert(found.external_area, "mm²", "area"),
        strip_force_n=found.strip_force,
        strip_force_low_n=found.strip_force_low,
        worn_bound_n=found.worn_bound,
        gives_way=found.gives_way,
        strength_ratio=found.strength_ratio,
        notes=found.notes,
    )


def _lines(answer: StripOut, unit: str) -> list[str]:
    engaged = both_lengths(to_si(answer.engaged_mm, "mm", "length"), unit, 1)
    return [
        wrap(f"{answer.thread}, {engaged} of full thread in {answer.into}"),
        "",
        f"  count on   {both_forces(answer.strip_force_low_n, unit)}",
        f"  new, full  {both_forces(answer.strip_force_n, unit)}; the {answer.gives_way}'s thread gives way",
        f"  worn       {both_forces(answer.worn_bound_n, unit)} at the least, when the threads no longer match",
        f"  shear area {answer.internal_area_mm2:.1f} mm² in the hole, {answer.external_area_mm2:.1f} mm² on the screw",
        "",
        *(wrap(note, first="  - ", indent="    ") for note in answer.notes),
    ]
