"""In spec or not, when the measurement is uncertain."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.measuring.conformity import Verdict, judge_at_least, judge_at_most, judge_between
from bellcrank.measuring.measured import Measured

values = st.floats(-1e3, 1e3)
spreads = st.floats(0, 1e3)


@given(value=values, limit=values)
def test_without_uncertainty_there_is_always_a_verdict(value, limit):
    expected = Verdict.PASSES if value <= limit else Verdict.FAILS
    assert judge_at_most(Measured(value, 0.0), limit) is expected


@given(value=values, spread=spreads, limit=values)
def test_more_uncertainty_never_turns_fails_into_passes_or_back(value, spread, limit):
    sharp, blurred = judge_at_most(Measured(value, 0.0), limit), judge_at_most(Measured(value, spread), limit)
    assert blurred in (sharp, Verdict.UNDECIDED)


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (7.0, Verdict.FAILS),
        (7.9, Verdict.UNDECIDED),
        (8.3, Verdict.UNDECIDED),
        (8.5, Verdict.PASSES),
        (9.9, Verdict.UNDECIDED),
        (11.0, Verdict.FAILS),
    ],
)
def test_a_torque_in_a_window_of_8_to_10_read_to_0_4(value, verdict):
    assert judge_between(Measured(value, 0.4), 8.0, 10.0) is verdict


@given(value=values, spread=spreads, limit=values)
def test_at_least_and_at_most_are_mirrors(value, spread, limit):
    assert judge_at_least(Measured(value, spread), limit) is judge_at_most(Measured(-value, spread), -limit)


def test_a_reading_worse_than_the_window_never_passes():
    assert judge_between(Measured(9.0, 5.0), 8.0, 10.0) is Verdict.UNDECIDED


def test_refuses_a_window_the_wrong_way_round():
    with pytest.raises(OutOfRange, match="lower limit 10 is above the upper limit 8"):
        judge_between(Measured(9.0, 0.1), 10.0, 8.0)
