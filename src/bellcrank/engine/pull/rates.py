"""The equations of a pull: how fast everything changes. ``docs/pull.md`` derives them."""

import math

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.compiled import compiled
from bellcrank.engine.gas import burned_energy, burned_heat, fresh_energy, fresh_heat
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.cylinder import exchange, gas_constant, travel
from bellcrank.engine.pull.places import EngineNumbers, PullNumbers

Numbers = NDArray[np.float64]

WIEBE_SPEED, WIEBE_POWER = 5.0, 3.0  # [-] Heywood equation 9.7, from memory
COMPRESSED_BY = 0.26  # [-] power of the pressure in the temperature of what is not burned yet
HEAT_OF_FRESH = 1250.0  # [J/(kg·K)] at constant pressure, for the growth of burning gas (assumption)
GROWTH = 0.85  # [-] of its temperature rise (assumption)
FILM, FILM_VOLUME, FILM_PRESSURE, FILM_HEAT, FILM_SPEED, STILL = 130.0, -0.06, 0.8, -0.4, 0.8, 1.4  # Hohenberg
BAR = 1e5  # [Pa] his unit of pressure
AT_REST = 0.4  # [rad/s] dry friction turns with the crank over so much
READY = 0.08  # [s] until a hand pulls with full force (assumption)
DRAGGED_FORCE, DRAGGED_SPEED = 0.3, 0.5  # [-], [m/s] a hand that is dragged pulls harder by so much at that speed
HOLD = 300.0  # [N·s/m] an arm at the end of its stroke (assumption)
HOLDS_UP_TO = 0.7  # [-] of the force that tears the handle away (assumption)


@compiled
def cord_force(state: Numbers, flags: Numbers, engine: EngineNumbers) -> float:
    """Give the force in the cord [N]; none once the hand is gone or the crank runs ahead."""
    if flags[at.HAND_MODE] == at.GONE:
        return 0.0
    rate = state[at.HAND_SPEED] - engine.pulley * state[at.SPEED]
    if state[at.STRETCH] <= 0 and rate <= 0:
        return 0.0
    return float(max(0.0, engine.stiffness * state[at.STRETCH] + engine.damping * rate))


@compiled
def wall_heat(pressure: float, volume: float, way: float, state: Numbers, engine: EngineNumbers) -> float:
    """Give the heat lost to the walls by Hohenberg's fit [W].

    Hohenberg, SAE 790825 (from memory); fitted on warm running engines, so the card's factor spans half to double.
    """
    temperature = state[at.TEMPERATURE]
    piston_speed = 2 * engine.radius * abs(state[at.SPEED]) / at.HALF
    film = FILM * math.exp(
        FILM_VOLUME * math.log(volume)
        + FILM_PRESSURE * math.log(pressure / BAR)
        + FILM_HEAT * math.log(temperature)
        + FILM_SPEED * math.log(piston_speed + STILL)
    )
    area = 2 * engine.piston_area + at.HALF * engine.bore * way
    return float(engine.heat_factor * film * area * (temperature - engine.wall))


@compiled
def swirl_in(speed: float, engine: EngineNumbers) -> float:
    """Give the swirl that helps the flame: half the mean speed of the piston, and what is left at rest [m/s]."""
    return engine.radius * abs(speed) / at.HALF + engine.swirl


@compiled
def burning(pressure: float, state: Numbers, flags: Numbers, engine: EngineNumbers) -> tuple[float, float]:
    """Give how fast the burning gets on, and the share of what is fresh that burns in a second [1/s].

    Wiebe's law as a hazard in time, so that a crank that stops or turns back is no special case.
    """
    if flags[at.BURNING] == 0:
        return 0.0, 0.0
    rise = math.log(pressure / flags[at.SPARK_PRESSURE])
    flame = flags[at.FLAME] * math.exp(flags[at.FLAME_POWER] * rise)
    unburned = flags[at.SPARK_TEMPERATURE] * math.exp(COMPRESSED_BY * rise)
    growth = 1 + GROWTH * flags[at.HEAT] / (HEAT_OF_FRESH * unburned)
    swirl = engine.burn_swirl * swirl_in(state[at.SPEED], engine)
    getting_on = growth * (flame + swirl) / (engine.burn_length * engine.bore)
    return getting_on, WIEBE_SPEED * WIEBE_POWER * state[at.PROGRESS] ** 2 * getting_on


