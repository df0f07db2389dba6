"""Each piece of a pull's equations against a closed form, a book or another package."""

import math

import numpy as np
import pytest
from ambiance import Atmosphere
from fluids import P_critical_flow
from scipy.integrate import quad

from bellcrank.engine.air import GAS_CONSTANT, standard_air
from bellcrank.engine.flow import mass_flow
from bellcrank.engine.piston import piston_travel, piston_travel_rate
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.cylinder import CRITICAL, HEATS, flow_out, travel
from bellcrank.engine.pull.rates import burning
from bellcrank.engine.pull.run import energy, unbooked
from bellcrank.engine.pull.setting import BLUNT
from bellcrank.engine.pull.watch import needed_voltage
from bellcrank.engine.spark_voltage import breakdown_voltage
from tests.engine.bare_engine import HUGE, NO_HAND, NO_LOSS, bare_engine, begun, turn_evenly

ANGLES = np.radians(np.linspace(-200, 560, 77))
HIGH, ROOM = 100e3, 293.15  # [Pa], [K] before an opening


def flow(ratio):
    """Flow of air out through a square metre, by the law of the pull."""
    return flow_out(HIGH, GAS_CONSTANT * ROOM, ratio * HIGH, GAS_CONSTANT * ROOM, bare_engine())


def test_the_piston_stands_where_the_closed_form_puts_it():
    # Heywood section 2.2 (from memory): 0, a + l − √(l² − a²), the stroke
    engine = bare_engine()
    quarter = engine.radius + engine.rod - math.sqrt(engine.rod**2 - engine.radius**2)
    for angle, way in ((0.0, 0.0), (math.pi / 2, quarter), (math.pi, 2 * engine.radius)):
        assert travel(angle, engine)[0] == pytest.approx(way, abs=1e-15)


def test_the_piston_of_a_pull_moves_as_that_of_the_crank_drive():
    engine = bare_engine()
    for angle in ANGLES:
        way, rate = travel(angle, engine)
        assert way == pytest.approx(piston_travel(angle, engine.radius, engine.rod), abs=1e-12)
        assert rate == pytest.approx(piston_travel_rate(angle, engine.radius, engine.rod), abs=1e-12)


def test_volume_at_the_bottom_over_that_at_the_top_is_the_compression():
    engine = bare_engine({"compression": 8.5})
    bottom = engine.clearance + engine.piston_area * travel(math.pi, engine)[0]
    assert bottom / engine.clearance == pytest.approx(8.5, rel=1e-12)


@pytest.mark.parametrize("ratio", [0.01, 0.4, 0.53, 0.55, 0.7, 0.9, 0.98, 0.989])
def test_gas_flows_in_a_pull_by_the_exact_law(ratio):
    # the law of the leak-down page, with the ratio of heats of the pull
    assert flow(ratio) == pytest.approx(mass_flow(HIGH, ROOM, ratio * HIGH, 1.0, heats=HEATS), rel=1e-9)


def test_gas_flows_in_as_it_flows_out():
    engine, heat = bare_engine(), GAS_CONSTANT * ROOM
    assert flow_out(60e3, heat, HIGH, heat, engine) == -flow_out(HIGH, heat, 60e3, heat, engine)


def test_gas_is_as_fast_as_it_gets_from_the_critical_ratio_of_another_package():
    # fluids 1.3, P_critical_flow
    assert pytest.approx(P_critical_flow(HIGH, HEATS) / HIGH, rel=1e-9) == CRITICAL
    assert flow(CRITICAL - 1e-6) == pytest.approx(flow(CRITICAL + 1e-6), rel=1e-9)


def test_the_blunted_part_of_the_flow_starts_on_the_exact_law_and_ends_in_none():
    assert flow(1 - BLUNT - 1e-9) == pytest.approx(flow(1 - BLUNT + 1e-9), rel=1e-6)
    assert flow(1.0) == 0
    exact = mass_flow(HIGH, ROOM, (1 - BLUNT / 2) * HIGH, 1.0, heats=HEATS)
    assert 0.6 * exact < flow(1 - BLUNT / 2) < exact  # a chord of a root: half as far, half instead of √½ of the flow


