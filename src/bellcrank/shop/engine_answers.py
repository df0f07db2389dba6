"""Answers of the numbers bench about the engine in words: timing, leak-down, compression, jet, governor, spark."""

from collections.abc import Mapping

from bellcrank.engine.slip import same_place, slip_words
from bellcrank.knowledge.model import Library
from bellcrank.measuring.conformity import Verdict
from bellcrank.shop.answers import Answered
from bellcrank.shop.engines import (
    GAUGE_CAUTION,
    JET_NOTES,
    LEAK_CAUTIONS,
    LEAK_NOTES,
    TIMING_CAUTIONS,
    gauge_from_words,
    jet_from_words,
    leak_from_words,
    richer_words,
    spark_place,
    timed_from_words,
    valves_at,
)
from bellcrank.shop.governor_weights import Weighted
from bellcrank.shop.governors import Governed, governed_from_words
from bellcrank.shop.plug_sparks import SPARK_CAUTIONS, Jump, Sparked, sparked_from_words
from bellcrank.units import convert, show

TIPS = {Verdict.PASSES: "keeps it", Verdict.FAILS: "too fast", Verdict.UNDECIDED: "too close to tell"}


def timing_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say where both sparks of a cycle fall for a slipped flywheel, and what to expect."""
    del unit  # angles have none
    found = timed_from_words(library, typed)
    main, wasted = found.sparks
    there, other = slip_words(found.slip), same_place(found.slip)
    return Answered(
        lead="the spark comes",
        figure=there,
        sentences=tuple(f"{_capital(one.symptom)}{'' if one.sure else ' (not sure)'}." for one in found.expected),
        lines=(
            ("main spark", f"{spark_place(main)}, {valves_at(main)}"),
            ("wasted spark", f"{spark_place(wasted)}, {valves_at(wasted)}"),
            ("the same place as", "a whole turn round" if there == slip_words(other) else slip_words(other)),
            ("voltage", f"up to {convert(main.voltage, 'kV', 'voltage'):.1f} kV"),
        ),
        cautions=TIMING_CAUTIONS,
        notes=(*(f"{_capital(one.symptom)}: {one.why}" for one in found.expected), *found.notes),
        found=found,
    )


def leak_down_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Turn a leak-down reading into the area of the leaks, or an area into a reading."""
    del library, unit  # the tester says all
    found = leak_from_words(typed)
    reading, supply = show(found.reading, "psi", "pressure", 1), show(found.supply, "psi", "pressure")
    area = show(found.leak, "mm²", "area", 2)
    asked_for_leak = bool(typed.get("reading"))
    return Answered(
        lead="leaks of" if asked_for_leak else "reads",
        figure=area if asked_for_leak else reading,
        sentences=(),
        lines=(
            ("reading", f"{reading} of {supply}"),
            ("lost", f"{found.lost:.0%}"),
            ("leaks", area),
            ("tester's orifice", show(found.orifice, "mm²", "area", 2)),
        ),
        cautions=LEAK_CAUTIONS,
        notes=LEAK_NOTES,
        found=found,
    )


def compression_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Give what a compression gauge should read."""
    del unit  # a gauge has psi and bar
    found = gauge_from_words(library, typed)
    low, high = convert(found.low, "psi", "pressure"), convert(found.high, "psi", "pressure")
    released = [convert(one, "psi", "pressure") for one in found.released]
    bars = convert(found.low, "bar", "pressure"), convert(found.high, "bar", "pressure")
    return Answered(
        lead="the gauge should read",
        figure=f"{low:.0f} to {high:.0f} psi",
        sentences=(),
        lines=(
            ("in bar", f"{bars[0]:.1f} to {bars[1]:.1f} bar"),
            ("while a release works", f"{released[0]:.0f} to {released[1]:.0f} psi"),
            ("trapped", f"{found.ratio:.2f} to 1"),
        ),
        cautions=(GAUGE_CAUTION,),
        notes=found.notes,
        found=found,
    )


def jet_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say how much richer a jet runs in other air, and which jet gives the old mixture."""
    del library, unit  # the air says all
    found = jet_from_words(typed)
    warmth = [show(one, "°C", "temperature") for one in (found.temperature, found.chosen_temperature)]
    figure = f"{found.factor:.3f} of its diameter"
    if found.old is not None and found.new is not None:
        figure = f"{show(found.new, 'mm', 'length', 3)} instead of {show(found.old, 'mm', 'length', 3)}"
    return Answered(
        lead="a jet of",
        figure=figure,
        sentences=(),
        lines=(
            ("mixture", f"{richer_words(found.richness)} with the old jet"),
            ("of it by height", richer_words(found.by_height)),
            ("of it by warmth", f"{richer_words(found.by_temperature)}, {warmth[0]} instead of {warmth[1]}"),
            ("power", f"{found.density / found.chosen_density:.0%} of what it had, mixture right"),
            ("air", f"{show(found.density, 'kg/m³', 'density')} instead of {found.chosen_density:.3f}"),
        ),
        cautions=(),
        notes=JET_NOTES,
        found=found,
    )


