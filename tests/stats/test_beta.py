import pytest
from scipy import stats

from bellcrank.errors import OutOfRange
from bellcrank.stats.beta import Beta, beta_up_to, beta_with


def test_ten_cases_beforehand_and_three_of_five():
    # Source: row 27 of the design reference for diagnosis, computed apart from this program: Beta(2, 8) + 3 of 5
    believed = Beta(2, 8).after(3, 2)
    assert believed.mean == pytest.approx(0.333333, abs=1e-5)
    assert believed.interval() == pytest.approx((0.127598, 0.581035), abs=1e-5)


def test_none_of_twenty_still_leaves_a_chance():
    # Source: row 27 of the design reference for diagnosis, computed apart from this program:
    # Jeffreys, 0 of 20; the upper end leaves 5 % above it
    believed = Beta(0.5, 0.5).after(0, 20)
    assert believed.mean == pytest.approx(0.023810, abs=1e-5)
    assert believed.below(0.95) == pytest.approx(0.090476, abs=1e-5)


@pytest.mark.parametrize("counts", [(0.02, 3.0), (1, 1), (5, 10), (60, 900), (0.5, 4000), (2000, 3000), (80000, 20)])
@pytest.mark.parametrize("value", [1e-6, 0.01, 0.2, 0.4, 0.5, 0.9, 0.9999])
def test_agrees_with_a_general_library(counts, value):
    # Oracle: the beta distribution of scipy
    assert beta_up_to(value, *counts) == pytest.approx(stats.beta.cdf(value, *counts), abs=1e-11)


@pytest.mark.parametrize("counts", [(0.5, 20.5), (3, 1), (12.5, 200)])
def test_its_ends_are_those_of_a_general_library(counts):
    # Oracle: the beta distribution of scipy
    assert Beta(*counts).interval(0.9) == pytest.approx(stats.beta.interval(0.9, *counts), abs=1e-9)


def test_a_chance_worth_so_many_cases():
    assert beta_with(0.25, 60) == Beta(15, 45)


def test_nothing_is_below_zero_or_above_one():
    assert (beta_up_to(-1, 2, 3), beta_up_to(0, 2, 3), beta_up_to(1, 2, 3)) == (0, 0, 1)


def test_refuses_counts_that_say_nothing():
    with pytest.raises(OutOfRange, match="both must be above zero"):
        beta_up_to(0.5, 0, 3)
