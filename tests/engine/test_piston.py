"""Piston and volume of a crank drive."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.engine.piston import CrankDrive, piston_travel, piston_travel_rate
from bellcrank.errors import OutOfRange

DRIVES = st.builds(CrankDrive, st.floats(0.04, 0.1), st.floats(0.03, 0.08), st.floats(0.08, 0.15), st.floats(5, 11))
ANGLES = st.floats(-20, 20)


@given(DRIVES)
def test_bottom_over_top_is_the_compression_ratio(drive):
    assert drive.volume(math.pi) / drive.volume(0.0) == pytest.approx(drive.compression, rel=1e-12)


@given(DRIVES, ANGLES)
def test_the_rate_is_the_slope_of_the_travel(drive, angle):
    step = 1e-6
    slope = (
        piston_travel(angle + step, drive.radius, drive.rod) - piston_travel(angle - step, drive.radius, drive.rod)
    ) / (2 * step)
    assert piston_travel_rate(angle, drive.radius, drive.rod) == pytest.approx(slope, abs=1e-8)


@given(DRIVES, ANGLES)
def test_the_piston_stays_between_top_and_bottom_and_comes_back_every_turn(drive, angle):
    travel = piston_travel(angle, drive.radius, drive.rod)
    assert -1e-12 <= travel <= drive.stroke + 1e-12
    assert piston_travel(angle + 2 * math.pi, drive.radius, drive.rod) == pytest.approx(travel, abs=1e-12)


def test_a_longer_rod_comes_nearer_to_a_sine():
    # with no end to the rod: a (1 − cos θ)
    assert piston_travel(1.0, 0.03, 1e4) == pytest.approx(0.03 * (1 - math.cos(1.0)), rel=1e-5)


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ((0.065, 0.057, 0.02, 8.5), "Rod over crank radius"),
        ((0.065, 0.057, 0.1, 30), "Compression ratio is 30"),
        ((-0.065, 0.057, 0.1, 8.5), "Bore is"),
    ],
)
def test_sizes_that_cannot_be_are_refused(sizes, said):
    with pytest.raises(OutOfRange, match=said):
        CrankDrive(*sizes)
