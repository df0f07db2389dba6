"""One pull from the hand's first move to its end, in short steps; and many, one after the other."""

import math

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.compiled import compiled
from bellcrank.engine.gas import BURNED_CONSTANT, FRESH_CONSTANT, burned_energy, fresh_energy
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.cylinder import HEATS, gas_constant, pressure_in, travel, valve_areas
from bellcrank.engine.pull.places import EngineNumbers, PullNumbers
from bellcrank.engine.pull.rates import change, cord_force, swirl_in
from bellcrank.engine.pull.watch import TRIGGER, follow_hand, note_fire, over, spark, watch_gas, watch_reversal

Numbers = NDArray[np.float64]

WIDEST, SHORT = math.radians(1.5), 8e-4  # [rad], [s] of a step
SLOW, SHORTER = 12.0, 0.5  # [rad/s], [-] near the turn of a crank with the cord on it
GROWS, IN_A_BURNING = 5.0, 12  # [-] growth of burning gas taken for the step; steps in a burning
STIFF = 2.2  # [-] steps short for the quickest flow; the method is steady up to 2.8
LIGHTEST_TURN = 0.05  # [rad/s] so that a crank that stands divides
NEAR = 1e-4  # [rad] to a spark counts as there
APART = 0.2  # [rad] from a spark before the next is looked for
BURNT_OUT = 1.25  # [-] progress at which all but a ten-thousandth is burned
BOOKS_CLOSE = 5e-5  # [-] a pull whose energy books do not is run again in steps half as long
SHORTENED = (1.0, 2.0, 4.0)


@compiled
def longest_step(state: Numbers, flags: Numbers, engine: EngineNumbers) -> float:
    """Give the time step that follows crank, flame and flow [s]."""
    speed = abs(state[at.SPEED])
    step = min(SHORT, WIDEST / (speed + LIGHTEST_TURN))
    if flags[at.HAND_MODE] != at.GONE and speed < SLOW:
        step = min(step, SHORT * SHORTER)
    if flags[at.BURNING] > 0:
        through = engine.burn_length * engine.bore / (flags[at.FLAME] + engine.burn_swirl * swirl_in(speed, engine))
        step = min(step, through / GROWS / IN_A_BURNING)
    volume = engine.clearance + engine.piston_area * travel(state[at.ANGLE], engine)[0]
    heat = gas_constant(state) / state[at.MASS] * state[at.TEMPERATURE]
    pressure = heat * state[at.MASS] / volume
    ratio = min(pressure, engine.ambient) / max(pressure, engine.ambient)
    intake, exhaust = valve_areas(state[at.ANGLE], state[at.SPEED], engine)
    quickest = HEATS * math.sqrt(2 * heat / max(1 - ratio, engine.blunt)) * (intake + exhaust + engine.leak) / volume
    return float(min(step, STIFF / quickest))


@compiled
def advance(
    time: float, step: float, state: Numbers, flags: Numbers, engine: EngineNumbers, pull: PullNumbers, room: Numbers
) -> None:
    """Take one step of the classical fourth order of Runge and Kutta, in place; ``room`` is (5, states) to work in."""
    change(time, state, flags, engine, pull, room[0])
    for i in range(at.STATES):
        room[4, i] = state[i] + 0.5 * step * room[0, i]
    change(time + 0.5 * step, room[4], flags, engine, pull, room[1])
    for i in range(at.STATES):
        room[4, i] = state[i] + 0.5 * step * room[1, i]
    change(time + 0.5 * step, room[4], flags, engine, pull, room[2])
    for i in range(at.STATES):
        room[4, i] = state[i] + step * room[2, i]
    change(time + step, room[4], flags, engine, pull, room[3])
    for i in range(at.STATES):
        state[i] += step / 6 * (room[0, i] + 2 * room[1, i] + 2 * room[2, i] + room[3, i])
    for i in (at.STRETCH, at.FRESH, at.RETURNED, at.RETURNED_FRESH):
        state[i] = max(0.0, state[i])
    state[at.RETURNED_FRESH] = min(state[at.RETURNED_FRESH], state[at.RETURNED])


@compiled
def energy(state: Numbers, engine: EngineNumbers, pull: PullNumbers) -> float:
    """Give the energy in gas, crank, hand, cord and the air behind the piston [J]."""
    burned = state[at.MASS] - state[at.FRESH]
    gas = state[at.FRESH] * fresh_energy(state[at.TEMPERATURE]) + burned * burned_energy(state[at.TEMPERATURE])
    moving = 0.5 * engine.inertia * state[at.SPEED] ** 2 + 0.5 * pull.hand * state[at.HAND_SPEED] ** 2
    behind = engine.ambient * engine.piston_area * travel(state[at.ANGLE], engine)[0]
    return float(gas + moving + 0.5 * engine.stiffness * state[at.STRETCH] ** 2 + behind)


@compiled
def unbooked(start: float, state: Numbers, engine: EngineNumbers, pull: PullNumbers) -> float:
    """Give what the energy books miss, as a share of what moved [-]."""
    came = state[at.PULLED] + state[at.BLOWN_IN] + state[at.RELEASED]
    went = state[at.HEAT_LOST] + state[at.RUBBED] + state[at.CORD_LOST]
    moved = state[at.RELEASED] + abs(state[at.PULLED]) + state[at.RUBBED] + abs(state[at.HEAT_LOST])
    return float(abs(energy(state, engine, pull) - start - came + went) / max(1.0, moved))


