"""Shares and their intervals."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.stats.share import share_of


@pytest.mark.parametrize(
    ("count", "of", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_agrees_with_the_published_intervals(count, of, low, high):
    # Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17 (1998) 857, table I,
    # method 3 (score, Wilson), from memory
    found = share_of(count, of)
    assert (found.low, found.high) == (pytest.approx(low, abs=6e-5), pytest.approx(high, abs=6e-5))


@given(st.integers(0, 500), st.integers(0, 500))
def test_holds_the_share_itself_and_mirrors(count, more):
    found, mirrored = share_of(count, count + more), share_of(more, count + more)
    assert 0 <= found.low <= found.value + 1e-12
    assert found.value <= found.high <= 1 or count + more == 0
    assert found.low == pytest.approx(1 - mirrored.high)


def test_none_of_none_may_be_anything():
    assert (share_of(0, 0).low, share_of(0, 0).high) == (0, 1)


def test_more_than_all_is_refused():
    with pytest.raises(OutOfRange, match="3 of 2 cannot be"):
        share_of(3, 2)
