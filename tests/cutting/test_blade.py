"""A turning blade."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.cutting.blade import HIGHEST_TIP_SPEED, bar_energy, highest_speed, measured_tip_speed, tip_speed
from bellcrank.errors import OutOfRange
from bellcrank.measuring.conformity import Verdict, judge_at_most
from bellcrank.measuring.measured import Measured

RPM = 2 * math.pi / 60
lengths = st.floats(0.1, 2.0)
speeds = st.floats(1.0, 1000.0)


@given(length=lengths, speed=speeds)
def test_twice_the_blade_has_twice_the_tip_speed(length, speed):
    assert tip_speed(2 * length, speed) == pytest.approx(2 * tip_speed(length, speed))


@given(length=lengths)
def test_at_its_highest_speed_a_blade_is_just_at_the_limit(length):
    assert tip_speed(length, highest_speed(length)) == pytest.approx(HIGHEST_TIP_SPEED)


@given(length=lengths, speed=speeds)
def test_twice_the_speed_holds_four_times_the_energy(length, speed):
    assert bar_energy(0.6, length, 2 * speed) == pytest.approx(4 * bar_energy(0.6, length, speed))


@pytest.mark.parametrize(("rpm", "verdict"), [(3060, Verdict.PASSES), (3600, Verdict.FAILS)])
def test_a_21_inch_blade_passes_at_3060_and_fails_at_3600(rpm, verdict):
    assert judge_at_most(Measured(tip_speed(21 * 0.0254, rpm * RPM), 0.0), HIGHEST_TIP_SPEED) is verdict


@given(length=lengths, speed=speeds, spread=st.floats(0, 0.1))
def test_the_tip_speed_is_never_surer_than_the_tachometer(length, speed, spread):
    tip = measured_tip_speed(Measured(length, 0.002), Measured(speed, spread * speed))
    assert tip.uncertainty >= spread * tip.value * (1 - 1e-12)


def test_a_blade_at_rest_still_has_an_uncertainty():
    assert measured_tip_speed(Measured(0.5, 0.002), Measured(0.0, 2.0)).uncertainty == pytest.approx(0.5)


def test_arrays_go_through_the_same_formula():
    assert tip_speed(np.array([0.4, 0.5]), np.array([100.0, 100.0])) == pytest.approx([20.0, 25.0])
    assert highest_speed(np.array([0.5])) == pytest.approx([highest_speed(0.5)])


@pytest.mark.parametrize(("length", "words"), [(-0.5, "-500.00 mm"), (0.0, "0.00 mm"), (math.nan, "missing")])
def test_refuses_a_blade_with_no_length(length, words):
    with pytest.raises(OutOfRange, match=f"Blade, tip to tip is {words}"):
        tip_speed(length, 300.0)
    with pytest.raises(OutOfRange, match=f"Blade, tip to tip is {words}"):
        highest_speed(length)


def test_refuses_a_blade_that_turns_backwards():
    with pytest.raises(OutOfRange, match="Blade speed is -100 rpm; it must be zero or more"):
        tip_speed(0.5, -100 * RPM)


def test_refuses_a_blade_that_weighs_nothing():
    with pytest.raises(OutOfRange, match="Blade mass"):
        bar_energy(0.0, 0.5, 300.0)
