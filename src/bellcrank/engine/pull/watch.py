"""What happens at a moment of a pull: sparks, the hand's end, a crank thrown back, gas blown where it should not go."""

import math

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.air import SEA_LEVEL_PRESSURE
from bellcrank.engine.compiled import compiled
from bellcrank.engine.gas import flame_pressure_power, flame_speed, flame_temperature_power, heat_of_mixture
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.cylinder import in_cycle, pressure_in, valve_areas
from bellcrank.engine.pull.places import EngineNumbers, PullNumbers
from bellcrank.engine.pull.rates import COMPRESSED_BY, cord_force
from bellcrank.engine.spark_voltage import PER_DENSITY, PER_ROOT, ROOM

Numbers = NDArray[np.float64]

LEANEST, RICHEST = 0.65, 1.75  # [-] mixture a spark lights (assumption)
TRIGGER = 10.0  # [rad/s] below it the magnet makes no spark (assumption)
HELD_FOR = 0.15  # [s] an arm at the end of its stroke (assumption)
SETTLED = 0.25  # [s] after a crank was thrown back the hand lets go (assumption)
# what counts as what: all assumptions
LONGEST = 3.0  # [s] of a pull
STANDS = 0.3  # [rad/s]
AFTER_FIRE = 1.5  # [rad] a reversal so near a fire is the fire's; farther off it is a bounce on compression
BACK_BY = 0.02  # [m] a hand dragged back so far: a kick
HARDER, OWN_LEAST = 1.3, 150.0  # [-], [N] a cord that pulls so much harder than the hand itself did: a kick
BLOWN_OUT, BLOWN_OVER = 5e-6, 1.1  # [kg], [-] burning gas driven into the intake: a pop
UNBURNED, BANG_OVER = 0.1, 1.05  # [-] left when the exhaust valve is open, over the pressure outside: a bang


@compiled
def needed_voltage(pressure: float, temperature: float, gap: float) -> float:
    """Give the voltage a spark needs, as :func:`bellcrank.engine.spark_voltage.breakdown_voltage` does [V]."""
    spans = gap * 100 * pressure / SEA_LEVEL_PRESSURE * ROOM / temperature
    return PER_DENSITY * spans + PER_ROOT * math.sqrt(spans)


@compiled
def lights(mixture: float, pressure: float, state: Numbers, engine: EngineNumbers) -> bool:
    """Whether a spark lights the charge: voltage, mixture and what is fresh of it."""
    needed = needed_voltage(pressure, state[at.TEMPERATURE], engine.gap)
    enough = engine.voltage_per_speed * state[at.SPEED] >= needed
    return enough and LEANEST < mixture < RICHEST and state[at.FRESH] > engine.least_fresh * state[at.MASS]


@compiled
def spark(mixture: float, state: Numbers, flags: Numbers, engine: EngineNumbers, kept: Numbers) -> None:
    """Let the magneto spark, and light the charge when it lights."""
    kept[at.SPARKS] += 1
    pressure = pressure_in(state, engine)
    if flags[at.BURNING] > 0 or not lights(mixture, pressure, state, engine):
        return
    left = 1 - state[at.FRESH] / state[at.MASS]
    flags[at.BURNING] = 1
    flags[at.HEAT] = engine.efficiency * heat_of_mixture(mixture)
    flags[at.FLAME] = flame_speed(mixture, state[at.TEMPERATURE], pressure, left)
    flags[at.FLAME_POWER] = COMPRESSED_BY * flame_temperature_power(mixture) + flame_pressure_power(mixture)
    flags[at.SPARK_TEMPERATURE], flags[at.SPARK_PRESSURE] = state[at.TEMPERATURE], pressure
    state[at.PROGRESS] = 0.0
    kept[at.FIRES] += 1
    if kept[at.FIRES] == 1:
        kept[at.FIRE_SPEED] = state[at.SPEED]


@compiled
def note_fire(state: Numbers, flags: Numbers, engine: EngineNumbers, kept: Numbers) -> None:
    """Note where the crank stands while a fire burns behind a shut intake valve.

    Behind an open one it pops, and a crank that bounces on compression after that is not thrown back by fire.
    """
    if flags[at.BURNING] > 0 and valve_areas(state[at.ANGLE], state[at.SPEED], engine)[0] == 0:
        kept[at.LAST_FIRE] = state[at.ANGLE]


@compiled
def let_go(state: Numbers, flags: Numbers, engine: EngineNumbers, pull: PullNumbers) -> None:
    """Let the handle go: what hand and cord held leaves the books."""
    held = 0.5 * pull.hand * state[at.HAND_SPEED] ** 2 + 0.5 * engine.stiffness * state[at.STRETCH] ** 2
    state[at.CORD_LOST] += held
    state[at.HAND_SPEED] = state[at.STRETCH] = 0.0
    flags[at.HAND_MODE] = at.GONE