@pytest.mark.parametrize("progress", [0.2, 0.5, 0.8, 1.0, 1.2])
def test_burning_at_an_even_pace_is_wiebe_s_law(progress):
    # Heywood equation 9.7 (from memory), a = 5, m + 1 = 3: burned 1 − exp(−5 τ³). The pace is even while pressure and
    # speed stand still; what is left is exp(−∫ hazard dt)
    engine = bare_engine()
    state, flags = begun(engine, 40.0)
    pressure = 8e5
    flags[at.BURNING], flags[at.HEAT], flags[at.FLAME], flags[at.FLAME_POWER] = 1, 2.4e6, 0.4, 0.3
    flags[at.SPARK_TEMPERATURE], flags[at.SPARK_PRESSURE] = 550.0, pressure

    def hazard_per_progress(reached):
        state[at.PROGRESS] = reached
        pace, hazard = burning(pressure, state, flags, engine)
        return hazard / pace

    left = math.exp(-quad(hazard_per_progress, 0, progress)[0])
    assert 1 - left == pytest.approx(1 - math.exp(-5 * progress**3), rel=1e-9)


def test_a_flame_gets_on_by_growth_times_flame_and_swirl_over_what_it_has_to_cross():
    # by hand: E = 1 + 0.85 · 2.4e6/(1250 · 500) = 4.264; swirl 0.0285 · 40/π + 0.15 = 0.5129 m/s; over 0.8 · 65 mm:
    # 4.264 · (0.4 + 0.5129)/0.052 = 74.86 /s
    engine = bare_engine({"burn_length": 0.8, "burn_swirl": 1.0, "swirl": 0.15, "bore": 0.065, "stroke": 0.057})
    state, flags = begun(engine, 40.0)
    flags[at.BURNING], flags[at.HEAT], flags[at.FLAME], flags[at.FLAME_POWER] = 1, 2.4e6, 0.4, 0.3
    flags[at.SPARK_TEMPERATURE], flags[at.SPARK_PRESSURE] = 500.0, 8e5
    assert burning(8e5, state, flags, engine)[0] == pytest.approx(74.86, rel=1e-4)


@pytest.mark.parametrize("pressure", [101_325.0, 6e5, 9e5])
@pytest.mark.parametrize("temperature", [293.15, 500.0, 560.0])
@pytest.mark.parametrize("gap", [0.5e-3, 0.75e-3, 1e-3])
def test_a_spark_in_a_pull_needs_the_voltage_of_the_plug_page(pressure, temperature, gap):
    assert needed_voltage(pressure, temperature, gap) == pytest.approx(breakdown_voltage(gap, pressure, temperature))


@pytest.mark.parametrize("height", [0.0, 500.0, 1000.0, 2000.0, 3000.0])
def test_air_at_a_height_is_that_of_another_package(height):
    # ambiance 1.3, by ICAO Doc 7488
    ours, theirs = standard_air(height), Atmosphere(height)
    assert ours.pressure == pytest.approx(theirs.pressure[0], rel=1e-6)
    assert ours.temperature == pytest.approx(theirs.temperature[0], rel=1e-6)
    assert ours.density == pytest.approx(theirs.density[0], rel=1e-6)


def test_the_energy_books_close_to_the_last_digits_in_short_steps_without_events():
    # compression and expansion, heat lost and rubbed, valves shut: nothing but the method's error is left
    engine = bare_engine(**(NO_LOSS | {"heat_factor": 1.0, "oil_friction": 0.012, "dry_friction": 1.5}))
    rubbing = NO_HAND._replace(friction=1.0)
    state, flags = begun(engine, 60.0)
    start = energy(state, engine, rubbing)
    turn_evenly(state, flags, engine, rubbing, math.pi, 2000)
    assert state[at.HEAT_LOST] > 1
    assert state[at.RUBBED] > 1
    assert unbooked(start, state, engine, rubbing) < 1e-9


def test_compressed_and_let_out_again_without_loss_the_charge_is_as_before():
    # reversible: no heat lost, nothing flows
    engine = bare_engine(inertia=HUGE, **NO_LOSS)
    state, flags = begun(engine, 60.0)
    before = state.copy()
    turn_evenly(state, flags, engine, NO_HAND, math.pi, 800)
    assert state[at.TEMPERATURE] == pytest.approx(before[at.TEMPERATURE], rel=1e-8)
    assert state[at.MASS] == before[at.MASS]