@compiled
def begin(engine: EngineNumbers, pull: PullNumbers, state: Numbers) -> None:
    """Set a pull to its start: crank at rest, cylinder at the pressure outside."""
    state[:] = 0.0
    state[at.ANGLE], state[at.TEMPERATURE] = pull.start, engine.air
    volume = engine.clearance + engine.piston_area * travel(pull.start, engine)[0]
    constant = pull.fresh * FRESH_CONSTANT + (1 - pull.fresh) * BURNED_CONSTANT
    state[at.MASS] = engine.ambient * volume / (constant * engine.air)
    state[at.FRESH] = pull.fresh * state[at.MASS]


@compiled
def next_spark(angle: float, engine: EngineNumbers) -> float:
    """Give the next crank angle at which the magnet passes the coil, two to a cycle."""
    return engine.spark + at.TURN * math.ceil((angle - engine.spark) / at.TURN)


@compiled
def to_spark(spot: float, step: float, state: Numbers) -> float:
    """Shorten a step that would pass the spark."""
    ahead = spot - state[at.ANGLE]
    if state[at.SPEED] > TRIGGER and 0 < ahead <= 1.05 * step * state[at.SPEED]:
        return float(ahead / state[at.SPEED])
    return step


@compiled
def watch(
    time: float, step: float, state: Numbers, flags: Numbers, engine: EngineNumbers, kept: Numbers, blown: float
) -> None:
    """Keep what a step has shown."""
    note_fire(state, flags, engine, kept)
    if flags[at.BURNING] > 0 and state[at.PROGRESS] > BURNT_OUT:
        flags[at.BURNING] = 0
    kept[at.MOST_SPEED] = max(kept[at.MOST_SPEED], state[at.SPEED])
    watch_reversal(time, step, state, flags, engine, kept)
    watch_gas(step, state, flags, engine, kept, blown)


@compiled
def write(row: Numbers, time: float, state: Numbers, flags: Numbers, engine: EngineNumbers) -> None:
    """Write a row of the trace."""
    row[0], row[1], row[2] = time, state[at.ANGLE], state[at.SPEED]
    row[3], row[4] = pressure_in(state, engine), cord_force(state, flags, engine)
    row[5] = flags[at.BURNING]


@compiled
def run_pull(
    engine: EngineNumbers, pull: PullNumbers, scatter: Numbers, kept: Numbers, trace: Numbers, shorten: float
) -> int:
    """Run one pull and keep what came of it; give how many rows of the trace were written.

    ``scatter`` holds the drawn scatter of spark angle and mixture, a row a spark; ``trace`` is (n, 6) or empty;
    ``shorten`` divides the steps.
    """
    state, flags, room = np.zeros(at.STATES), np.zeros(at.FLAGS), np.zeros((5, at.STATES))
    begin(engine, pull, state)
    kept[:] = 0.0
    kept[at.LAST_FIRE] = -at.CYCLE
    start, time, steps, sparks = energy(state, engine, pull), 0.0, 0, 0
    due = next_spark(state[at.ANGLE] + 1e-6, engine)
    while not over(time, state, flags, engine, kept):
        spot = due + scatter[sparks % at.SPARKS_DRAWN, 0]
        step = to_spark(spot, longest_step(state, flags, engine) / shorten, state)
        advance(time, step, state, flags, engine, pull, room)
        time += step
        if state[at.SPEED] > 0 and state[at.ANGLE] >= spot - NEAR:
            if state[at.SPEED] > TRIGGER:
                spark(pull.mixture + scatter[sparks % at.SPARKS_DRAWN, 1], state, flags, engine, kept)
            sparks += 1
            due = next_spark(state[at.ANGLE] + APART, engine)
        watch(time, step, state, flags, engine, kept, room[3, at.RETURNED])
        if steps < trace.shape[0]:
            write(trace[steps], time, state, flags, engine)
        follow_hand(time, state, flags, engine, pull, kept)
        steps += 1
    kept[at.RESIDUAL] = unbooked(start, state, engine, pull)
    kept[at.ENDED], kept[at.CALLS] = time, 4 * steps
    return int(min(steps, trace.shape[0]))


@compiled
def run_carefully(engine: EngineNumbers, pull: PullNumbers, scatter: Numbers, kept: Numbers, trace: Numbers) -> int:
    """Run one pull, and again in shorter steps while its energy books do not close."""
    rows = 0
    for shorten in SHORTENED:
        rows = run_pull(engine, pull, scatter, kept, trace, shorten)
        if kept[at.RESIDUAL] < BOOKS_CLOSE:
            break
    return rows


@compiled
def run_rows(engine: EngineNumbers, drawn: Numbers, scatter: Numbers, kept: Numbers) -> None:
    """Run a pull for each row of what was drawn, and keep what came of it."""
    no_trace = np.zeros((0, at.TRACED))
    for i in range(drawn.shape[0]):
        row = drawn[i]
        pull = PullNumbers(row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7], row[8])
        run_carefully(engine, pull, scatter[i], kept[i], no_trace)
