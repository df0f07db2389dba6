"""``bellcrank governor``: droop both ways, whether weights and spring are steady, and what a swing means."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.show_answered import answered_lines
from bellcrank.shop.engine_answers import governor_in_words
from bellcrank.shop.governors import BASES, SWINGS, Governed, governed_from_words
from bellcrank.units import convert


class Typed(TypedDict):
    """What may be typed about a governor."""

    no_load: str
    loaded: str
    droop: str
    of: str
    swings: str
    swing_low: str
    swing_high: str
    blade: str
    weights: str
    circle: str
    turning: str
    spring_pull: str
    stretch: str
    lever: str
    travel: str
    sticks: str


@dataclass(frozen=True, slots=True)
class GovernorAnswer:
    """A governed engine; what was not asked is empty."""

    no_load_rpm: float
    rated_rpm: float
    droop_of_rated_percent: float
    droop_of_no_load_percent: float
    swing_rpm: float | None
    swing_wide: bool | None  # wider than from no load to full load
    tip_speed_ms: float | None
    tip_verdict: str | None  # passes, fails, undecided
    steady: bool | None  # weights and spring by themselves
    spring_rate_n_mm: float | None
    least_rate_n_mm: float | None  # a softer spring hunts
    weights_droop_percent: float | None  # over the way of the sleeve
    sticking_band_percent: float | None
    swinging: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]


@click.command("governor")
@click.option("--no-load", default="", metavar="“3600 rpm”", help="Speed without load.")
@click.option("--loaded", required=True, metavar="“3400 rpm”", help="Speed with full load, the rated speed.")
@click.option("--droop", default="", metavar="“5 %”", help="Or the droop, to get the speed without load.")
@click.option("--of", default="", metavar="|".join(BASES), help="Which speed that droop is a share of; else rated.")
@click.option("--swings", default="", metavar="HOW", help=f"How it swings with nothing to do: {', '.join(SWINGS)}.")
@click.option("--swing-low", default="", metavar="“2900 rpm”", help="Lowest speed while it swings.")
@click.option("--swing-high", default="", metavar="“3500 rpm”", help="Highest speed while it swings.")
@click.option("--blade", default="", metavar="“530 mm”", help="Blade tip to tip, when it sits on the crank.")
@click.option("--weights", default="", metavar="“20 g”", help="Mass of the governor's weights.")
@click.option("--circle", default="", metavar="“20 mm”", help="How far they turn from the middle.")
@click.option("--turning", default="", metavar="“2900 rpm”", help="Speed of the governor itself.")
@click.option("--spring-pull", default="", metavar="“5 N”", help="Pull of its spring, at the sleeve; with --stretch.")
@click.option("--stretch", default="", metavar="“2.5 mm”", help="How far that pull stretches it.")
@click.option("--lever", default="", metavar="0.5", help="How far the weights move out for each mm of the sleeve.")
@click.option("--travel", default="", metavar="“2 mm”", help="Way of the sleeve from stop to stop.")
@click.option("--sticks", default="", metavar="“1 N”", help="Push that moves a sticky one, standing still.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say how far a governor lets the speed fall, where it must stand without load, and what a swing means."""
    found = governed_from_words({name: str(value) for name, value in typed.items() if value})
    desk.tell(_answer(found), lambda: answered_lines(governor_in_words(found)))


def _answer(found: Governed) -> GovernorAnswer:
    swing, tip, weighted = found.swing, found.tip, found.weighted
    return GovernorAnswer(
        no_load_rpm=convert(found.no_load, "rpm", "speed"),
        rated_rpm=convert(found.rated, "rpm", "speed"),
        droop_of_rated_percent=100 * found.of_rated,
        droop_of_no_load_percent=100 * found.of_no_load,
        swing_rpm=convert(swing.high - swing.low, "rpm", "speed") if swing else None,
        swing_wide=swing.wide if swing else None,
        tip_speed_ms=tip.speed.value if tip else None,
        tip_verdict=str(tip.verdict) if tip else None,
        steady=weighted.steady if weighted else None,
        spring_rate_n_mm=weighted.spring_rate / 1000 if weighted else None,
        least_rate_n_mm=weighted.least_rate / 1000 if weighted else None,
        weights_droop_percent=_percent(weighted.droop) if weighted else None,
        sticking_band_percent=_percent(weighted.band) if weighted else None,
        swinging=found.swinging,
        cautions=found.cautions,
        notes=found.notes,
    )


def _percent(share: float | None) -> float | None:
    return None if share is None else 100 * share
