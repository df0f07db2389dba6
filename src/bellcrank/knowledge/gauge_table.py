"""The table of what a compression gauge reads on the engines of a kind's cards, read and written."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from bellcrank.engine.card import QUANTITIES, EngineCard
from bellcrank.engine.gauge import GaugeReadings, Release, gauge_readings
from bellcrank.engine.slip_table import mark_of
from bellcrank.knowledge.line import Line
from bellcrank.units import convert, to_si

HEADING = "card,release,median_kpa,spread,made_of"


@dataclass(frozen=True, slots=True)
class GaugeTable:
    """Readings by card and by what the release does; ``made_of`` marks the card each was worked out from."""

    readings: Mapping[tuple[str, Release], GaugeReadings] = field(default_factory=dict)
    made_of: Mapping[tuple[str, Release], str] = field(default_factory=dict)


def gauge_table(lines: Iterable[Line]) -> GaugeTable:
    """Make the table of its lines."""
    readings, made_of = {}, {}
    for line in lines:
        key = line.words("card"), line.choice("release", Release)
        median = to_si(line.amount("median_kpa"), "kPa", "pressure")
        readings[key] = GaugeReadings(median, line.amount("spread"))
        made_of[key] = line.words("made_of")
    return GaugeTable(readings, made_of)


def gauge_lines(cards: Iterable[EngineCard]) -> list[str]:
    """Work the table out and give it as lines; seconds for each card."""
    lines = [HEADING]
    for card in cards:
        for release in Release:
            one = gauge_readings(card, release)
            median = convert(one.median, "kPa", "pressure")
            lines.append(f"{card.id},{release},{median:.1f},{one.spread:.3f},{mark_of_card(card)}")
    return lines


def mark_of_card(card: EngineCard) -> str:
    """Give a mark that changes with any value of the card."""
    return mark_of((name, getattr(card, name)) for name in QUANTITIES)
