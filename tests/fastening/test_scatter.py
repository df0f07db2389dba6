"""How far a preload may be off."""

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.scatter import preload_interval, spread_of_pulls
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.ways import SCATTER

PULLS = [9.1e3, 10.2e3, 9.8e3, 10.9e3, 10.0e3]


def test_a_series_of_pulls_gives_the_standard_s_numbers_by_hand():
    """NASA-STD-5020B, A.2, worked step by step; 4.291 is its factor for five."""
    found = spread_of_pulls(12.0, PULLS, 0.006)
    assert found.mean == 10e3
    assert found.nut_factor == pytest.approx(0.2)
    assert found.scatter == pytest.approx(4.291 * statistics.stdev(PULLS) / 10e3, rel=2e-4)
    assert (found.most_above, found.most_below) == pytest.approx((0.09, 0.09))


@given(
    torque=st.floats(1, 100),
    scatter=st.floats(0, 0.8),
    relaxation=st.floats(0, 0.1),
    bolts=st.integers(1, 8),
    factor=st.floats(0.08, 0.4),
)
def test_the_interval_is_never_inverted_and_holds_the_usual_preload(torque, scatter, relaxation, bolts, factor):
    found = preload_interval(torque, 0.006, factor, scatter=scatter, relaxation=relaxation, bolts=bolts)
    assert 0 <= found.low <= found.nominal <= found.high
    assert found.nominal == pytest.approx(torque / (factor * 0.006))


def test_bolts_that_share_a_face_scatter_less_together():
    alone = preload_interval(10, 0.006, 0.2, scatter=0.25)
    four = preload_interval(10, 0.006, 0.2, scatter=0.25, bolts=4)
    assert four.high / four.nominal - 1 == pytest.approx((alone.high / alone.nominal - 1) / 2)


def test_a_locking_nut_only_takes_from_the_low_side():
    free, locked = (preload_interval(10, 0.006, 0.2, scatter=0.25, prevailing_torque=drag) for drag in (0, 3))
    assert locked.high == free.high
    assert locked.low < free.low


def test_an_inch_thread_has_the_interval_of_its_metres():
    thread = parse_thread("1/4-20")
    inch = preload_interval(9.0, thread.diameter, 0.2, scatter=0.25)
    assert inch == preload_interval(9.0, 0.25 * 0.0254, 0.2, scatter=0.25)


def test_every_tabled_way_of_tightening_can_be_computed_with():
    for way in SCATTER.values():
        assert preload_interval(10, 0.006, 0.2, scatter=way.scatter).low > 0


def test_refuses_fewer_pulls_than_say_anything():
    with pytest.raises(OutOfRange, match="There are 4 test pulls; it must be 5 or more"):
        spread_of_pulls(12.0, PULLS[:4], 0.006)


def test_refuses_a_nut_that_eats_the_torque():
    with pytest.raises(OutOfRange, match="may not clamp at all"):
        preload_interval(10, 0.006, 0.2, scatter=0.35, prevailing_torque=9.5)


@pytest.mark.parametrize("scatter", [-0.1, 1.0, float("nan")])
def test_refuses_a_scatter_that_cannot_be(scatter):
    with pytest.raises(OutOfRange, match="Scatter"):
        preload_interval(10, 0.006, 0.2, scatter=scatter)
