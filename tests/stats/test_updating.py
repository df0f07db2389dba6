import math

import numpy as np
import pytest

from bellcrank.stats.updating import LogSums, Times, sums_of, updated_row, updated_times


def test_a_row_is_a_weighted_mean_of_what_was_believed_and_seen():
    # by hand: (8 * .7 + 1) / 10, (8 * .2 + 0) / 10, (8 * .1 + 1) / 10
    assert updated_row((0.7, 0.2, 0.1), 8, (1, 0, 1)) == pytest.approx((0.66, 0.16, 0.18))


def test_a_row_without_counts_stays():
    assert updated_row((0.7, 0.3), 8, (0, 0)) == (0.7, 0.3)


def test_many_counts_outweigh_what_was_believed():
    assert updated_row((0.5, 0.5), 8, (9000, 1000)) == pytest.approx((0.9, 0.1), abs=1e-3)


def test_a_time_nobody_measured_stays():
    assert updated_times(Times(10, 18, 30), 6, LogSums()) == Times(10, 18, 30)


def test_a_few_times_move_the_middle_a_little():
    # by hand: the geometric mean of six times 18 min and two times 36 min is 18 * 2 ** (2 / 8)
    assert updated_times(Times(10, 18, 30), 6, sums_of(36, 36)).typical == pytest.approx(18 * 2**0.25)


def test_many_times_are_learnt_with_their_spread():
    # Second route: the times that were drawn, and their tenths
    drawn = np.random.default_rng(5).lognormal(math.log(25), 0.4, 20_000)
    learnt = updated_times(Times(10, 18, 30), 6, sums_of(*drawn.tolist()))
    low, middle, high = np.quantile(drawn, [0.1, 0.5, 0.9])
    assert (learnt.low, learnt.typical, learnt.high) == pytest.approx((low, middle, high), rel=0.02)


def test_equal_times_narrow_the_spread():
    learnt = updated_times(Times(10, 18, 30), 6, sums_of(*[18.0] * 50))
    assert 10 < learnt.low < learnt.typical < learnt.high < 30
