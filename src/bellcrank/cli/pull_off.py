"""``bellcrank pull-off``: will the flywheel come off by the bolts in its own holes."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.pull import Pull, PullAnswer
from bellcrank.fastening.puller import judge_pull
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.shop.numbers import material_named, strength_named
from bellcrank.shop.tapers import release_range
from bellcrank.shop.words import both_forces, both_torques
from bellcrank.units import convert, read, read_positive

STATES = ("clean", "fretted", "not known")
BOLTS = {"two": 2, "three": 3}
SEAT = ("ratio", "mean_diameter", "length", "nut", "nut_torque")
FORCES = ("force_low", "force_high")
WHICH = (
    "Type the seat with --ratio, --mean-diameter, --length, --nut and --nut-torque, or the forces you know with "
    "--force-low and --force-high."
)
COUNTED = {  # what the two forces stand for, where they are not those of a clean and of a fretted taper
    "clean": "Only a clean taper is counted, from oily to dry; a fretted one asks for far more.",
    "fretted": "Only a fretted taper is counted, from its least to its most.",
}
TYPED_FORCES = "The forces were typed; taper and nut were not asked."


class Typed(TypedDict):
    """What may be typed about a pull."""

    ratio: str
    mean_diameter: str
    length: str
    nut: str
    nut_torque: str
    force_low: str
    force_high: str
    state: str
    bolt: str
    bolts: str
    strength: str
    into: str
    engaged: str
    tapped: str
    hub_depth: str
    circle: str
    off_centre: str
    screw: str


@dataclass(frozen=True, slots=True)
class PullOff:
    """Whether the holes will do, every figure named with its unit."""

    verdict: str
    words: str
    release_low_n: float  # a clean taper, oily at the least; with a state or typed forces the least of those
    release_high_n: float  # a fretted one; with a state or typed forces the most of those
    bolt_load_low_n: float
    bolt_load_high_n: float
    strip_usable_n: float  # of one hole
    bolt_proof_n: float
    hole_margin_low: float  # against the higher load [-]
    hole_margin_high: float
    bolt_margin_low: float
    bolt_margin_high: float
    screw_torque_limit_nm: float  # when the centre screw is turned
    bolt_torque_limit_nm: float  # when the bolts are turned against a bar
    needed_clean_mm: float | None  # full thread engaged, for the lower force
    needed_fretted_mm: float | None  # for the higher force
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]


@click.command("pull-off")
@click.option("--ratio", default="", metavar="1:8", help="Of the taper: change of diameter over length.")
@click.option("--mean-diameter", default="", metavar="“22 mm”", help="Half way along the contact.")
@click.option("--length", default="", metavar="“25 mm”", help="Of the contact.")
@click.option("--nut", default="", metavar="5/8-18", help="Thread of the flywheel nut.")
@click.option("--nut-torque", default="", metavar="“60 ft·lb”", help="It was tightened to.")
@click.option("--force-low", default="", metavar="“6 kN”", help="Instead of taper and nut: the least that frees it.")
@click.option("--force-high", default="", metavar="“18 kN”", help="With --force-low: the most.")
@click.option("--state", type=click.Choice(STATES), default="not known", show_default=True, help="Of the taper.")
@click.option("--bolt", required=True, metavar="1/4-20", help="Thread of the holes in the flywheel.")
@click.option("--bolts", type=click.Choice(tuple(BOLTS)), default="two", show_default=True, help="How many.")
@click.option("--class", "strength", required=True, metavar="8.8|G5", help="Mark on the bolts.")
@click.option("--into", default="cast-aluminium", show_default=True, help="What the flywheel is made of.")
@click.option("--engaged", required=True, metavar="“8 mm”", help="Full thread in contact.")
@click.option("--tapped", default="", metavar="“10 mm”", help="Full thread the hole has; else what is engaged.")
@click.option("--hub-depth", default="", metavar="“15 mm”", help="How deep the hole could be tapped.")
@click.option("--circle", required=True, metavar="“20 mm”", help="From the crank's middle to a bolt.")
@click.option("--off-centre", default="", metavar="“1 mm”", help="How far the centre screw stands off the middle.")
@click.option("--screw", default="M8", show_default=True, help="Thread of the centre screw.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say whether a flywheel's own holes hold the pull, how deep they must be, and where to stop."""
    pull = _pull(open_library(), typed)
    answer = _answer(pull, judge_pull(pull), _counted({name: str(value) for name, value in typed.items()}))
    desk.tell(answer, lambda: _lines(answer))


