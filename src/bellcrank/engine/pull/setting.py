"""An engine set up for a pull: its card, where the flywheel sits, what is loose or dead, and the air."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from bellcrank.engine.air import Air, standard_air
from bellcrank.engine.card import QUANTITIES, EngineCard, Ranged
from bellcrank.engine.flow import DISCHARGE, curtain_area
from bellcrank.engine.piston import CrankDrive
from bellcrank.engine.pull.cylinder import FLOW, HEATS
from bellcrank.engine.pull.places import CYCLE, TURN, EngineNumbers
from bellcrank.measuring.refusals import refuse_outside
from bellcrank.units import to_si

PORT = 0.6  # [-] area of a port over that of its valve's head (assumption)
GAS_FRICTION = 1e-7 / 189e-6  # [1/Pa·N·m/m³] of the displacement, per pressure on the piston (assumption)
OIL_FRICTION, AIR_FRICTION = 0.012, 2.2e-5  # [N·m·s], [N·m·s²] (assumptions)
WARMER = 7.0  # [K] walls over the air (assumption)
DAMPING = 40.0  # [N·s/m] of the cord (assumption)
CATCHES_AT = to_si(1000, "rpm", "speed")  # above it an engine that has fired runs on
BLUNT = 0.01  # [-] of pressure: below it flow is taken as linear, which costs nothing at a cord's speeds
POINTS_LOSE = math.radians(10)  # slip that takes all voltage from breaker points; five are said to be enough to fail
LEAST_VOLTAGE = 0.02  # [-] share of the voltage that is left


class Ignition(StrEnum):
    """What times the spark."""

    MODULE = "module"  # the flywheel's magnet: slip shifts the spark
    POINTS = "points"  # a cam on the crank: slip weakens it


@dataclass(frozen=True, slots=True)
class Setting:
    """What is not on the engine's card."""

    slip: float = 0.0  # below zero early [rad]
    blade_tight: bool = True
    release_works: bool = True
    ignition: Ignition = Ignition.MODULE
    air: Air[float] = field(default_factory=lambda: standard_air(0.0))

    def __post_init__(self) -> None:
        """Refuse a slip of more than a turn."""
        refuse_outside("Slip in radians", self.slip, -TURN, TURN, "A whole turn is none.")


def middle(card: EngineCard) -> dict[str, float]:
    """Give a card's middle values."""
    return {name: _ranged(card, name).value for name in QUANTITIES}


def at_shares(card: EngineCard, shares: Mapping[str, float]) -> dict[str, float]:
    """Give a card's values: 0 for the low end of a range, a half for its middle value, 1 for its high end."""
    return middle(card) | {name: between(_ranged(card, name), share) for name, share in shares.items()}


def between(ranged: Ranged, share: float) -> float:
    """Give a value of a range; straight from the low end to the middle value and on to the high end."""
    return float(np.interp(share, (0.0, 0.5, 1.0), (ranged.low, ranged.value, ranged.high)))


def engine_numbers(values: Mapping[str, float], setting: Setting) -> EngineNumbers:
    """Set an engine up as the equations take it."""
    told = dict(values)
    drive = CrankDrive(told["bore"], told["stroke"], told["rod"], told["compression"])
    weak = max(LEAST_VOLTAGE, 1 - abs(setting.slip) / POINTS_LOSE)
    points = setting.ignition is Ignition.POINTS
    released = told["release_lift"] if setting.release_works else 0.0
    return EngineNumbers(
        bore=drive.bore,
        radius=drive.radius,
        rod=drive.rod,
        piston_area=drive.piston_area,
        clearance=drive.clearance_volume,
        inertia=told["flywheel_inertia"] + (told["tool_inertia"] if setting.blade_tight else 0.0),
        intake_opens=2 * math.pi - told["intake_opens"],
        intake_closes=3 * math.pi + told["intake_closes"],
        exhaust_opens=math.pi - told["exhaust_opens"],
        exhaust_closes=2 * math.pi + told["exhaust_closes"],
        intake_curtain=curtain_area(told["intake_valve"], told["lift"]),
        intake_port=DISCHARGE * PORT * math.pi / 4 * told["intake_valve"] ** 2,
        exhaust_curtain=curtain_area(told["exhaust_valve"], told["lift"]),
        exhaust_port=DISCHARGE * PORT * math.pi / 4 * told["exhaust_valve"] ** 2,
        carburettor=DISCHARGE * told["carburettor"],
        release=curtain_area(told["exhaust_valve"], released),
        release_until=-told["release_closes"],
        release_below=told["release_speed"],
        leak=told["leak"],
        ambient=setting.air.pressure,
        air=setting.air.temperature,
        wall=setting.air.temperature + WARMER,
        spark=-told["advance"] + (0.0 if points else setting.slip),
        voltage_per_speed=told["voltage_per_speed"] * (weak if points else 1.0),
        gap=told["gap"],
        burn_length=told["burn_length"],
        burn_swirl=told["burn_swirl"],
        swirl=told["swirl"],
        efficiency=told["efficiency"],
        heat_factor=told["heat_factor"],
        dry_friction=told["friction"] * drive.swept_volume / CYCLE,
        gas_friction=GAS_FRICTION * drive.swept_volume,
        oil_friction=OIL_FRICTION,
        air_friction=AIR_FRICTION,
        pulley=told["pulley"],
        least_fresh=told["least_fresh"],
        stiffness=told["cord_stiffness"],
        damping=DAMPING,
        catches_at=CATCHES_AT,
        blunt=BLUNT,
        slope=math.sqrt(FLOW * ((1 - BLUNT) ** (2 / HEATS) - (1 - BLUNT) ** ((HEATS + 1) / HEATS))) / BLUNT,
    )


def _ranged(card: EngineCard, name: str) -> Ranged:
    found: Ranged = getattr(card, name)
    return found
