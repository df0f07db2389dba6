"""Piston, valves and the flow through them, as the equations of a pull need them."""

import math

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.compiled import compiled
from bellcrank.engine.gas import BURNED_CONSTANT, FRESH_CONSTANT, burned_energy, fresh_energy
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.places import EngineNumbers

Numbers = NDArray[np.float64]

HEATS = 1.35  # [-] ratio of heats of the charge in flow, between cold air and hot gas
CRITICAL: float = (2 / (HEATS + 1)) ** (HEATS / (HEATS - 1))  # [-] of that gas, as engine.flow has it
CHOKED: float = math.sqrt(HEATS) * (2 / (HEATS + 1)) ** ((HEATS + 1) / (2 * (HEATS - 1)))  # [-] flow number below it
FLOW = 2 * HEATS / (HEATS - 1)
LEAST_RETURN = 1e-9  # [kg] below it what was blown back into the intake counts as used up
HOT_EXHAUST = 350.0  # [K] of what comes back from the exhaust in the first cycles (assumption)


@compiled
def in_cycle(angle: float) -> float:
    """Give the same place of the crank between −π and 3π."""
    return angle - at.CYCLE * math.floor((angle + at.HALF) / at.CYCLE)


@compiled
def travel(angle: float, engine: EngineNumbers) -> tuple[float, float]:
    """Give the way of the piston from the top, and its change with the angle [m], [m/rad]."""
    across, along = engine.radius * math.sin(angle), engine.radius * math.cos(angle)
    reach = math.sqrt(engine.rod * engine.rod - across * across)
    return engine.radius + engine.rod - along - reach, across * (1 + along / reach)


@compiled
def gas_constant(state: Numbers) -> float:
    """Give mass times gas constant of what is in the cylinder [J/K]."""
    return float(BURNED_CONSTANT * state[at.MASS] - (BURNED_CONSTANT - FRESH_CONSTANT) * state[at.FRESH])


@compiled
def pressure_in(state: Numbers, engine: EngineNumbers) -> float:
    """Give the pressure in the cylinder [Pa]."""
    volume = engine.clearance + engine.piston_area * travel(state[at.ANGLE], engine)[0]
    return float(gas_constant(state) * state[at.TEMPERATURE] / volume)


@compiled
def lifted(place: float, opens: float, closes: float) -> float:
    """Give the share of its lift a valve has at a place of the crank."""
    if not opens < place < closes:
        return 0.0
    return math.sin(at.HALF * (place - opens) / (closes - opens)) ** 2


@compiled
def valve_areas(angle: float, speed: float, engine: EngineNumbers) -> tuple[float, float]:
    """Give the effective areas to the intake, carburettor counted, and to the exhaust, release counted [m²]."""
    place = in_cycle(angle)
    late = place + at.CYCLE if place < 0 else place
    valve = min(lifted(late, engine.intake_opens, engine.intake_closes) * engine.intake_curtain, engine.intake_port)
    intake = valve * engine.carburettor / math.sqrt(valve * valve + engine.carburettor * engine.carburettor)
    exhaust = min(
        lifted(place, engine.exhaust_opens, engine.exhaust_closes) * engine.exhaust_curtain, engine.exhaust_port
    )
    if engine.intake_closes - at.CYCLE < place < engine.release_until and speed < engine.release_below:
        exhaust += engine.release
    return intake, exhaust


@compiled
def flow_out(inside: float, inside_heat: float, outside: float, outside_heat: float, engine: EngineNumbers) -> float:
    """Give mass flow outwards through a square metre [kg/(s·m²)]; the heats are R T of the gas on either side."""
    high, low, heat, sign = inside, outside, inside_heat, 1.0
    if outside > inside:
        high, low, heat, sign = outside, inside, outside_heat, -1.0
    ratio = low / high
    if ratio < CRITICAL:
        number = CHOKED
    elif ratio > 1 - engine.blunt:
        number = engine.slope * (1 - ratio)
    else:
        root = ratio ** (1 / HEATS)
        number = math.sqrt(FLOW * (root * root - ratio * root))
    return sign * high * number / math.sqrt(heat)


@compiled
def through_intake(
    flow: float, share: float, carried: float, state: Numbers, engine: EngineNumbers, out: Numbers
) -> None:
    """Add the flow through the intake, outwards positive; what was blown back comes in first."""
    out[at.MASS] -= flow
    if flow >= 0:
        out[at.FRESH] -= flow * share
        out[at.BLOWN_IN] -= flow * carried
        out[at.RETURNED], out[at.RETURNED_FRESH] = flow, flow * share
        return
    waiting = state[at.RETURNED] + LEAST_RETURN
    back, kept = state[at.RETURNED] / waiting, state[at.RETURNED_FRESH] / waiting
    new = kept + 1 - back
    energy = new * fresh_energy(engine.air) + (1 - new) * burned_energy(engine.air)
    out[at.FRESH] -= flow * new
    out[at.BLOWN_IN] -= flow * (energy + FRESH_CONSTANT * engine.air)
    out[at.RETURNED], out[at.RETURNED_FRESH] = flow * back, flow * kept


@compiled
def through_hole(flow: float, share: float, carried: float, temperature: float, out: Numbers) -> None:
    """Add the flow through exhaust or leak, outwards positive; burned gas of a temperature comes back."""
    out[at.MASS] -= flow
    if flow >= 0:
        out[at.FRESH] -= flow * share
        out[at.BLOWN_IN] -= flow * carried
    else:
        out[at.BLOWN_IN] -= flow * (burned_energy(temperature) + BURNED_CONSTANT * temperature)


@compiled
def exchange(pressure: float, state: Numbers, engine: EngineNumbers, out: Numbers) -> None:
    """Write what flows in and out of the cylinder."""
    mass, temperature = state[at.MASS], state[at.TEMPERATURE]
    share, heat = state[at.FRESH] / mass, gas_constant(state) / mass * temperature
    carried = share * fresh_energy(temperature) + (1 - share) * burned_energy(temperature) + heat
    intake, exhaust = valve_areas(state[at.ANGLE], state[at.SPEED], engine)
    out[at.MASS] = out[at.FRESH] = out[at.BLOWN_IN] = out[at.RETURNED] = out[at.RETURNED_FRESH] = 0.0
    if intake > 0:
        flow = intake * flow_out(pressure, heat, engine.ambient, FRESH_CONSTANT * engine.air, engine)
        through_intake(flow, share, carried, state, engine, out)
    if exhaust > 0:
        flow = exhaust * flow_out(pressure, heat, engine.ambient, BURNED_CONSTANT * HOT_EXHAUST, engine)
        through_hole(flow, share, carried, HOT_EXHAUST, out)
    flow = engine.leak * flow_out(pressure, heat, engine.ambient, BURNED_CONSTANT * engine.air, engine)
    through_hole(flow, share, carried, engine.air, out)
