"""Answers of the numbers bench about the engine in words: timing, leak-down, compression, jet."""

from collections.abc import Mapping

from bellcrank.engine.slip import same_place, slip_words
from bellcrank.knowledge.model import Library
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
    spark_place,
    timed_from_words,
    valves_at,
)
from bellcrank.units import convert, show


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
    bars = convert(found.low, "bar", "pressure"), convert(found.high, "bar", "pressure")
    return Answered(
        lead="the gauge should read",
        figure=f"{low:.0f} to {high:.0f} psi",
        sentences=(),
        lines=(("in bar", f"{bars[0]:.1f} to {bars[1]:.1f} bar"), ("trapped", f"{found.ratio:.2f} to 1")),
        cautions=(GAUGE_CAUTION,),
        notes=found.notes,
        found=found,
    )


def jet_answer(library: Library, typed: Mapping[str, str], unit: str) -> Answered:
    """Say how much richer a jet runs in other air, and which jet gives the old mixture."""
    del library, unit  # the air says all
    found = jet_from_words(typed)
    richer = f"{abs(found.richness - 1):.1%} {'richer' if found.richness >= 1 else 'leaner'} with the old jet"
    figure = f"{found.factor:.3f} of its diameter"
    if found.old is not None and found.new is not None:
        figure = f"{show(found.new, 'mm', 'length', 3)} instead of {show(found.old, 'mm', 'length', 3)}"
    return Answered(
        lead="a jet of",
        figure=figure,
        sentences=(),
        lines=(
            ("mixture", richer),
            ("power", f"{found.density / found.chosen_density:.0%} of what it had, mixture right"),
            ("air", f"{show(found.density, 'kg/m³', 'density')} instead of {found.chosen_density:.3f}"),
        ),
        cautions=(),
        notes=JET_NOTES,
        found=found,
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
