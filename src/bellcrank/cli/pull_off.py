"""``bellcrank pull-off``: will the flywheel come off by the bolts in its own holes."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.both_systems import both_forces, both_torques
from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.terminal import wrap
from bellcrank.shop.numbers import USUAL_INTO
from bellcrank.shop.pulling import BOLTS, STATES, USUAL_SCREW, JudgedPull, judged_pull_from_words, pull_words
from bellcrank.units import convert


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
    unit: str


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
    needed_low_force_mm: float | None  # full thread engaged, for the lower force; None when no depth helps
    needed_high_force_mm: float | None  # for the higher force
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
@click.option("--into", default=USUAL_INTO, show_default=True, help="What the flywheel is made of.")
@click.option("--engaged", required=True, metavar="“8 mm”", help="Full thread in contact.")
@click.option("--tapped", default="", metavar="“10 mm”", help="Full thread the hole has; else what is engaged.")
@click.option("--hub-depth", default="", metavar="“15 mm”", help="How deep the hole could be tapped.")
@click.option("--circle", required=True, metavar="“20 mm”", help="From the crank's middle to a bolt.")
@click.option("--off-centre", default="", metavar="“1 mm”", help="How far the centre screw stands off the middle.")
@click.option("--screw", default=USUAL_SCREW, show_default=True, help="Thread of the centre screw.")
@unit_option
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say whether a flywheel's own holes hold the pull, how deep they must be, and where to stop."""
    unit, words = typed["unit"], {name: str(value) for name, value in typed.items()}
    answer = _answer(judged_pull_from_words(open_library(), words), unit)
    desk.tell(answer, lambda: _lines(answer, unit))


def _answer(judged: JudgedPull, unit: str) -> PullOff:
    pull, found, counted = judged.pull, judged.answer, judged.counted

    def millimetres(depth: float | None) -> float | None:
        return None if depth is None else convert(depth, "mm", "length")

    return PullOff(
        verdict=found.verdict,
        words=pull_words(pull, found, unit),
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
        needed_low_force_mm=millimetres(found.needed_clean),
        needed_high_force_mm=millimetres(found.needed_fretted),
        cautions=found.cautions,
        assumptions=(counted, *found.assumptions) if counted else found.assumptions,
    )


def _lines(answer: PullOff, unit: str) -> list[str]:
    return [
        *(wrap(caution, first="! ", indent="  ") for caution in answer.cautions),
        "",
        wrap(answer.words),
        "",
        f"  to release  {both_forces(answer.release_low_n, unit)} to {both_forces(answer.release_high_n, unit)}",
        f"  on a bolt   {both_forces(answer.bolt_load_low_n, unit)} to {both_forces(answer.bolt_load_high_n, unit)}",
        f"  a hole      {both_forces(answer.strip_usable_n, unit)}; a bolt {both_forces(answer.bolt_proof_n, unit)}",
        f"  margins     hole {answer.hole_margin_low:.1f} to {answer.hole_margin_high:.1f}, "
        f"bolt {answer.bolt_margin_low:.1f} to {answer.bolt_margin_high:.1f}",
        f"  stop at     {both_torques(answer.screw_torque_limit_nm, unit)} on the centre screw,",
        f"              {both_torques(answer.bolt_torque_limit_nm, unit)} on each bolt when those are turned",
        "",
        *(wrap(one, first="  - ", indent="    ") for one in answer.assumptions),
    ]
