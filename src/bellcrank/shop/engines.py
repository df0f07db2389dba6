"""Reading an engine, its slip, its air and its readings from what was typed."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from bellcrank.engine.air import Air, air_density, standard_air
from bellcrank.engine.card import EngineCard
from bellcrank.engine.compression import HIGH_EXPONENT, LOW_EXPONENT, trapped_ratio
from bellcrank.engine.cranking import Cranked, cranking_reading
from bellcrank.engine.flow import curtain_area
from bellcrank.engine.jets import jet_diameter, richness_factor
from bellcrank.engine.leak_down import leak_area, leak_down_reading
from bellcrank.engine.slip import shortest, slip_from_key, slip_from_rim
from bellcrank.engine.slip_table import most_engines_kick
from bellcrank.engine.symptoms import Expected, expected_symptoms
from bellcrank.engine.timing import Spark, Stroke, sparks
from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.knowledge.model import Library
from bellcrank.units import read, read_positive

GAUGE_NOTES = (
    "A first guess, sure to a third, for a quick pull; low for a slow pull, a cold wall or small leaks.",
    "A compression release that works takes off half or more; how much hangs on its lift and on when it lets go, which "
    "are from memory. Condemn no engine by this number, ask leak-down too.",
    "Compare pulls of one engine with each other: a change says more than the number.",
)
USUAL_CRANKING = "400 rpm"  # common practice, no source: 300 to 700 by cord
USUAL_SUPPLY, USUAL_ORIFICE = "80 psi", "0.040 in"  # FAA AC 43.13-1B, paragraph 8-14
TIMING_CAUTIONS = (
    "Plug lead off and tied back before you turn the flywheel to measure.",
    "No further pulls on a cord that jerks until the key was looked at: it breaks fingers and wrists.",
)
LEAK_CAUTIONS = (
    "Plug lead off. Hold the crank or the blade bolt with a bar: the air turns the engine with force.",
    "Take the bar out, and the tool off the blade bolt, before the plug goes back.",
)
GAUGE_CAUTION = "Plug lead off and tied back, throttle open, hands clear of the cord's way back."
LEAK_NOTES = (
    "The area is that of a clean hole like the tester's own: it does not depend on the tester, the percentage does.",
    "Listen where it comes out: carburettor the intake valve, muffler the exhaust valve, breather the rings.",
)
JET_NOTES = (
    "The main jet alone: idle circuit, fixed air bleeds and a choke that does not open fully are left out.",
    "The maker's altitude kit comes first. A leaner jet back at low height burns the engine: note it on the machine.",
)
TOPS = {Stroke.COMPRESSION: 0, Stroke.POWER: 0, Stroke.EXHAUST: 360, Stroke.INTAKE: 360}  # [°] the nearest top
WHICH_SLIP = (
    "Say how far the flywheel has slipped: the angle (below zero when it stands forward), or what you measured "
    "at the rim with its radius, or at the keyway with the shaft's radius."
)


@dataclass(frozen=True, slots=True)
class Gauge:
    """What a compression gauge should read; pressures in Pa over the air around."""

    card: EngineCard
    ratio: float  # trapped, the hose counted [-]
    ambient: float  # absolute
    low: float
    high: float
    released: tuple[float, float]  # the same while the compression release works
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Timed:
    """A slipped flywheel: where its sparks fall and what to expect; angles in rad."""

    card: EngineCard
    slip: float  # below zero early
    advance: float
    sparks: tuple[Spark, Spark]
    expected: tuple[Expected, ...]
    notes: tuple[str, ...]


def timed_from_words(library: Library, typed: Mapping[str, str]) -> Timed:
    """Read an engine with a slip and, where it is known, its advance, and say where the sparks fall."""
    card, slip, told = engine_named(library, typed.get("engine", "")), slip_from_words(typed), typed.get("advance", "")
    advance = read_positive(told, "angle", default="°", what="Advance").si if told else card.advance.value
    most_kick = most_engines_kick(library.slip_tables[card.id], shortest(slip))
    main, wasted = sparks(advance, slip, card.valves, card.drive, card.gap.value)
    notes = [f"Sizes and valve timing: {card.words}; from memory, of no named engine."]
    if not told:
        low, high = math.degrees(card.advance.low), math.degrees(card.advance.high)
        notes.append(f"Advance {math.degrees(advance):.0f}° was not told; such engines have {low:.0f}° to {high:.0f}°.")
    notes.append("Voltage without a compression release, nothing burning yet: with one it is lower.")
    return Timed(
        card, slip, advance, (main, wasted), expected_symptoms(slip, main, wasted, most_kick=most_kick), tuple(notes)
    )


@dataclass(frozen=True, slots=True)
class LeakFound:
    """A leak, whichever side it was told by; pressures in Pa over the air around, areas in m²."""

    leak: float
    reading: float
    supply: float
    orifice: float

    @property
    def lost(self) -> float:
        """Share of the supply that is lost, as the tester's scale says it. [-]"""
        return 1 - self.reading / self.supply


