"""Whole pulls, step by step ours against scipy's integrator with its own steps and its own finding of events."""

import math
from functools import cache

import numpy as np
import pytest

from bellcrank.engine.pull import places as at
from bellcrank.engine.pull.draw import draw_pulls
from bellcrank.engine.pull.many import outcome_of, trace_pull
from bellcrank.engine.pull.run import run_pull
from bellcrank.engine.pull.setting import Setting, engine_numbers, middle
from tests.engine.bare_engine import CARD, CARDS, LIBRARY
from tests.engine.pull_by_scipy import ScipyPull

SLIPS = (-90, -60, -20, 0, 30, 90)
EACH = 5
PULLS = [(slip, index) for slip in SLIPS for index in range(EACH)]
SHORT_STEPS = 16.0  # of the usual length: then only the equations and the events are left to differ
BARELY = 0.1  # [rad/s]
DRAWN = draw_pulls(LIBRARY.operators["usual"], EACH, np.random.default_rng(1))


def engine_at(slip):
    return engine_numbers(middle(CARDS[CARD]), Setting(math.radians(slip)))


@cache
def by_scipy(slip, index):
    """The pull, RK45 to a relative 1e-7, and its outcome."""
    pull = ScipyPull(engine_at(slip), DRAWN.pull(index), DRAWN.scatter[index], 1e-7)
    return pull.run(), pull


@pytest.mark.parametrize(("slip", "index"), PULLS)
def test_a_pull_in_short_steps_is_scipy_s(slip, index):
    kept, trace = np.zeros(at.KEPT), np.zeros((200_000, at.TRACED))
    rows = run_pull(engine_at(slip), DRAWN.pull(index), DRAWN.scatter[index], kept, trace, SHORT_STEPS)
    outcome, theirs = by_scipy(slip, index)
    assert outcome_of(kept) is outcome
    assert kept[at.FIRES] == theirs.kept[at.FIRES]
    assert kept[at.FIRE_SPEED] == pytest.approx(theirs.kept[at.FIRE_SPEED], rel=1e-3)
    assert kept[at.MOST_SPEED] == pytest.approx(theirs.kept[at.MOST_SPEED], rel=2e-3)
    assert trace[:rows, 2].min() == pytest.approx(theirs.lowest, rel=0.01, abs=BARELY)
    assert kept[at.MOST_FORCE] == pytest.approx(theirs.kept[at.MOST_FORCE], rel=5e-3)


@pytest.mark.parametrize("slip", SLIPS)
def test_pulls_in_the_usual_steps_come_out_as_scipy_s(slip):
    # one pull in five may stand on an edge, its crank all but at rest over the top, and fall to either side
    same = 0
    for index in range(EACH):
        ours, (outcome, theirs) = trace_pull(engine_at(slip), DRAWN, index), by_scipy(slip, index)
        lowest = pytest.approx(theirs.lowest, rel=0.03, abs=BARELY)
        alike = ours.outcome is outcome and ours.kept[at.FIRES] == theirs.kept[at.FIRES]
        same += alike and (slip == -90 or ours.speed.min() == lowest)
    assert same >= EACH - 1