@compiled
def follow_hand(
    time: float, state: Numbers, flags: Numbers, engine: EngineNumbers, pull: PullNumbers, kept: Numbers
) -> None:
    """Let the arm come to its end, hold and let go, or have the handle torn away."""
    if flags[at.HAND_MODE] == at.GONE:
        return
    thrown = kept[at.REVERSED_AT] > 0
    if cord_force(state, flags, engine) > pull.torn_at:
        kept[at.TORN] = thrown
        kept[at.BOUNCED] = max(kept[at.BOUNCED], 0.0 if thrown else 1.0)
        let_go(state, flags, engine, pull)
    elif thrown and time - kept[at.REVERSED_AT] > SETTLED:
        let_go(state, flags, engine, pull)
    elif flags[at.HAND_MODE] == at.PULLING and state[at.HAND_PLACE] >= pull.stroke:
        flags[at.HAND_MODE], flags[at.HELD_SINCE] = at.HOLDING, time
    elif flags[at.HAND_MODE] == at.HOLDING and not thrown and time - flags[at.HELD_SINCE] > HELD_FOR:
        let_go(state, flags, engine, pull)


@compiled
def is_a_jerk(dragged: float, force: float, kept: Numbers) -> bool:
    """Whether a hand feels a jerk: dragged back, or pulled much harder than it pulled itself."""
    return bool(dragged > BACK_BY or force > HARDER * max(OWN_LEAST, kept[at.OWN_FORCE]))


@compiled
def note_reversal(time: float, force: float, state: Numbers, flags: Numbers, kept: Numbers) -> None:
    """Note that fire throws the crank back with the cord on it; until then, what the hand pulls and bare bounces do."""
    kept[at.FARTHEST] = max(kept[at.FARTHEST], state[at.HAND_PLACE])
    if state[at.SPEED] >= 0:
        kept[at.OWN_FORCE] = max(kept[at.OWN_FORCE], force)
    elif is_a_jerk(kept[at.FARTHEST] - state[at.HAND_PLACE], force, kept):
        kept[at.BOUNCED] = 1
    by_fire = kept[at.FIRES] > 0 and abs(state[at.ANGLE] - kept[at.LAST_FIRE]) < AFTER_FIRE
    if state[at.SPEED] < 0 and by_fire and flags[at.HAND_MODE] != at.GONE:
        kept[at.REVERSED_AT], kept[at.DRAGGED_FROM] = time, state[at.HAND_PLACE]


@compiled
def watch_reversal(
    time: float, step: float, state: Numbers, flags: Numbers, engine: EngineNumbers, kept: Numbers
) -> None:
    """Keep what a crank thrown back does to the hand: a kick, or a cord that goes solid."""
    force = cord_force(state, flags, engine)
    kept[at.MOST_FORCE] = max(kept[at.MOST_FORCE], force)
    if kept[at.REVERSED_AT] == 0:
        note_reversal(time, force, state, flags, kept)
        return
    if state[at.SPEED] < 0:
        kept[at.REVERSE_SPEED] = min(kept[at.REVERSE_SPEED], state[at.SPEED])
        kept[at.IMPULSE] += force * step
        kept[at.REVERSE_FORCE] = max(kept[at.REVERSE_FORCE], force)
        kept[at.BACK_WORK] += max(0.0, -force * state[at.HAND_SPEED]) * step
    if kept[at.TORN] > 0 or is_a_jerk(kept[at.DRAGGED_FROM] - state[at.HAND_PLACE], kept[at.REVERSE_FORCE], kept):
        kept[at.KICKED] = 1
    kept[at.WENT_SOLID] = 1 - kept[at.KICKED]


@compiled
def watch_gas(step: float, state: Numbers, flags: Numbers, engine: EngineNumbers, kept: Numbers, blown: float) -> None:
    """Note burning gas driven into intake or exhaust; ``blown`` is the flow out through the intake [kg/s]."""
    pressure = pressure_in(state, engine)
    kept[at.MOST_PRESSURE] = max(kept[at.MOST_PRESSURE], pressure)
    if flags[at.BURNING] == 0:
        return
    intake, exhaust = valve_areas(state[at.ANGLE], state[at.SPEED], engine)
    if intake > 0 and pressure > BLOWN_OVER * engine.ambient:
        kept[at.BLOWN_BACK] += max(0.0, blown) * step
        if kept[at.BLOWN_BACK] > BLOWN_OUT:
            kept[at.POPPED] = 1
    wide = in_cycle(state[at.ANGLE]) > engine.exhaust_opens and exhaust > 0
    if wide and state[at.FRESH] > UNBURNED * state[at.MASS] and pressure > BANG_OVER * engine.ambient:
        kept[at.BANGED] = 1


@compiled
def over(time: float, state: Numbers, flags: Numbers, engine: EngineNumbers, kept: Numbers) -> bool:
    """Whether nothing more can come of a pull."""
    if time > LONGEST:
        return True
    if state[at.SPEED] > engine.catches_at and kept[at.FIRES] > 0 and kept[at.REVERSED_AT] == 0:
        kept[at.CAUGHT] = 1
        return True
    return bool(flags[at.HAND_MODE] == at.GONE and flags[at.BURNING] == 0 and state[at.SPEED] < STANDS)
