"""``bellcrank timing``: where both sparks fall when the flywheel has slipped, and what to expect."""

import math
from dataclasses import dataclass
from typing import Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.slip_options import SlipTyped, slip_options
from bellcrank.cli.terminal import heading, wrap
from bellcrank.engine.slip import same_place, slip_words
from bellcrank.engine.symptoms import Expected
from bellcrank.engine.timing import Spark, Stroke
from bellcrank.shop.engines import TIMING_CAUTIONS, Timed, spark_place, timed_from_words, valves_at
from bellcrank.units import convert


class Typed(SlipTyped):
    """What may be typed about a slip."""

    engine: str


@dataclass(frozen=True, slots=True)
class SparkAnswer:
    """One of the two sparks of a cycle."""

    main: bool
    angle_deg: float  # 0 at firing top dead centre, to 540
    words: str  # "80° before the top, compression stroke"
    valves: str  # "intake open"
    stroke: Stroke
    intake_open: bool
    exhaust_open: bool
    voltage_kv: float  # at most, without a compression release


@dataclass(frozen=True, slots=True)
class TimingAnswer:
    """Both sparks, and what to expect."""

    engine: str
    advance_deg: float
    slip_deg: float  # below zero early
    slip: str  # in words
    same_place_deg: float
    same_place: str
    sparks: tuple[SparkAnswer, SparkAnswer]
    expected: tuple[Expected, ...]
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]


@click.command("timing")
@click.option("--engine", default="overhead-valve-160", show_default=True, metavar="CARD", help="The engine's card.")
@slip_options
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say where both sparks of a cycle fall for a slipped flywheel, and what the engine does then."""
    answer = _answer(timed_from_words(open_library(), {name: str(value) for name, value in typed.items() if value}))
    desk.tell(answer, lambda: _lines(answer))


def _answer(found: Timed) -> TimingAnswer:
    other = same_place(found.slip)
    main, wasted = found.sparks
    return TimingAnswer(
        engine=found.card.id,
        advance_deg=math.degrees(found.advance),
        slip_deg=math.degrees(found.slip),
        slip=slip_words(found.slip),
        same_place_deg=math.degrees(other),
        same_place=slip_words(other),
        sparks=(_spark(main), _spark(wasted)),
        expected=found.expected,
        cautions=TIMING_CAUTIONS,
        assumptions=found.notes,
    )


def _spark(spark: Spark) -> SparkAnswer:
    return SparkAnswer(
        main=spark.main,
        angle_deg=math.degrees(spark.angle),
        words=spark_place(spark),
        valves=valves_at(spark),
        stroke=spark.stroke,
        intake_open=spark.intake_open,
        exhaust_open=spark.exhaust_open,
        voltage_kv=convert(spark.voltage, "kV", "voltage"),
    )


def _lines(answer: TimingAnswer) -> list[str]:
    lines = [*(wrap(caution, first="! ", indent="  ") for caution in answer.cautions), ""]
    other = "" if answer.same_place == answer.slip else f"; the same place as {answer.same_place}"
    lines.append(wrap(f"flywheel {answer.slip}{other}"))
    for one in answer.sparks:
        name = "main spark  " if one.main else "wasted spark"
        lines.append(
            wrap(f"{one.words}, {one.valves}, up to {one.voltage_kv:.1f} kV", first=f"  {name}  ", indent=" " * 16)
        )
    lines.append(heading("what to expect"))
    for each in answer.expected:
        sure = "" if each.sure else " (not sure)"
        lines.append(wrap(f"{each.symptom}{sure}: {each.why}", first="  - ", indent="    "))
    return [*lines, "", *(wrap(one, first="  - ", indent="    ") for one in answer.assumptions)]
