"""Holes to tap."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.tapping import hole_for_depth, hole_for_percent, percent_thread
from bellcrank.fastening.thread_sizes import FINE_ONLY
from bellcrank.fastening.threads import parse_thread

M6 = parse_thread("M6")


@given(share=st.floats(0.3, 1.0))
def test_hole_and_percent_undo_each_other(share):
    assert percent_thread(M6, hole_for_percent(M6, share)) == pytest.approx(share)


@given(diameters=st.floats(0.05, 1.5))
def test_the_hole_for_a_depth_keeps_within_the_limits_of_the_thread(diameters):
    limits, hole = thread_limits(M6), hole_for_depth(M6, diameters * M6.diameter)
    assert limits.hole_minor_min <= hole.low < hole.high <= limits.hole_minor_max * (1 + 1e-12)


@given(depths=st.tuples(st.floats(0.0003, 0.0089), st.floats(0.0003, 0.0089)))
def test_a_deeper_thread_never_wants_a_smaller_hole(depths):
    shallow, deep = (hole_for_depth(M6, depth) for depth in sorted(depths))
    assert shallow.low <= deep.low
    assert shallow.high <= deep.high


def test_refuses_a_hole_larger_than_the_thread():
    with pytest.raises(OutOfRange, match="Thread left between M6×1 and the hole"):
        percent_thread(M6, 0.0061)


@pytest.mark.parametrize("share", [0.0, 1.1, float("nan")])
def test_refuses_a_share_no_hole_leaves(share):
    with pytest.raises(OutOfRange, match="Share of a full thread"):
        hole_for_percent(M6, share)


def test_refuses_a_depth_the_table_does_not_reach():
    with pytest.raises(OutOfRange, match="at most one and a half diameters"):
        hole_for_depth(M6, 0.010)


@pytest.mark.parametrize("size", FINE_ONLY)
def test_a_size_without_a_coarse_pitch_is_not_guessed(size):
    with pytest.raises(NotUnderstood, match=rf"only made fine; write the pitch too, like M{size}x"):
        parse_thread(f"M{size}")


@pytest.mark.parametrize("typed", ["M1.6x0.2", "M40", "#2-56", "1-1/4-7"])
def test_a_thread_outside_the_tables_is_refused(typed):
    with pytest.raises(NotUnderstood):
        parse_thread(typed)
