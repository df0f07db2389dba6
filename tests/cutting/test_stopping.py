"""Stopping a blade, and timing it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.cutting.stopping import stopping_torque, turns_to_stop, video_uncertainty, worst_stop
from bellcrank.errors import OutOfRange

positive = st.floats(0.01, 100.0)


@given(inertia=st.floats(0.001, 1.0), speed=positive, time=positive)
def test_the_brakes_work_over_the_turns_is_the_energy_that_was_in_it(inertia, speed, time):
    """Second route: torque times angle is ½ I ω²."""
    angle = 2 * math.pi * turns_to_stop(speed, time)
    assert stopping_torque(inertia, speed, time) * angle == pytest.approx(0.5 * inertia * speed**2)


def test_twice_the_frames_halve_the_uncertainty():
    assert video_uncertainty(60) == pytest.approx(video_uncertainty(30) / 2)


def test_the_longest_stop_counts():
    assert worst_stop((2.4, 2.9, 2.5), 0.03).value == 2.9


def test_two_stops_are_not_enough():
    with pytest.raises(OutOfRange, match="2 of the 3 stop times or more were given"):
        worst_stop((2.4, 2.5), 0.03)


def test_refuses_a_stop_that_took_no_time():
    with pytest.raises(OutOfRange, match=r"Stop time is 0\.00 s; it must be above zero"):
        worst_stop((2.4, 0.0, 2.5), 0.03)
    with pytest.raises(OutOfRange, match="Stop time"):
        stopping_torque(0.02, 300.0, 0.0)


@pytest.mark.parametrize("frames", [0.0, -30.0, math.nan])
def test_refuses_a_camera_with_no_frames(frames):
    with pytest.raises(OutOfRange, match="Frames a second is"):
        video_uncertainty(frames)
