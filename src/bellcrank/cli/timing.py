"""``bellcrank timing``: where both sparks fall when the flywheel has slipped, and what to expect."""

import math
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import heading, wrap
from bellcrank.engine.card import EngineCard
from bellcrank.engine.slip import same_place, slip_words
from bellcrank.engine.symptoms import Expected, expected_symptoms
from bellcrank.engine.timing import Spark, Stroke, sparks
from bellcrank.shop.engines import engine_named, slip_from_words
from bellcrank.units import convert, read_positive

CAUTIONS = (
    "Plug lead off and tied back before you turn the flywheel to measure.",
    "No further pulls on a cord that jerks until the key was looked at: it breaks fingers and wrists.",
)
TOPS = {Stroke.COMPRESSION: 0, Stroke.POWER: 0, Stroke.EXHAUST: 360, Stroke.INTAKE: 360}  # [°] the nearest top


class Typed(TypedDict):
    """What may be typed about a slip."""

    engine: str
    slip: str
    arc: str
    rim: str
    key_offset: str
    shaft: str
    advance: str


@dataclass(frozen=True, slots=True)
class SparkAnswer:
    """One of the two sparks of a cycle."""

    main: bool
    angle_deg: float  # 0 at firing top dead centre, to 540
    words: str  # "80° before the top, compression"
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
@click.option("--slip", default="", metavar="“-60 °”", help="Of the flywheel; below zero forward, the spark early.")
@click.option(
    "--arc", default="", metavar="“-105 mm”", help="Or measured along the rim, piston at the top; with --rim."
)
@click.option("--rim", default="", metavar="“100 mm”", help="Radius of the rim.")
@click.option("--key-offset", default="", metavar="“-2 mm”", help="Or between the keyways' edges; with --shaft.")
@click.option("--shaft", default="", metavar="“10 mm”", help="Radius of the shaft at the key.")
@click.option("--advance", default="", metavar="“20 °”", help="Of the spark with a good key, when it is known.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Say where both sparks of a cycle fall for a slipped flywheel, and what the engine does then."""
    words = {name: str(value) for name, value in typed.items() if value}
    card = engine_named(open_library(), typed["engine"])
    known = read_positive(typed["advance"], "angle", default="°", what="Advance").si if typed["advance"] else None
    answer = _answer(card, slip_from_words(words), known)
    desk.tell(answer, lambda: _lines(answer))


def _answer(card: EngineCard, slip: float, advance: float | None) -> TimingAnswer:
    before = card.advance.value if advance is None else advance
    main, wasted = sparks(before, slip, card.valves, card.drive, card.gap.value)
    other = same_place(slip)
    made = [f"Sizes and valve timing: {card.words}; from memory, of no named engine."]
    if advance is None:
        low, high = math.degrees(card.advance.low), math.degrees(card.advance.high)
        made.append(f"Advance {math.degrees(before):.0f}° was not told; such engines have {low:.0f}° to {high:.0f}°.")
    made.append("Voltage without a compression release, nothing burning yet: with one it is lower.")
    return TimingAnswer(
        engine=card.id,
        advance_deg=math.degrees(before),
        slip_deg=math.degrees(slip),
        slip=slip_words(slip),
        same_place_deg=math.degrees(other),
        same_place=slip_words(other),
        sparks=(_spark(main), _spark(wasted)),
        expected=expected_symptoms(slip, main, wasted),
        cautions=CAUTIONS,
        assumptions=tuple(made),
    )


def _spark(spark: Spark) -> SparkAnswer:
    degrees = math.degrees(spark.angle)
    from_top = degrees - TOPS[spark.stroke]
    place = (
        "at the top"
        if round(from_top) == 0
        else f"{abs(from_top):.0f}° {'before' if from_top < 0 else 'after'} the top"
    )
    return SparkAnswer(
        main=spark.main,
        angle_deg=degrees,
        words=f"{place}, {spark.stroke} stroke",
        stroke=spark.stroke,
        intake_open=spark.intake_open,
        exhaust_open=spark.exhaust_open,
        voltage_kv=convert(spark.voltage, "kV", "voltage"),
    )


def _lines(answer: TimingAnswer) -> list[str]:
    lines = [*(wrap(caution, first="! ", indent="  ") for caution in answer.cautions), ""]
    lines.append(wrap(f"flywheel {answer.slip}; the same place as {answer.same_place}"))
    for one in answer.sparks:
        valves = [name for name, is_open in (("intake", one.intake_open), ("exhaust", one.exhaust_open)) if is_open]
        stand = f"{' and '.join(valves)} open" if valves else "valves shut"
        name = "main spark  " if one.main else "wasted spark"
        lines.append(wrap(f"{one.words}, {stand}, up to {one.voltage_kv:.1f} kV", first=f"  {name}  ", indent=" " * 16))
    lines.append(heading("what to expect"))
    for each in answer.expected:
        sure = "" if each.sure else " (not sure)"
        lines.append(wrap(f"{each.symptom}{sure}: {each.why}", first="  - ", indent="    "))
    return [*lines, "", *(wrap(one, first="  - ", indent="    ") for one in answer.assumptions)]
