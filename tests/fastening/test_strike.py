"""A blade strike: what it did to taper, key and ignition."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.key_joint import GivesWay
from bellcrank.fastening.run_on import bar_inertia, ring_inertia, run_on_angle, stop_angle, stop_torque
from bellcrank.fastening.strike import Blow, Grip, KeyInWay, Likely, NutAndTaper, blow_in_time, grip_of, judge_strike
from bellcrank.fastening.taper_forces import Taper

SPEED = 3000 * 2 * math.pi / 60
FIT = NutAndTaper(Taper(0.125, 0.0206, 0.025), nut_diameter=0.015875, nut_torque=80.0)
KEY = KeyInWay(low=130.0, high=156.0, width=0.0047625, shaft_diameter=0.0206)
SHARP = Blow(0.010, SPEED, math.radians(15))


def simulated(inertia, speed, stop, slip, key, travel, step=2e-6):
    """Run crank and flywheel through time in small steps: the crank slows evenly, taper and key drag the flywheel."""
    brake_crank = speed**2 / (2 * stop)
    crank_speed = wheel_speed = speed
    crank = wheel = 0.0
    while wheel_speed > 0 or crank_speed > 0:
        gone = wheel - crank > travel
        drag = (slip + (0.0 if gone else key)) / inertia
        crank_speed = max(0.0, crank_speed - brake_crank * step)
        wheel_speed = max(crank_speed, wheel_speed - drag * step)
        crank += crank_speed * step
        wheel += wheel_speed * step
    return wheel - crank


@pytest.mark.parametrize(
    ("stop", "slip", "key", "travel"),
    [
        (45, 182, 0, 0.0),
        (15, 400, 143, 0.05),  # the key parts while the crank still turns
        (15, 300, 143, 0.25),
        (45, 300, 143, 0.3),  # the key keeps a step
        (10, 600, 143, 0.6),  # the key keeps a step, the crank long stopped
        (5, 250, 300, 0.4),  # the key parts when the crank has stopped
    ],
)
def test_the_run_on_angle_meets_a_run_in_small_steps(stop, slip, key, travel):
    given = (0.010, SPEED, math.radians(stop), slip)
    expected = simulated(*given, key, travel)
    assert run_on_angle(*given, key_torque=key, key_travel=travel) == pytest.approx(expected, abs=0.003)


@pytest.mark.parametrize(("stop", "torque"), [(15, 1885), (45, 628), (90, 314), (180, 157)])
def test_frozen_the_torque_that_stops_a_small_flywheel(stop, torque):
    """Frozen orientation: 0.010 kg·m² from 3000 rpm, worked beside the code."""
    assert stop_torque(0.010, SPEED, math.radians(stop)) == pytest.approx(torque, abs=0.6)


@pytest.mark.parametrize(("slip", "angle"), [(182, 155), (400, 71), (619, 46)])
def test_frozen_how_far_the_flywheel_turns_on_a_slipping_taper(slip, angle):
    """Frozen orientation: the crank stopped at once, worked beside the code."""
    assert math.degrees(run_on_angle(0.010, SPEED, 1e-6, slip)) == pytest.approx(angle, abs=0.6)


blows = st.builds(Blow, st.floats(0.002, 0.05), st.floats(50, 500), st.floats(0.05, 6))
fits = st.builds(
    NutAndTaper,
    st.builds(Taper, st.floats(0.05, 0.2), st.just(0.02), st.just(0.025)),
    st.just(0.016),
    st.floats(5, 150),
)
keys = st.none() | st.tuples(st.floats(20, 300), st.floats(1, 1.5), st.floats(0.003, 0.006)).map(
    lambda one: KeyInWay(one[0], one[0] * one[1], one[2], 0.02)
)


@given(blow=blows, fit=fits, key=keys)
def test_the_range_is_never_inverted_and_the_flywheel_is_never_behind(blow, fit, key):
    struck = judge_strike(blow, fit, key)
    assert 0 <= struck.run_on_low <= struck.run_on_high + 1e-12
    assert 0 < struck.grip.low < struck.grip.high


@given(blow=blows, fit=fits, key=keys)
def test_a_taper_that_surely_holds_leaves_key_and_timing_alone(blow, fit, key):
    struck = judge_strike(blow, fit, key)
    if struck.taper_holds is Likely.YES:
        assert struck.run_on_high == 0
        assert struck.key_gives_way is Likely.NO
    if struck.key_gives_way is not Likely.NO:
        assert struck.run_on_high > 0


@given(blow=blows, fit=fits, key=keys)
def test_a_key_never_makes_it_worse(blow, fit, key):
    alone, keyed = judge_strike(blow, fit), judge_strike(blow, fit, key)
    assert keyed.run_on_high <= alone.run_on_high + 1e-9
    assert keyed.run_on_low <= alone.run_on_low + 1e-9


@given(blow=blows, fit=fits)
def test_the_nut_torque_it_names_does_hold(blow, fit):
    struck = judge_strike(blow, fit)
    tightened = replace(fit, nut_torque=struck.nut_torque_to_hold * 1.0001)
    assert judge_strike(blow, tightened).taper_holds is Likely.YES


@given(pair=st.tuples(st.floats(5, 150), st.floats(5, 150)).map(sorted), blow=blows, key=keys)
def test_a_tighter_nut_never_lets_the_flywheel_run_further(pair, blow, key):
    loose, tight = (judge_strike(blow, replace(FIT, nut_torque=torque), key) for torque in pair)
    assert tight.run_on_high <= loose.run_on_high + 1e-9
    assert tight.run_on_low <= loose.run_on_low + 1e-9


@given(pair=st.tuples(st.floats(0.0, 1.5), st.floats(0.0, 1.5)).map(sorted))
def test_a_tougher_key_never_lets_the_flywheel_run_further(pair):
    brittle, tough = (run_on_angle(0.01, SPEED, 0.3, 300.0, key_torque=143.0, key_travel=travel) for travel in pair)
    assert tough <= brittle + 1e-9


def test_with_the_nut_at_half_torque_the_taper_slips_at_half():
    struck = judge_strike(SHARP, FIT)
    assert struck.half_nut_grip.low == pytest.approx(struck.grip.low / 2)
    assert struck.half_nut_grip.high == pytest.approx(struck.grip.high / 2)


def test_a_sharp_stop_slips_the_taper_and_shears_the_key():
    struck = judge_strike(SHARP, FIT, KEY)
    assert struck.taper_holds is Likely.NO
    assert struck.key_gives_way is Likely.YES


def test_a_stop_over_a_whole_turn_leaves_the_taper_holding():
    gentle = replace(SHARP, stop_angle=math.radians(360))
    assert judge_strike(gentle, FIT, KEY).taper_holds is Likely.YES


def test_the_key_may_have_saved_it():
    struck = judge_strike(replace(SHARP, stop_angle=math.radians(100)), FIT, KEY)
    assert struck.taper_holds is Likely.PERHAPS
    assert struck.key_gives_way is Likely.NO
    assert struck.run_on_high == 0


def test_the_blades_own_inertia_does_not_go_through_the_taper():
    bare, bladed = judge_strike(SHARP, FIT, KEY), judge_strike(replace(SHARP, blade_inertia=0.0125), FIT, KEY)
    assert bare.blade_torque is None
    assert bladed.blade_torque == pytest.approx(bladed.mean_torque * 1.25)
    assert replace(bladed, blade_torque=None) == bare


def test_a_stop_told_by_time_is_the_stop_told_by_angle():
    timed = blow_in_time(0.010, SPEED, 0.010)
    assert timed.stop_angle == pytest.approx(SPEED * 0.005)
    assert timed.mean_torque == pytest.approx(0.010 * SPEED / 0.010)
    assert timed.energy == pytest.approx(timed.mean_torque * timed.stop_angle)


def test_the_grip_spans_oily_and_dry():
    grip = grip_of(FIT)
    assert grip == Grip(
        grip_of(replace(FIT, friction=(0.10, 0.10))).low, grip_of(replace(FIT, friction=(0.2, 0.2))).high
    )
    assert grip_of(replace(FIT, friction=(0.20, 0.10))) == grip


def test_a_ring_lies_between_a_disc_and_a_hoop():
    disc, hoop = ring_inertia(3.0, 0.2, 0.0), 3.0 * 0.1**2
    assert disc < ring_inertia(3.0, 0.2, 0.15) < hoop


def test_arrays_go_through_the_same_formula():
    angles, slips = np.radians([15.0, 45.0, 360.0]), np.array([182.0, 400.0, 619.0])
    for key in ({}, {"key_torque": 143.0, "key_travel": 0.1}):
        each = [run_on_angle(0.01, SPEED, float(a), float(s), **key) for a, s in zip(angles, slips, strict=True)]
        assert run_on_angle(0.01, SPEED, angles, slips, **key) == pytest.approx(each)
    assert stop_torque(0.01, SPEED, angles) == pytest.approx([stop_torque(0.01, SPEED, float(a)) for a in angles])
    assert stop_angle(np.array([100.0, 200.0]), 0.01) == pytest.approx([0.5, 1.0])
    assert bar_inertia(np.array([0.6, 1.2]), 0.5) == pytest.approx([0.0125, 0.025])


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ((-0.01, SPEED, 1.0, 100.0), "Moment of inertia"),
        ((0.01, -1.0, 1.0, 100.0), "Speed is -10 rpm"),
        ((0.01, SPEED, 0.0, 100.0), "Angle to stop in is 0"),
        ((0.01, SPEED, 1.0, 0.0), "Slip torque of the taper"),
        ((float("nan"), SPEED, 1.0, 100.0), "Moment of inertia is missing"),
    ],
)
def test_refuses_a_blow_that_cannot_be(given, words):
    with pytest.raises(OutOfRange, match=words):
        run_on_angle(*given)


def test_refuses_a_nut_that_was_never_tightened():
    with pytest.raises(OutOfRange, match=r"Torque on the flywheel nut is 0\.0 N·m"):
        judge_strike(SHARP, replace(FIT, nut_torque=0.0))


def test_refuses_a_key_wider_than_half_its_shaft():
    with pytest.raises(OutOfRange, match="Shaft diameter over key width"):
        judge_strike(SHARP, FIT, replace(KEY, width=0.015))


def test_a_blow_meets_the_weakest_of_key_and_keyway():
    """By hand: 0.010 kg·m² from 3000 rpm in 45° takes 628 N·m; a grip of 182 N·m at least leaves 446 for the key."""
    blow = replace(SHARP, stop_angle=math.radians(45))
    strong_key = replace(KEY, low=900.0, high=999.0)
    weak_keyway = replace(strong_key, low=20.0, high=40.0, first=(GivesWay.KEYWAY,))
    assert judge_strike(blow, replace(FIT, nut_torque=40.0), strong_key).key_gives_way is Likely.NO
    broken = judge_strike(blow, replace(FIT, nut_torque=40.0), weak_keyway)
    assert broken.key_gives_way is not Likely.NO
    assert broken.first == (GivesWay.KEYWAY,)
    assert judge_strike(blow, FIT).first == ()
