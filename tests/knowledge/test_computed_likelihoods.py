"""Likelihoods that follow from computed pulls."""

import math

import numpy as np
import pytest

from bellcrank.bootstrap import open_library
from bellcrank.engine.slip_belief import chances_of_jerks
from bellcrank.engine.slip_table import STATES, SlipTable, State
from bellcrank.knowledge.computed_likelihoods import CAUSES, COUNTED, FELT, SOURCE, computed_row, wrong_rows

LIBRARY = open_library()
PACK = LIBRARY.packs["walk-behind-mower"]
CHECKS = {check.id: check for check in PACK.checks}


def kicks(share):
    """A table of one engine that jerks in a share of a thousand pulls wherever its flywheel sits."""
    slips = np.radians([-90.0, 0.0, 90.0])
    counts = np.zeros((1, len(STATES), 3, 8), dtype=np.uint16)
    counts[..., 7] = round(1000 * share)
    return SlipTable("toy", slips, counts, 1000, slips, counts[0, 0], 1000, "")


@pytest.mark.parametrize("share", [0.1, 0.3, 0.7])
def test_counts_of_one_engine_are_binomial(share):
    # by hand: the chance of k jerks in ten is C(10, k) p^k (1 - p)^(10 - k), p within the miscounts of the share
    found = chances_of_jerks(kicks(share), State.SOUND, (1.0, 0.0, 0.0), 10)
    p = 0.003 + 0.994 * share
    by_hand = [math.comb(10, k) * p**k * (1 - p) ** (10 - k) for k in range(11)]
    assert found == pytest.approx(by_hand, abs=1e-3)
    assert found.sum() == pytest.approx(1)


def test_the_rows_of_the_pack_are_what_the_tables_say():
    assert list(wrong_rows(LIBRARY, PACK, 0.002)) == []
    computed = {(row.check, row.cause) for check in PACK.checks for row in check.likelihoods}
    for check in (COUNTED, FELT):
        assert {(check, cause) for cause in CAUSES if cause != "-"} <= computed


def test_a_row_that_was_changed_by_hand_is_found_out():
    assert list(wrong_rows(LIBRARY, PACK, 1e-9))  # rounding alone already shows


@pytest.mark.parametrize("check", [COUNTED, FELT])
@pytest.mark.parametrize("cause", [cause for cause in CAUSES if cause != "-"])
def test_every_computed_row_is_together_one(check, cause):
    assert computed_row(LIBRARY, PACK, CHECKS[check], cause).sum() == pytest.approx(1)


def test_a_sound_engine_hardly_ever_jerks_and_a_loose_blade_often_does():
    # Garg, Funke and Janisch, Int. J. Industrial Ergonomics 3 (1989) 207, abstract: healthy mowers jerk in 0 to 5 % of
    # cases; common practice, no source: a loose blade kicks
    rows = {row.cause: row.probabilities for row in CHECKS[COUNTED].likelihoods if row.origin.source == SOURCE}
    assert CHECKS[COUNTED].leak[0] > 0.9
    assert rows["blade-loose"][0] < 0.5
