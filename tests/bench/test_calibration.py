"""Whether the tool's chances come true, on machines drawn from its own pack."""

import numpy as np
import pytest
from bench.calibration import brier, forecasts, log_score, spiegelhalter, together
from bench.simulated import Visit, draw_machines

from tests.diagnosis.small_pack import COMPILED


def test_scores_of_thirty_forecasts_worked_by_hand():
    # Ten at .1 with one hit, ten at .4 with five, ten at .8 with seven: Brier (.9 + 2.6 + 2.2) / 30.
    given = np.repeat([0.1, 0.4, 0.8], 10)
    there = np.concatenate([np.arange(10) < hits for hits in (1, 5, 7)]).astype(float)
    surprise = np.log(0.1) + 9 * np.log(0.9) + 5 * np.log(0.4) + 5 * np.log(0.6) + 7 * np.log(0.8) + 3 * np.log(0.2)
    assert brier(given, there) == pytest.approx(0.19)
    assert log_score(given, there) == pytest.approx(-surprise / 30)


def test_z_of_three_forecasts_worked_by_hand():
    # (.8 x .6 - .2 x .6 - .2 x .6) / sqrt(3 x .36 x .16) = .24 / sqrt(.1728)
    assert spiegelhalter(np.array([0.2, 0.2, 0.8]), np.array([1.0, 0.0, 1.0])) == pytest.approx(0.24 / 0.1728**0.5)


def test_chances_come_true_on_machines_the_pack_describes():
    machines = draw_machines(COMPILED, "wont-start", 300, (8,))
    told = together([forecasts(Visit(COMPILED, COMPILED, machine)) for machine in machines])
    assert abs(spiegelhalter(told.given, told.there)) < 3
    assert abs(spiegelhalter(told.top, told.top_true)) < 3
    assert brier(told.given, told.there) < brier(told.by_complaint, told.there)
    assert told.top_true.mean() <= told.among_three.mean()