def leak_from_words(typed: Mapping[str, str]) -> LeakFound:
    """Read a leak-down test: reading or leak, and where they are not the usual ones supply, orifice and height."""
    told, area = typed.get("reading", ""), typed.get("leak", "")
    if bool(told) == bool(area):
        raise NotUnderstood("Type either the reading, like “70 psi”, or the leak, like “0.4 mm²”.", "reading")
    supply = read_positive(typed.get("supply") or USUAL_SUPPLY, "pressure", what="Supply of the tester").si
    across = read_positive(typed.get("orifice") or USUAL_ORIFICE, "length", default="mm", what="Orifice").si
    orifice, ambient = math.pi / 4 * across**2, air_from_words(typed.get("height", "")).pressure
    if told:
        reading = read_positive(told, "pressure", what="Leak-down reading").si
        leak = leak_area(reading, supply=supply, orifice=orifice, ambient=ambient)
    else:
        leak = read_positive(area, "area", default="mm²", what="Area of the leaks").si
        reading = leak_down_reading(leak, supply=supply, orifice=orifice, ambient=ambient)
    return LeakFound(leak, reading, supply, orifice)


@dataclass(frozen=True, slots=True)
class JetFound:
    """A jet in other air; densities in kg/m³, diameters in m."""

    richness: float  # with the old jet, over what it was [-]
    factor: float  # new diameter over old [-]
    density: float
    chosen_density: float
    old: float | None
    by_height: float  # the part of the richness that comes from thinner air [-]
    by_temperature: float  # and from warmer air [-]
    temperature: float  # [K]
    chosen_temperature: float  # [K]

    @property
    def new(self) -> float | None:
        """The jet that gives the old mixture."""
        return None if self.old is None else self.old * self.factor


def jet_from_words(typed: Mapping[str, str]) -> JetFound:
    """Read air by height and temperature, where the jet was chosen by from_height and from_temperature, and the jet."""
    here = air_from_words(typed.get("height", ""), typed.get("temperature", ""))
    there = air_from_words(typed.get("from_height", ""), typed.get("from_temperature", ""))
    as_warm = air_density(here.pressure, there.temperature)  # the air here, as warm as there
    jet = typed.get("jet", "")
    return JetFound(
        richness=richness_factor(here.density, there.density),
        factor=jet_diameter(1.0, here.density, there.density),
        density=here.density,
        chosen_density=there.density,
        old=read_positive(jet, "length", default="mm", what="Diameter of the jet").si if jet else None,
        by_height=richness_factor(as_warm, there.density),
        by_temperature=richness_factor(here.density, as_warm),
        temperature=here.temperature,
        chosen_temperature=there.temperature,
    )


def richer_words(richness: float) -> str:
    """Say a richness over what it was: “4.9% richer”."""
    share = f"{abs(richness - 1):.1%}"
    return "no change" if share == "0.0%" else f"{share} {'richer' if richness > 1 else 'leaner'}"


def gauge_from_words(library: Library, typed: Mapping[str, str]) -> Gauge:
    """Read an engine, where told height, hose, compression, leak and speed, and say what its gauge should read."""
    card = engine_named(library, typed.get("engine", ""))
    drive = card.drive
    if typed.get("compression"):
        drive = replace(drive, compression=_bare_number(typed["compression"], "Compression ratio", "compression"))
    tight = Cranked(
        drive,
        card.intake_closes.value - math.pi,
        read_positive(typed.get("turning") or USUAL_CRANKING, "speed", default="rpm", what="Cranking speed").si,
        leak=_told(typed, "leak", "area", "mm²", "Area of the leaks"),
        hose=_told(typed, "hose", "volume", "cm³", "Volume of the hose"),
    )
    opened = curtain_area(card.exhaust_valve.value, card.release_lift.value)
    released = replace(tight, release=opened, release_until=-card.release_closes.value)
    ambient = air_from_words(typed.get("height", "")).pressure
    low, high, low_released, high_released = (
        cranking_reading(cranked, ambient, exponent)
        for cranked in (tight, released)
        for exponent in (LOW_EXPONENT, HIGH_EXPONENT)
    )
    told = (
        f"{card.words}, compression {drive.compression:g}, intake closing {math.degrees(card.intake_closes.value):.0f}°"
    )
    return Gauge(
        card=card,
        ratio=trapped_ratio(drive, tight.intake_closes, tight.hose),
        ambient=ambient,
        low=low,
        high=high,
        released=(low_released, high_released),
        notes=(*GAUGE_NOTES, f"From {told} after the bottom; sizes from memory, of no named engine."),
    )


def _told(typed: Mapping[str, str], name: str, kind: str, unit: str, what: str) -> float:
    """Read something that is none unless it is told."""
    return read_positive(typed[name], kind, default=unit, what=what).si if typed.get(name) else 0.0


def _bare_number(text: str, what: str, field: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise NotUnderstood(f"{what} is “{text}”; it must be a number like 8.5.", field) from None


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


def spark_place(spark: Spark) -> str:
    """Say where a spark falls: “80° before the top, compression stroke”."""
    from_top = math.degrees(spark.angle) - TOPS[spark.stroke]
    side = "before" if from_top < 0 else "after"
    place = "at the top" if round(from_top) == 0 else f"{abs(from_top):.0f}° {side} the top"
    return f"{place}, {spark.stroke} stroke"


def valves_at(spark: Spark) -> str:
    """Say which valves are open at a spark."""
    valves = [name for name, is_open in (("intake", spark.intake_open), ("exhaust", spark.exhaust_open)) if is_open]
    return f"{' and '.join(valves)} open" if valves else "valves shut"


def air_from_words(height: str, temperature: str = "") -> Air[float]:
    """Read air by its height above the sea and, where it is told, its temperature; nothing told is sea level."""
    air = standard_air(read(height, "length", default="m", what="Height above the sea").si if height else 0.0)
    if not temperature:
        return air
    warm = read(temperature, "temperature", default="°C", what="Temperature of the air").si
    return Air(air.pressure, warm, air_density(air.pressure, warm))
