"""Reading an engine, its slip, its air and its readings from what was typed."""

from collections.abc import Mapping

from bellcrank.engine.air import Air, air_density, standard_air
from bellcrank.engine.card import EngineCard
from bellcrank.engine.slip import slip_from_key, slip_from_rim
from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.knowledge.model import Library
from bellcrank.units import read, read_positive

WHICH_SLIP = (
    "Say how far the flywheel has slipped: the angle (below zero when it stands forward), or what you measured "
    "at the rim with its radius, or at the keyway with the shaft's radius."
)


def engine_named(library: Library, name: str) -> EngineCard:
    """Find an engine card by its id."""
    cards = {card.id: card for pack in library.packs.values() for card in pack.engine_cards}
    if name not in cards:
        raise NotFound(f"There is no engine card “{name}”. It must be one of {', '.join(cards)}.", "engine")
    return cards[name]


def slip_from_words(typed: Mapping[str, str]) -> float:
    """Read a slip [rad] from slip (degrees), or arc with rim, or key_offset with shaft; below zero is early."""
    told = [name for name in ("slip", "arc", "key_offset") if typed.get(name)]
    if len(told) != 1:
        raise NotUnderstood(WHICH_SLIP, "slip")
    if told[0] == "slip":
        return read(typed["slip"], "angle", default="°", what="Slip").si
    across, around = ("arc", "rim") if told[0] == "arc" else ("key_offset", "shaft")
    if not typed.get(around):
        raise NotUnderstood(WHICH_SLIP, around)
    way = read(typed[across], "length", default="mm", what="Measured way").si
    radius = read_positive(typed[around], "length", default="mm", what="Radius there").si
    return slip_from_rim(way, radius) if told[0] == "arc" else slip_from_key(way, radius)


def air_from_words(height: str, temperature: str = "") -> Air[float]:
    """Read air by its height above the sea and, where it is told, its temperature; nothing told is sea level."""
    air = standard_air(read(height, "length", default="m", what="Height above the sea").si if height else 0.0)
    if not temperature:
        return air
    warm = read(temperature, "temperature", default="°C", what="Temperature of the air").si
    return Air(air.pressure, warm, air_density(air.pressure, warm))
