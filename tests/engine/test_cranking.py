"""Cranking compression with leaks and a compression release."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bellcrank.bootstrap import open_library
from bellcrank.engine.air import standard_air
from bellcrank.engine.compression import cranking_pressure, trapped_ratio
from bellcrank.engine.cranking import WARM, Cranked, cranking_reading
from bellcrank.engine.piston import CrankDrive
from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.draw import draw_pulls
from bellcrank.engine.pull.many import run_pulls
from bellcrank.engine.pull.setting import Setting, engine_numbers, middle
from bellcrank.errors import OutOfRange

DRIVE = CrankDrive(bore=0.065, stroke=0.057, rod=0.1, compression=8.5)
CLOSES, SEA, EXPONENT = math.radians(-130), 101_325.0, 1.28
TIGHT = Cranked(DRIVE, CLOSES, speed=42.0)
RELEASE = {"release": 16e-6, "release_until": math.radians(-60)}


def test_a_tight_cylinder_is_the_closed_form():
    by_hand = cranking_pressure(SEA, trapped_ratio(DRIVE, CLOSES, 4e-6), EXPONENT)
    assert cranking_reading(replace(TIGHT, hose=4e-6), SEA, EXPONENT) == by_hand
    assert cranking_reading(replace(TIGHT, leak=1e-15), SEA, EXPONENT) == pytest.approx(
        cranking_pressure(SEA, trapped_ratio(DRIVE, CLOSES), EXPONENT), rel=1e-6
    )


@pytest.mark.parametrize("holes", [{"leak": 0.4e-6}, {"leak": 3.2e-6}, {"leak": 0.4e-6, **RELEASE}])
def test_agrees_with_the_same_loss_written_down_again_and_solved_by_scipy(holes):
    # second route: mass in kg against time, flow law for γ 1.4 written out, scipy 1.17 DOP853
    cranked = replace(TIGHT, **holes)
    volume_at_start = DRIVE.volume(CLOSES)
    mass_at_start = SEA * volume_at_start / (287.05287 * WARM)

    def rate(time, mass):
        angle = CLOSES + 42.0 * time
        dense = mass[0] / mass_at_start * volume_at_start / DRIVE.volume(angle)
        pressure, temperature = SEA * dense**EXPONENT, WARM * dense ** (EXPONENT - 1)
        ratio = max(SEA / pressure, (2 / 2.4) ** 3.5)
        area = cranked.leak + (cranked.release if angle < cranked.release_until else 0.0)
        psi = math.sqrt(max(0.0, 7 * (ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4))))
        return [-area * pressure / math.sqrt(287.05287 * temperature) * psi if pressure > SEA else 0.0]

    times = np.linspace(0, -CLOSES / 42.0, 2001)
    found = solve_ivp(rate, (0, times[-1]), [mass_at_start], "DOP853", times, rtol=1e-9, atol=1e-15, max_step=1e-4)
    dense = found.y[0] / mass_at_start * volume_at_start / DRIVE.volume(CLOSES + 42.0 * times)
    assert cranking_reading(cranked, SEA, EXPONENT) == pytest.approx(SEA * dense.max() ** EXPONENT - SEA, rel=5e-3)


@given(st.floats(0, 3000), st.floats(0, 3e-6))
def test_the_reading_is_in_proportion_to_the_air(height, leak):
    thin = standard_air(height).pressure
    holes = replace(TIGHT, leak=leak)
    assert cranking_reading(holes, thin, EXPONENT) / thin == pytest.approx(cranking_reading(holes, SEA, EXPONENT) / SEA)


@given(st.floats(1e-8, 3e-6), st.floats(1.1, 3), st.floats(10, 70))
def test_a_larger_leak_and_a_slower_pull_read_less(leak, larger, speed):
    at_speed = replace(TIGHT, speed=speed, leak=leak)
    here = cranking_reading(at_speed, SEA, EXPONENT)
    assert cranking_reading(replace(at_speed, leak=leak * larger), SEA, EXPONENT) <= here
    assert cranking_reading(replace(at_speed, speed=speed * 1.5), SEA, EXPONENT) >= here


def test_a_release_takes_the_same_share_as_in_the_equations_of_a_pull():
    # second route: heat, valves and leak each in its own equation; highest pressures of pulls without a spark
    card = open_library().packs["walk-behind-mower"].engine_cards[4]
    drawn = draw_pulls(open_library().operators["strong"], 40, np.random.default_rng(3))

    def most(works):
        engine = engine_numbers(middle(card) | {"voltage_per_speed": 10.0}, Setting(release_works=works))
        kept = run_pulls(engine, drawn, 2)
        quick = kept[:, at.MOST_SPEED] > 30
        return float(np.median(kept[quick, at.MOST_PRESSURE])) - SEA

    opened = 0.6 * math.pi * card.exhaust_valve.value * card.release_lift.value
    tight = Cranked(card.drive, card.intake_closes.value - math.pi, 42.0, leak=card.leak.value)
    released = replace(tight, release=opened, release_until=-card.release_closes.value)
    by_gauge = cranking_reading(released, SEA, EXPONENT) / cranking_reading(tight, SEA, EXPONENT)
    assert by_gauge == pytest.approx(most(True) / most(False), abs=0.1)


@pytest.mark.parametrize("wrong", [{"leak": -1e-7}, {"release": -1e-7}, {"hose": -1e-6}, {"speed": 1.0}])
def test_what_cannot_be_is_refused(wrong):
    with pytest.raises(OutOfRange):
        replace(TIGHT, **wrong)
