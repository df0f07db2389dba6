"""``bellcrank spark``: the voltage a plug needs, the lowest speed that gives it, and what a tester proves."""

from dataclasses import dataclass
from typing import Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.show_answered import answered_lines
from bellcrank.cli.slip_options import SlipTyped, slip_options
from bellcrank.shop.engine_answers import spark_in_words
from bellcrank.shop.plug_sparks import SPARK_CAUTIONS, Jump, Sparked, sparked_from_words
from bellcrank.units import convert


class Typed(SlipTyped):
    """What may be typed about a spark."""

    engine: str
    gap: str
    tester: str
    turning: str


@dataclass(frozen=True, slots=True)
class JumpAnswer:
    """What a spark needs in one place."""

    name: str
    where: str
    voltage_kv: float  # at most, without a compression release
    lowest_speed_rpm: float
    lowest_speed_low_rpm: float  # with the strongest magneto of such engines
    lowest_speed_high_rpm: float  # with the weakest


@dataclass(frozen=True, slots=True)
class SparkAnswer:
    """What the plug of an engine needs; what was not asked is empty."""

    engine: str
    gap_mm: float
    in_air: JumpAnswer
    in_place: JumpAnswer
    at_top: JumpAnswer
    slipped: JumpAnswer | None
    least_tester_mm: float  # in open air it asks as much as the cylinder at the top
    tester_mm: float | None
    tester_kv: float | None
    tester_enough: bool | None
    turned: str
    words: tuple[str, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]


@click.command("spark")
@click.option("--engine", default="overhead-valve-160", show_default=True, metavar="CARD", help="The engine's card.")
@click.option("--gap", default="", metavar="“0.75 mm”", help="Of the plug; else as the card has it.")
@click.option("--tester", default="", metavar="“5 mm”", help="Gap of a tester in open air.")
@click.option("--turning", default="", metavar="“400 rpm”", help="Speed it is turned at.")
@slip_options
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say what voltage a plug needs in air and in the cylinder, from which speed on, and what a tester proves."""
    found = sparked_from_words(open_library(), {name: str(value) for name, value in typed.items() if value})
    desk.tell(_answer(found), lambda: answered_lines(spark_in_words(found)))


def _answer(found: Sparked) -> SparkAnswer:
    tester = found.tester
    return SparkAnswer(
        engine=found.card.id,
        gap_mm=convert(found.gap, "mm", "length"),
        in_air=_jump(found.air),
        in_place=_jump(found.placed),
        at_top=_jump(found.top),
        slipped=_jump(found.slipped) if found.slipped else None,
        least_tester_mm=convert(found.least_tester, "mm", "length"),
        tester_mm=convert(tester.gap, "mm", "length") if tester else None,
        tester_kv=convert(tester.voltage, "kV", "voltage") if tester else None,
        tester_enough=tester.enough if tester else None,
        turned=found.turned,
        words=found.sentences,
        cautions=SPARK_CAUTIONS,
        notes=found.notes,
    )


def _jump(jump: Jump) -> JumpAnswer:
    return JumpAnswer(
        name=jump.name,
        where=jump.where,
        voltage_kv=convert(jump.voltage, "kV", "voltage"),
        lowest_speed_rpm=convert(jump.speed, "rpm", "speed"),
        lowest_speed_low_rpm=convert(jump.speed_low, "rpm", "speed"),
        lowest_speed_high_rpm=convert(jump.speed_high, "rpm", "speed"),
    )
