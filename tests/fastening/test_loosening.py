"""Backing off, and what a break-loose torque tells."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.heads import Face, face_under
from bellcrank.fastening.loosening import breakloose_torque, residual_preload
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.tightening import torque_for_preload

M6 = parse_thread("M6")
FACE = face_under("hex", M6)
SIZES = {"bearing_diameter": FACE.bearing_diameter, "hole_diameter": FACE.hole_diameter}
frictions = st.floats(0.06, 0.5)


def both(friction):
    return {"thread_friction": friction, "head_friction": friction, **SIZES}


@given(preload=st.floats(1, 1e5), friction=frictions)
def test_tightening_takes_twice_the_work_of_the_lead_more_than_loosening(preload, friction):
    on = torque_for_preload(preload, M6, **both(friction))
    assert on - breakloose_torque(preload, M6, **both(friction)) == pytest.approx(preload * M6.pitch / math.pi)


@pytest.mark.parametrize(("friction", "low", "high"), [(0.10, 0.62, 0.67), (0.14, 0.71, 0.76), (0.20, 0.79, 0.83)])
@pytest.mark.parametrize("size", ["M6", "M8", "M10"])
def test_off_over_on_is_what_the_collected_formulae_gave(size, friction, low, high):
    """Frozen orientation from the time the formulae were collected: .63, .72-.74 and .80; .63 is M6, M10 has .66."""
    thread = parse_thread(size)
    face = face_under("hex", thread)
    known = {"bearing_diameter": face.bearing_diameter, "hole_diameter": face.hole_diameter}
    rub = {"thread_friction": friction, "head_friction": friction}
    ratio = breakloose_torque(1e3, thread, **rub, **known) / torque_for_preload(1e3, thread, **rub, **known)
    assert low < ratio < high


@given(preload=st.floats(100, 1e5), least=frictions, most=frictions, inside=st.floats(0, 1))
def test_the_interval_holds_the_clamp_whatever_the_friction_was_in_the_range(preload, least, most, inside):
    least, most = sorted((least, most))
    friction = least + inside * (most - least)
    torque = breakloose_torque(preload, M6, **both(friction))
    found = residual_preload(torque, M6, FACE, least_friction=least, most_friction=most)
    assert found.low <= found.nominal <= found.high
    assert found.low <= preload * (1 + 1e-9)
    assert found.high >= preload * (1 - 1e-9)


def test_refuses_a_joint_that_turns_loose_by_itself():
    with pytest.raises(OutOfRange, match="turns loose by itself"):
        breakloose_torque(1e3, M6, **both(0.03) | {"bearing_diameter": 0.0068, "hole_diameter": 0.001})


def test_refuses_a_range_of_friction_the_wrong_way_round():
    with pytest.raises(OutOfRange, match="other way round"):
        residual_preload(5.0, M6, Face(0.00888, 0.0066), least_friction=0.2, most_friction=0.1)


@pytest.mark.parametrize("torque", [0.0, -1.0, float("nan")])
def test_refuses_a_break_loose_torque_nobody_read(torque):
    with pytest.raises(OutOfRange, match="Break-loose torque"):
        residual_preload(torque, M6, FACE, least_friction=0.1, most_friction=0.2)
