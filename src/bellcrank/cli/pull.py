"""``bellcrank pull``: hundreds of computed pulls of the cord, as shares with their intervals."""

import math
import os
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.progress import at_work
from bellcrank.cli.show_pulls import pull_lines, sensitivity_lines
from bellcrank.cli.slip_options import SlipTyped, slip_options
from bellcrank.engine.pull.many import PullRates
from bellcrank.engine.slip import slip_words
from bellcrank.shop.engines import engine_named
from bellcrank.shop.pulls import (
    PULL_CAUTIONS,
    PULL_NOTES,
    USUAL_PULLS,
    USUAL_SEED,
    Knob,
    PullsAsked,
    over_the_range,
    pulled,
    pulls_from_words,
    sensitivity,
)
from bellcrank.stats.share import Share


class Typed(SlipTyped):
    """What may be typed about pulls."""

    engine: str
    pulls: str
    seed: str
    operator: str
    blade: str
    release: str
    ignition: str
    height: str
    temperature: str


@dataclass(frozen=True, slots=True)
class PullAnswer:
    """What came of the pulls: shares, the interval that holds each 19 times in 20, and sizes."""

    engine: str
    slip_deg: float  # below zero early
    slip: str
    pulls: int
    seed: int
    shares: Mapping[str, float]  # together one
    pops_intake: float
    pops_exhaust: float
    ignitable: float
    kicks_back_if_ignitable: float
    catches_if_ignitable: float
    bounces: float  # compression alone dragged the hand back
    intervals: Mapping[str, tuple[float, float]]  # of every share above
    over_the_range: Mapping[str, tuple[float, float]]  # nine of ten engines of the card's range lie between
    cord_force_n: float  # largest of a pull, median
    cord_force_tenth_n: float  # one pull in ten has more
    kick_force_n: float  # while the crank turns back, median of the pulls that kick
    impulse_ns: float
    reverse_energy_j: float
    reverse_energy_tenth_j: float
    reverse_speed_rpm: float
    handle_torn: float  # share of the kicks
    energy_unbooked: float  # most of any pull
    cautions: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KnobAnswer:
    """What one value moves, from its low end to its high."""

    name: str  # of the value
    slip_deg: float  # below zero early
    slip: str
    kicks_back_if_ignitable: tuple[float, float]
    catches_if_ignitable: tuple[float, float]
    pops_intake: tuple[float, float]


@dataclass(frozen=True, slots=True)
class SensitivityAnswer:
    """What each of the card's values moves."""

    engine: str
    knobs: tuple[KnobAnswer, ...]


@click.command("pull")
@click.option("--engine", default="overhead-valve-160", show_default=True, metavar="CARD", help="The engine's card.")
@slip_options
@click.option("--pulls", default=USUAL_PULLS, show_default=True, help="How many.")
@click.option("--seed", default=USUAL_SEED, show_default=True, help="The same seed gives the same pulls.")
@click.option("--operator", default="usual", show_default=True, help="Who pulls: usual, strong, light.")
@click.option("--blade", default="tight", show_default=True, metavar="tight|loose", help="The blade.")
@click.option("--release", default="works", show_default=True, metavar="works|dead", help="The compression release.")
@click.option("--ignition", default="module", show_default=True, metavar="module|points", help="What times the spark.")
@click.option("--height", default="", metavar="“500 m”", help="Above the sea.")
@click.option("--temperature", default="", metavar="“20 °C”", help="Of the air.")
@click.option("--workers", type=click.IntRange(1, 64), default=None, help="Threads; changes no answer.")
@click.option("--sensitivity", "ask_sensitivity", is_flag=True, help="Say what each value of the card moves.")
@every_command
@pass_desk
def command(desk: Desk, /, workers: int | None, ask_sensitivity: bool, **typed: Unpack[Typed]) -> None:
    """Pull the cord of an engine some hundred times by computation, its flywheel slipped or not."""
    library, threads = open_library(), workers or os.cpu_count() or 1
    told = {name: str(value) for name, value in typed.items() if value}
    if ask_sensitivity:
        card, knobs = engine_named(library, told.get("engine", "")), []
        with at_work("values turned", 1) as work:
            for knob in sensitivity(library, card, threads):
                knobs.append(knob)
                if not work(len(knobs)):
                    break
        desk.tell(SensitivityAnswer(card.id, tuple(map(_knob, knobs))), lambda: sensitivity_lines(card, knobs))
        return
    asked = pulls_from_words(library, told)
    with at_work("pulls", int(asked.drawn.rows.shape[0])) as work:
        rates = pulled(asked, threads, work)
    ranges = over_the_range(library, asked)
    desk.tell(_answer(asked, rates, ranges), lambda: pull_lines(asked, rates, ranges))


def _knob(knob: Knob) -> KnobAnswer:
    degrees = round(math.degrees(knob.slip), 6)
    return KnobAnswer(knob.name, degrees, slip_words(knob.slip), knob.kicks, knob.starts, knob.pops)


def _answer(asked: PullsAsked, rates: PullRates, ranges: Mapping[str, tuple[float, float]]) -> PullAnswer:
    beside: dict[str, Share] = {str(outcome): share for outcome, share in rates.shares.items()}
    beside |= {
        name: getattr(rates, name)
        for name in (
            "bounces",
            "pops_intake",
            "pops_exhaust",
            "ignitable",
            "kicks_back_if_ignitable",
            "catches_if_ignitable",
        )
    }
    return PullAnswer(
        engine=asked.card.id,
        slip_deg=round(math.degrees(asked.setting.slip), 6),
        slip=slip_words(asked.setting.slip),
        pulls=rates.pulls,
        seed=asked.seed,
        shares={str(outcome): share.value for outcome, share in rates.shares.items()},
        pops_intake=rates.pops_intake.value,
        pops_exhaust=rates.pops_exhaust.value,
        ignitable=rates.ignitable.value,
        kicks_back_if_ignitable=rates.kicks_back_if_ignitable.value,
        catches_if_ignitable=rates.catches_if_ignitable.value,
        bounces=rates.bounces.value,
        intervals={name: (share.low, share.high) for name, share in beside.items()},
        over_the_range=ranges,
        cord_force_n=rates.cord_force.median,
        cord_force_tenth_n=rates.cord_force.tenth,
        kick_force_n=rates.kick_force.median,
        impulse_ns=rates.impulse.median,
        reverse_energy_j=rates.reverse_energy.median,
        reverse_energy_tenth_j=rates.reverse_energy.tenth,
        reverse_speed_rpm=rates.reverse_speed.median * 60 / (2 * math.pi),
        handle_torn=rates.torn.value,
        energy_unbooked=rates.unbooked,
        cautions=PULL_CAUTIONS,
        notes=PULL_NOTES,
    )