@compiled
def hand_force(time: float, state: Numbers, flags: Numbers, pull: PullNumbers) -> float:
    """Give the force of the hand on the handle, along the pull [N]."""
    speed = state[at.HAND_SPEED]
    if flags[at.HAND_MODE] == at.HOLDING:
        return float(min(max(-HOLD * speed, -pull.force), HOLDS_UP_TO * pull.torn_at))
    ready = min(1.0, time / READY)
    if speed < 0:
        return float(pull.force * ready * (1 + DRAGGED_FORCE * min(1.0, -speed / DRAGGED_SPEED)))
    return float(pull.force * ready * (1 - speed / pull.quickest))


@compiled
def friction(push: float, speed: float, engine: EngineNumbers, pull: PullNumbers) -> float:
    """Give the torque that brakes the crank [N·m]."""
    dry = (engine.dry_friction + engine.gas_friction * abs(push)) * math.tanh(speed / AT_REST)
    return (dry + engine.oil_friction * speed + engine.air_friction * speed * abs(speed)) * pull.friction


@compiled
def crank(
    pressure: float, way_rate: float, state: Numbers, engine: EngineNumbers, pull: PullNumbers, out: Numbers
) -> None:
    """Write how the crank changes, the cord not counted."""
    over, speed = pressure - engine.ambient, state[at.SPEED]
    rub = friction(over, speed, engine, pull)
    out[at.ANGLE] = speed
    out[at.SPEED] = (over * engine.piston_area * way_rate - rub) / engine.inertia
    out[at.RUBBED] = rub * speed


@compiled
def cord_and_hand(
    time: float, state: Numbers, flags: Numbers, engine: EngineNumbers, pull: PullNumbers, out: Numbers
) -> None:
    """Write how cord and hand change, and add the cord's pull to the crank."""
    if flags[at.HAND_MODE] == at.GONE:
        out[at.HAND_PLACE] = out[at.HAND_SPEED] = out[at.STRETCH] = out[at.PULLED] = out[at.CORD_LOST] = 0.0
        return
    cord, force = cord_force(state, flags, engine), hand_force(time, state, flags, pull)
    rate = state[at.HAND_SPEED] - engine.pulley * state[at.SPEED]
    stretching = 0.0 if state[at.STRETCH] <= 0 and rate <= 0 else rate
    out[at.SPEED] += engine.pulley * cord / engine.inertia
    out[at.HAND_PLACE] = state[at.HAND_SPEED]
    out[at.HAND_SPEED] = (force - cord) / pull.hand
    out[at.STRETCH] = stretching
    out[at.PULLED] = force * state[at.HAND_SPEED]
    out[at.CORD_LOST] = cord * rate - engine.stiffness * state[at.STRETCH] * stretching


@compiled
def change(time: float, state: Numbers, flags: Numbers, engine: EngineNumbers, pull: PullNumbers, out: Numbers) -> None:
    """Write how fast everything changes."""
    temperature, fresh, mass = state[at.TEMPERATURE], state[at.FRESH], state[at.MASS]
    way, way_rate = travel(state[at.ANGLE], engine)
    volume = engine.clearance + engine.piston_area * way
    pressure = gas_constant(state) * temperature / volume
    exchange(pressure, state, engine, out)
    getting_on, hazard = burning(pressure, state, flags, engine)
    out[at.FRESH] -= fresh * hazard
    out[at.PROGRESS] = getting_on
    out[at.RELEASED] = flags[at.HEAT] * fresh * hazard
    out[at.HEAT_LOST] = wall_heat(pressure, volume, way, state, engine)
    held = out[at.FRESH] * fresh_energy(temperature) + (out[at.MASS] - out[at.FRESH]) * burned_energy(temperature)
    work = pressure * engine.piston_area * way_rate * state[at.SPEED]
    takes_up = fresh * fresh_heat(temperature) + (mass - fresh) * burned_heat(temperature)
    out[at.TEMPERATURE] = (out[at.RELEASED] + out[at.BLOWN_IN] - out[at.HEAT_LOST] - work - held) / takes_up
    crank(pressure, way_rate, state, engine, pull, out)
    cord_and_hand(time, state, flags, engine, pull, out)
