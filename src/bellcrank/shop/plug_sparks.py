"""The voltage a plug needs, from what was typed: in open air, in the cylinder, slipped; and what a tester proves."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.engine.air import SEA_LEVEL_PRESSURE
from bellcrank.engine.card import EngineCard
from bellcrank.engine.slip import slip_words
from bellcrank.engine.spark_voltage import (
    LEAST_GAP,
    MOST_GAP,
    ROOM,
    breakdown_voltage,
    gap_for_voltage,
    lowest_firing_speed,
)
from bellcrank.engine.timing import Spark, sparks
from bellcrank.errors import OutOfRange
from bellcrank.knowledge.model import Library
from bellcrank.shop.engines import engine_named, slip_from_words, spark_place
from bellcrank.units import convert, read_positive, show

SPARK_CAUTIONS = (
    "Closed spark tester, plug hole covered, fuel wiped up: an open spark lights what comes out of the hole.",
    "No lead, tester or plug in the hand while the cord is pulled; nobody with a pacemaker beside it.",
    "Hands and feet away from the blade: the cord turns it too. No further pulls on a cord that jerks.",
)
NO_TIMING = "A tester says nothing about timing: it jumps just as well when the flywheel has slipped. Look at the key."
SPARK_NOTES = (
    "For an even field between round electrodes in air at sea level: worn, sharp or hot electrodes ask less, another "
    "formula in use asks 4 to 5 % more. A tester with pointed pins asks far less at the same gap.",
    "In the cylinder without a compression release, nothing burning yet: with a release it is less. Fuel, oil and soot "
    "on the plug are left out: they let the spark creep away, which a tester never sees.",
    "The lowest speeds go with the magneto's voltage, which rises with speed; how fast is a guess, hence the range. An "
    "electronic module also needs a speed of its own to wake up.",
)
SLIPS = ("slip", "arc", "key_offset")


@dataclass(frozen=True, slots=True)
class Jump:
    """What a spark needs in one place, and the lowest speeds that give it; speeds in rad/s."""

    name: str  # "in open air"
    where: str  # "20° before the top, compression stroke"; empty where the name says it
    voltage: float  # at most [V]
    speed_low: float  # with the strongest magneto of such engines
    speed: float
    speed_high: float  # with the weakest


@dataclass(frozen=True, slots=True)
class Tested:
    """A tester with a fixed gap in open air."""

    gap: float  # [m]
    voltage: float  # it asks for [V]
    enough: bool  # as much as the cylinder at its worst


@dataclass(frozen=True, slots=True)
class Sparked:
    """What the plug of an engine needs."""

    card: EngineCard
    gap: float  # [m]
    air: Jump
    placed: Jump  # where the key puts it
    top: Jump
    slipped: Jump | None
    least_tester: float  # gap of a tester in open air that asks as much as the cylinder at its worst [m]
    tester: Tested | None
    turning: float | None  # speed it is turned at [rad/s]
    notes: tuple[str, ...]

    @property
    def now(self) -> Jump:
        """Where the spark falls now."""
        return self.slipped or self.placed

    @property
    def turned(self) -> str:
        """Say whether it is turned fast enough for the spark where it falls now; empty when no speed was told."""
        if self.turning is None:
            return ""
        if self.turning >= self.now.speed_high:
            return "fast enough"
        return "may be fast enough" if self.turning >= self.now.speed_low else "too slow"

    @property
    def sentences(self) -> tuple[str, ...]:
        """What a tester proves, what a slip does to the voltage, and what no tester says."""
        return (*_tested_words(self.tester, self.top), *_slipped_words(self.slipped, self.placed), NO_TIMING)


def sparked_from_words(library: Library, typed: Mapping[str, str]) -> Sparked:
    """Read an engine, where told gap, advance, slip, a tester's gap and a turning speed; say what its sparks need."""
    card, told = engine_named(library, typed.get("engine", "")), typed.get("advance", "")
    gap = _gap(typed["gap"], "Gap of the plug", "gap") if typed.get("gap") else card.gap.value
    advance = read_positive(told, "angle", default="°", what="Advance").si if told else card.advance.value
    slip = slip_from_words(typed) if any(typed.get(name) for name in SLIPS) else 0.0
    placed, top, slipped = (
        sparks(early, by, card.valves, card.drive, gap)[0]
        for early, by in ((advance, 0.0), (0.0, 0.0), (advance, slip))
    )
    at_top = _jump(card, "at the top", "", top.voltage)
    turning = typed.get("turning", "")
    return Sparked(
        card=card,
        gap=gap,
        air=_jump(card, "in open air", "", breakdown_voltage(gap, SEA_LEVEL_PRESSURE, ROOM)),
        placed=_in_cylinder(card, "key good", placed),
        top=at_top,
        slipped=_in_cylinder(card, slip_words(slip), slipped) if slip else None,
        least_tester=gap_for_voltage(at_top.voltage, SEA_LEVEL_PRESSURE, ROOM),
        tester=_tester(typed["tester"], at_top.voltage) if typed.get("tester") else None,
        turning=read_positive(turning, "speed", default="rpm", what="Speed it is turned at").si if turning else None,
        notes=(*SPARK_NOTES, *_taken(card, typed)),
    )


