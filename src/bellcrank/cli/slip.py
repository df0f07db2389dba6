"""``bellcrank slip``: where the flywheel probably sits, by what the cord did and what was looked at."""

import math
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.show_answered import answered_lines
from bellcrank.engine.slip import slip_words
from bellcrank.engine.slip_belief import KeyState
from bellcrank.shop.cord_answers import told_by_cord
from bellcrank.shop.cords import CORD_CAUTIONS, CORD_NOTES, CordTold, cord_from_words


class Typed(TypedDict):
    """What may be typed about pulls and what was looked at."""

    engine: str
    jerks: str
    of: str
    starts: str
    solids: str
    pops: str
    unsteady: str
    key: str
    struck: str
    blade: str
    release: str
    ignition: str


@dataclass(frozen=True, slots=True)
class SlipChance:
    """How likely the flywheel sits there."""

    slip_deg: float  # below zero early
    slip: str
    probability: float


@dataclass(frozen=True, slots=True)
class Explained:
    """What may explain it, and how likely."""

    words: str
    probability: float


@dataclass(frozen=True, slots=True)
class SlipAnswer:
    """What the cord told."""

    engine: str
    pulls: int | None
    jerks: int | None
    jerk_share: float | None
    jerk_share_low: float | None
    jerk_share_high: float | None
    explanations: tuple[Explained, ...]  # likeliest first, together one
    likeliest_deg: float
    likeliest: str
    ranges: str  # that hold nine tenths
    posterior: tuple[SlipChance, ...]  # over the whole turn, together one
    fits: bool
    next_look: str
    cautions: tuple[str, ...]
    notes: tuple[str, ...]


@click.command("slip")
@click.option("--engine", default="overhead-valve-160", show_default=True, metavar="CARD", help="The engine's card.")
@click.option("--jerks", default="", metavar="3", help="Pulls that jerked the cord back.")
@click.option("--of", default="", metavar="10", help="Of how many pulls.")
@click.option("--starts", default="", metavar="0", help="Pulls after which it ran.")
@click.option("--solids", default="", metavar="1", help="Pulls in which the cord went solid.")
@click.option("--pops", default="", metavar="yes|no", help="It popped through the carburettor.")
@click.option("--unsteady", default="", metavar="yes|no", help="When it ran, it ran unsteadily.")
@click.option("--key", default="", metavar="STATE", help=f"The key is: {', '.join(KeyState)}.")
@click.option("--struck", default="", metavar="yes|no", help="The blade hit something.")
@click.option("--blade", default="", metavar="tight|loose", help="The blade, when it was looked at.")
@click.option("--release", default="", metavar="works|dead", help="The compression release, when it was looked at.")
@click.option("--ignition", default="", metavar="module|points", help="What times the spark; module unless told.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say where the flywheel probably sits on its taper, and what else may jerk the cord."""
    found = cord_from_words(open_library(), {name: str(value) for name, value in typed.items() if value})
    desk.tell(_answer(found), lambda: answered_lines(told_by_cord(found)))


def _answer(found: CordTold) -> SlipAnswer:
    jerks, belief = found.jerks, found.belief
    return SlipAnswer(
        engine=found.card.id,
        pulls=found.felt.pulls if found.felt else None,
        jerks=jerks.count if jerks else None,
        jerk_share=jerks.value if jerks else None,
        jerk_share_low=jerks.low if jerks else None,
        jerk_share_high=jerks.high if jerks else None,
        explanations=tuple(Explained(str(words), chance) for words, chance in belief.explained),
        likeliest_deg=round(math.degrees(belief.likeliest), 6),
        likeliest=slip_words(belief.likeliest),
        ranges=found.ranges_words,
        posterior=tuple(
            SlipChance(round(math.degrees(slip), 6), slip_words(slip), float(chance))
            for slip, chance in zip(map(float, belief.slips), belief.chances, strict=True)
        ),
        fits=found.fits,
        next_look=found.next_look,
        cautions=CORD_CAUTIONS,
        notes=(f"Engine: {found.card.words}.", *CORD_NOTES),
    )
