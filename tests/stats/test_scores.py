import numpy as np
import pytest

from bellcrank.stats.scores import Bin, binned, brier, log_score, murphy, spiegelhalter_z, surprise

# Source: row 28 of the design reference for diagnosis, computed apart from this program
SAID = [0.1] * 10 + [0.4] * 10 + [0.8] * 10
CAME = [n < 1 for n in range(10)] + [n < 5 for n in range(10)] + [n < 7 for n in range(10)]


def test_the_scores_of_thirty_forecasts():
    assert brier(SAID, CAME) == pytest.approx(0.19, abs=1e-6)
    assert log_score(SAID, CAME) == pytest.approx(0.5592243, abs=1e-6)


def test_the_brier_score_taken_apart():
    parts = murphy(SAID, CAME)
    assert parts.reliability == pytest.approx(0.0066667, abs=1e-6)
    assert parts.resolution == pytest.approx(0.0622222, abs=1e-6)
    assert parts.uncertainty == pytest.approx(0.2455556, abs=1e-6)
    assert parts.reliability - parts.resolution + parts.uncertainty == pytest.approx(brier(SAID, CAME))


def test_said_against_came():
    expected = ((10, 0.1, 1), (10, 0.4, 5), (10, 0.8, 7))
    assert binned(SAID, CAME) == tuple(Bin(count, pytest.approx(said), came) for count, said, came in expected)


def test_a_sure_forecast_has_its_bin():
    assert binned([1.0, 0.0], [True, False]) == (Bin(1, 0.0, 0), Bin(1, 1.0, 1))


def test_honest_chances_give_a_small_z_and_bold_ones_a_large():
    # Theory: z is about standard normal when every chance is right; pushed outwards it grows
    rng = np.random.default_rng(11)
    chances = rng.uniform(0.02, 0.98, 4000)
    came = (rng.uniform(size=4000) < chances).tolist()
    bold = np.where(chances > 0.5, 1 - (1 - chances) / 3, chances / 3)
    assert abs(spiegelhalter_z(chances.tolist(), came)) < 3
    assert spiegelhalter_z(bold.tolist(), came) > 10


def test_one_half_tells_nothing_of_honesty():
    assert spiegelhalter_z([0.5, 0.5], [True, False]) == 0


def test_what_was_called_impossible_costs_much_but_not_all():
    # by hand: -ln .001
    assert surprise(0.0) == pytest.approx(6.9078, abs=1e-4)
    assert log_score([0.0], [True]) == pytest.approx(6.9078, abs=1e-4)
