"""The forces of a puller by the laws they must keep; printed values are in tests/published/pulling.csv."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.pull_forces import heaviest_bolt_load, screw_torque
from bellcrank.fastening.threads import Thread, ThreadSystem, parse_thread

forces = st.floats(0.0, 1e5)
shares = st.floats(0.0, 0.5)


def load(force, bolts=2, share=0.0):
    return heaviest_bolt_load(force, bolts, circle_radius=0.025, off_centre=share * 0.025)


@pytest.mark.parametrize("bolts", [2, 3])
def test_a_centred_screw_loads_all_bolts_alike(bolts):
    assert load(9000.0, bolts) == pytest.approx(9000.0 / bolts)


@given(force=forces, share=shares)
def test_a_screw_off_the_middle_never_eases_the_heaviest_bolt(force, share):
    assert load(force, 2, share) >= load(force, 2)
    assert load(force, 3, share) >= load(force, 3)


@given(force=forces, share=shares)
def test_a_third_bolt_helps_the_heaviest_one(force, share):
    assert load(force, 3, share) <= load(force, 2, share)


@given(force=st.floats(1.0, 1e5), share=shares, angle=st.floats(0.0, 6.3))
def test_no_direction_loads_a_bolt_of_three_more_than_told_and_none_goes_slack(force, share, angle):
    """A stiff plate on three bolts, solved as three equations: forces, and moments about two axes."""
    places = 2 * np.pi / 3 * np.arange(3)
    equations = np.array([np.ones(3), np.cos(places), np.sin(places)])
    loads = np.linalg.solve(equations, force * np.array([1.0, share * np.cos(angle), share * np.sin(angle)]))
    assert loads.max() <= load(force, 3, share) * (1 + 1e-9)
    assert loads.min() >= -1e-9 * force


@given(scale=st.floats(0.1, 10.0))
def test_torque_grows_with_the_size_of_screw_and_tip(scale):
    once, size = parse_thread("M10"), scale * 0.010
    large = Thread("scaled", ThreadSystem.METRIC, size, scale * once.pitch)
    one = screw_torque(1000.0, once, friction=0.14, tip_radius=0.002)
    assert screw_torque(1000.0, large, friction=0.14, tip_radius=scale * 0.002) == pytest.approx(scale * one)


@given(friction=st.floats(0.03, 0.49))
def test_more_friction_takes_more_torque(friction):
    m10 = parse_thread("M10")
    low = screw_torque(1000.0, m10, friction=friction, tip_radius=0.002)
    assert screw_torque(1000.0, m10, friction=friction + 0.01, tip_radius=0.002) > low


def test_an_inch_screw_and_a_metric_one_of_the_same_sizes_take_the_same_torque():
    inch = parse_thread("1/4-20")
    metric = Thread("same", ThreadSystem.METRIC, 0.00635, 0.00127)
    torques = [screw_torque(5000.0, one, friction=0.14, tip_radius=0.002) for one in (inch, metric)]
    assert torques[0] == pytest.approx(torques[1])


def test_arrays_go_through_the_same_formulae():
    forces_in = np.array([0.0, 5000.0])
    assert load(forces_in, 3, 0.1) == pytest.approx([0.0, load(5000.0, 3, 0.1)])
    one = screw_torque(5000.0, parse_thread("M10"), friction=0.14, tip_radius=0.002)
    both = screw_torque(forces_in, parse_thread("M10"), friction=0.14, tip_radius=0.002)
    assert both == pytest.approx([0.0, one])


@pytest.mark.parametrize("bolts", [0, 1, 4])
def test_refuses_a_number_of_bolts_it_cannot_share_the_load_among(bolts):
    with pytest.raises(OutOfRange, match="it must be 2 or 3"):
        load(1000.0, bolts)


def test_refuses_a_screw_that_would_leave_a_bolt_slack():
    with pytest.raises(OutOfRange, match=r"13\.0 mm off the middle; it must be 12\.5 mm at most.*Centre the screw"):
        load(1000.0, 2, 0.52)


@pytest.mark.parametrize("force", [-1.0, float("nan")])
def test_refuses_a_force_that_cannot_be(force):
    with pytest.raises(OutOfRange, match="Pulling force"):
        load(force)
    with pytest.raises(OutOfRange, match="Force of the screw"):
        screw_torque(force, parse_thread("M10"), friction=0.14, tip_radius=0.002)


def test_refuses_a_friction_no_screw_has():
    with pytest.raises(OutOfRange, match=r"Friction is 0\.7"):
        screw_torque(100.0, parse_thread("M10"), friction=0.7, tip_radius=0.002)