def _pull(library: Library, typed: Typed) -> Pull:
    words = {name: str(value) for name, value in typed.items()}
    low, high = _release(words)
    engaged = _length(typed["engaged"], "Thread engaged")
    off = read(typed["off_centre"], "length", default="mm", what="Off the middle").si if typed["off_centre"] else 0.0
    if off < 0:
        raise NotUnderstood(f"Off the middle is {typed['off_centre']}; it must be zero or more. Measure it again.")
    return Pull(
        release_low=low,
        release_high=high,
        thread=parse_thread(typed["bolt"]),
        strength=strength_named(library, typed["strength"]),
        hub=material_named(library, typed["into"], "into"),
        engaged=engaged,
        tapped_depth=_length(typed["tapped"], "Tapped depth") if typed["tapped"] else engaged,
        screw=parse_thread(typed["screw"]),
        circle_radius=_length(typed["circle"], "From the middle to a bolt"),
        hub_depth=_length(typed["hub_depth"], "Depth of the hub") if typed["hub_depth"] else None,
        bolts=BOLTS[typed["bolts"]],
        off_centre=off,
        clean_to_fretted=_counted(words) is None,
    )


def _release(words: Mapping[str, str]) -> tuple[float, float]:
    """Give the least and the most force [N] that frees the hub: as typed, or from taper, nut and state."""
    seat, forces = ([words[name] for name in names] for names in (SEAT, FORCES))
    if any(seat) == any(forces) or not (all(seat) or all(forces)):
        raise NotUnderstood(f"It is not clear what frees the hub. {WHICH}")
    if all(seat):
        return release_range(words)
    if words["state"] in COUNTED:
        raise NotUnderstood("The state of the taper is in the forces already. Leave --state out, or type the seat.")
    least, most = (read_positive(text, "force", default="kN", what="Force to release").si for text in forces)
    return least, most


def _counted(words: Mapping[str, str]) -> str | None:
    """Say what the two forces stand for; None when they are those of a clean and of a fretted taper."""
    return TYPED_FORCES if words["force_low"] else COUNTED.get(words["state"])


def _length(text: str, what: str) -> float:
    return read_positive(text, "length", default="mm", what=what).si


def _answer(pull: Pull, found: PullAnswer, counted: str | None) -> PullOff:
    def millimetres(depth: float | None) -> float | None:
        return None if depth is None else convert(depth, "mm", "length")

    return PullOff(
        verdict=found.verdict,
        words=found.words,
        release_low_n=pull.release_low,
        release_high_n=pull.release_high,
        bolt_load_low_n=found.load.clean,
        bolt_load_high_n=found.load.fretted,
        strip_usable_n=found.strip_usable,
        bolt_proof_n=found.bolt_proof,
        hole_margin_low=found.hole_margin.fretted,
        hole_margin_high=found.hole_margin.clean,
        bolt_margin_low=found.bolt_margin.fretted,
        bolt_margin_high=found.bolt_margin.clean,
        screw_torque_limit_nm=found.screw_torque_limit,
        bolt_torque_limit_nm=found.bolt_torque_limit,
        needed_clean_mm=millimetres(found.needed_clean),
        needed_fretted_mm=millimetres(found.needed_fretted),
        cautions=found.cautions,
        assumptions=(counted, *found.assumptions) if counted else found.assumptions,
    )


def _lines(answer: PullOff) -> list[str]:
    return [
        *(wrap(caution, first="! ", indent="  ") for caution in answer.cautions),
        "",
        wrap(answer.words),
        "",
        f"  to release  {both_forces(answer.release_low_n)} to {both_forces(answer.release_high_n)}",
        f"  on a bolt   {both_forces(answer.bolt_load_low_n)} to {both_forces(answer.bolt_load_high_n)}",
        f"  a hole      {both_forces(answer.strip_usable_n)}; a bolt {both_forces(answer.bolt_proof_n)}",
        f"  margins     hole {answer.hole_margin_low:.1f} to {answer.hole_margin_high:.1f}, "
        f"bolt {answer.bolt_margin_low:.1f} to {answer.bolt_margin_high:.1f}",
        f"  stop at     {both_torques(answer.screw_torque_limit_nm)} on the centre screw,",
        f"              {both_torques(answer.bolt_torque_limit_nm)} on each bolt when those are turned",
        "",
        *(wrap(one, first="  - ", indent="    ") for one in answer.assumptions),
    ]
