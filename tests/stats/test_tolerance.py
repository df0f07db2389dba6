"""The tolerance factor by the laws it must keep, and against Howe's approximation; printed rows are in published."""

import math
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.stats.tolerance import tolerance_factor


@given(count=st.integers(2, 300))
def test_more_readings_vouch_for_a_narrower_band(count):
    assert tolerance_factor(count + 1) < tolerance_factor(count)


@given(count=st.integers(2, 1000), coverage=st.floats(0.5, 0.98))
def test_the_band_is_wider_than_if_mean_and_spread_were_known(count, coverage):
    assert tolerance_factor(count, coverage=coverage) > NormalDist().inv_cdf((1 + coverage) / 2)


@given(count=st.integers(3, 60))
def test_more_coverage_or_more_confidence_asks_for_a_wider_band(count):
    usual = tolerance_factor(count)
    assert tolerance_factor(count, coverage=0.95) > usual
    assert tolerance_factor(count, confidence=0.99) > usual


@pytest.mark.parametrize(("count", "chi_square"), [(6, 1.14548), (11, 3.94030), (21, 10.85081), (31, 18.49266)])
def test_howes_approximation_lies_near(count, chi_square):
    """z √((n - 1)(1 + 1/n) / χ²), with the lower 5 % points of chi-square every textbook prints."""
    howe = 1.644854 * math.sqrt((count - 1) * (1 + 1 / count) / chi_square)
    assert tolerance_factor(count) == pytest.approx(howe, rel=0.01)


def test_the_promise_is_kept_by_drawn_readings():
    """Of 40 000 series of five, 95 % must hold 90 % of all values; three standard errors are 0.33 %."""
    rng = np.random.default_rng(5020)
    series = rng.standard_normal((40_000, 5))
    mean, half = series.mean(axis=1), tolerance_factor(5) * series.std(axis=1, ddof=1)
    normal = NormalDist().cdf
    held = np.array([normal(m + h) - normal(m - h) for m, h in zip(mean, half, strict=True)])
    assert (held >= 0.90).mean() == pytest.approx(0.95, abs=0.0033)


@pytest.mark.parametrize("count", [0, 1, -3, 1001])
def test_refuses_a_count_it_cannot_vouch_for(count):
    with pytest.raises(OutOfRange, match="it must be 2 to 1000"):
        tolerance_factor(count)


@pytest.mark.parametrize("share", [0.4, 1.0, float("nan")])
def test_refuses_a_share_that_cannot_be(share):
    with pytest.raises(OutOfRange, match=r"it must be 0\.5 to 0\.99"):
        tolerance_factor(10, coverage=share)
    with pytest.raises(OutOfRange, match=r"it must be 0\.5 to 0\.99"):
        tolerance_factor(10, confidence=share)