def _gap(typed: str, what: str, field: str) -> float:
    gap = read_positive(typed, "length", default="mm", what=what).si
    if not LEAST_GAP <= gap <= MOST_GAP:
        raise OutOfRange(
            f"{what} is {typed}; it must be from {convert(LEAST_GAP, 'mm', 'length'):g} to "
            f"{convert(MOST_GAP, 'mm', 'length'):g} mm. Measure it with a wire gauge.",
            field,
        )
    return gap


def _tester(typed: str, needed: float) -> Tested:
    gap = _gap(typed, "Gap of the tester", "tester")
    voltage = breakdown_voltage(gap, SEA_LEVEL_PRESSURE, ROOM)
    return Tested(gap, voltage, voltage >= needed)


def _in_cylinder(card: EngineCard, name: str, spark: Spark) -> Jump:
    return _jump(card, name, spark_place(spark), spark.voltage)


def _jump(card: EngineCard, name: str, where: str, voltage: float) -> Jump:
    rises = card.voltage_per_speed
    low, middle, high = (lowest_firing_speed(voltage, one) for one in (rises.high, rises.value, rises.low))
    return Jump(name, where, voltage, low, middle, high)


def _taken(card: EngineCard, typed: Mapping[str, str]) -> tuple[str, ...]:
    """Say what was taken from the engine's card because it was not told."""
    taken = []
    if not typed.get("gap"):
        taken.append(f"The gap was not told: {show(card.gap.value, 'mm', 'length')} is taken.")
    if not typed.get("advance"):
        low, usual, high = (math.degrees(one) for one in (card.advance.low, card.advance.value, card.advance.high))
        taken.append(f"Advance {usual:.0f}° was not told; such engines have {low:.0f}° to {high:.0f}°.")
    return (*taken, f"Sizes, valve timing and magneto: {card.words}; from memory, of no named engine.")


def _tested_words(tester: Tested | None, top: Jump) -> tuple[str, ...]:
    needed = _kilovolts(top.voltage)
    if tester is None:
        return ("A plug that sparks in open air proves little: under compression it needs far more.",)
    asks = f"The tester at {show(tester.gap, 'mm', 'length')} asks for {_kilovolts(tester.voltage)} in open air"
    if tester.enough:
        return (f"{asks}, as much as the cylinder's {needed} at the top: a spark there proves voltage enough.",)
    return (f"{asks}, less than the cylinder's {needed} at the top: a spark there does not prove the plug's.",)


def _slipped_words(slipped: Jump | None, placed: Jump) -> tuple[str, ...]:
    if slipped is None:
        return ()
    than, easier = ("less", "easier") if slipped.voltage < placed.voltage else ("more", "harder")
    needs = f"Slipped, {slipped.name}, it needs {_kilovolts(slipped.voltage)}"
    return (
        f"{needs}, {than} than the {_kilovolts(placed.voltage)} where the key puts it: {easier} to make, and in the "
        "wrong place.",
    )


def _kilovolts(volts: float) -> str:
    return show(volts, "kV", "voltage")