def governor_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say how far the speed falls under load, or where it must stand without, and what a swing means."""
    del library, unit  # speeds have one unit
    return governor_in_words(governed_from_words(typed))


def governor_in_words(found: Governed) -> Answered:
    """Word a governor's answer for page and terminal."""
    no_load = show(found.no_load, "rpm", "speed")
    return Answered(
        lead="without load" if found.asked_speed else "it droops",
        figure=no_load if found.asked_speed else f"{found.of_rated:.1%} of rated speed",
        sentences=(*_weights_words(found.weighted), *_swing_words(found), *found.swinging),
        lines=(
            ("droop", f"{found.of_rated:.1%} of rated speed, {found.of_no_load:.1%} of no-load speed"),
            ("without load", no_load),
            ("full load", show(found.rated, "rpm", "speed")),
            *_blade_lines(found),
            *_weights_lines(found.weighted),
        ),
        cautions=found.cautions,
        notes=found.notes,
        found=found,
    )


def _swing_words(found: Governed) -> tuple[str, ...]:
    """Hold a swing against the fall from no load to full load."""
    if found.swing is None:
        return ()
    swing, band = found.swing.high - found.swing.low, show(found.no_load - found.rated, "rpm", "speed")
    said = f"It swings by {show(swing, 'rpm', 'speed')}, {found.swing.share:.1%} of the middle speed"
    if found.swing.wide:
        return (f"{said}, more than the {band} from no load to full load: the throttle goes stop to stop. It hunts.",)
    return (f"{said}, within the {band} from no load to full load: watch the throttle before you call it hunting.",)


def _weights_words(weighted: Weighted | None) -> tuple[str, ...]:
    """Say whether weights and spring have a steady place."""
    if weighted is None:
        return ()
    if weighted.steady:
        return ("Weights and spring are steady by themselves.",)
    return ("Weights and spring have no steady place: this spring is too soft for them, it hunts whatever else.",)


def _weights_lines(weighted: Weighted | None) -> tuple[tuple[str, str], ...]:
    """Give the figures of weights and spring."""
    if weighted is None:
        return ()
    rates = (weighted.spring_rate / 1000, weighted.least_rate / 1000)
    lines = [("spring", f"{rates[0]:.2f} N/mm; steady above {rates[1]:.2f} N/mm")]
    if weighted.droop is not None:
        lines.append(("it alone droops", f"{weighted.droop:.1%} over the way of the sleeve"))
    if weighted.band is not None:
        lines.append(("what sticks", f"holds it still over {weighted.band:.1%} of its speed"))
    return tuple(lines)


def _blade_lines(found: Governed) -> tuple[tuple[str, str], ...]:
    """Give the speed of the blade's tips, where a blade was told."""
    if found.tip is None:
        return ()
    tip, limit = (show(one, "m/s", "velocity") for one in (found.tip.speed.value, found.tip.limit))
    return (("blade tips", f"{tip} ± {found.tip.speed.uncertainty:.1f}, allowed {limit}: {TIPS[found.tip.verdict]}"),)


def spark_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say what voltage a plug needs and from which speed it is there, and what a tester proves."""
    del unit  # volts have one unit
    return spark_in_words(sparked_from_words(library, typed))


def spark_in_words(found: Sparked) -> Answered:
    """Word a spark's answer for page and terminal."""
    places = [found.air, found.placed, found.top, *([found.slipped] if found.slipped else [])]
    turned = [(f"at {show(found.turning, 'rpm', 'speed')}", found.turned)] if found.turning is not None else []
    return Answered(
        lead="slipped, the plug needs up to" if found.slipped else "the plug needs up to",
        figure=show(found.now.voltage, "kV", "voltage"),
        sentences=found.sentences,
        lines=(
            *((one.name, _jump_words(one)) for one in places),
            ("a tester in air", f"from {show(found.least_tester, 'mm', 'length', 1)} on asks as much as at the top"),
            *turned,
        ),
        cautions=SPARK_CAUTIONS,
        notes=found.notes,
        found=found,
    )


def _jump_words(jump: Jump) -> str:
    """Say a voltage with the speeds from which it is there."""
    speeds = [convert(one, "rpm", "speed") for one in (jump.speed, jump.speed_low, jump.speed_high)]
    needs = f"{show(jump.voltage, 'kV', 'voltage')}, from {speeds[0]:.0f} rpm on ({speeds[1]:.0f} to {speeds[2]:.0f})"
    return f"{needs}; {jump.where}" if jump.where else needs


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
