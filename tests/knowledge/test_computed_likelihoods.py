"""Likelihoods that follow from computed pulls."""

import math

import numpy as np
import pytest

from bellcrank.bootstrap import open_library
from bellcrank.engine.slip_belief import chances_of_jerks, over_slips
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


@pytest.mark.parametrize("share", [0.02, 0.3])
def test_who_has_noticed_a_jerk_weighs_engines_by_how_often_they_show_one(share):
    # by hand, three slips of which two never jerk: after a jerk in ten pulls was noticed, most weight is on the third
    slips, shares = np.radians([-90.0, 0.0, 90.0]), (0.0, 0.0, 1.0)
    counts = np.zeros((1, len(STATES), 3, 8), dtype=np.uint16)
    counts[0, :, 0, 7] = round(1000 * share)
    table = SlipTable("toy", slips, counts, 1000, slips, counts[0, 0], 1000, "")
    jerks, prior = np.array([share, 0.0, 0.0]) * 0.994 + 0.003, over_slips(slips, shares)
    weights = prior * (1 - (1 - jerks) ** 10)
    by_hand = (weights * (1 - jerks) ** 10).sum() / weights.sum()
    here = chances_of_jerks(table, State.SOUND, shares, 10, noticed=10)[0]
    usual = chances_of_jerks(table, State.SOUND, shares, 10)[0]
    assert here < usual
    assert here == pytest.approx(by_hand, rel=0.01)  # what never happened is shared half a pull


def test_rows_given_a_complaint_name_usual_rows_and_the_tables():
    assert {one.complaint for one in PACK.given} == {"kicks-back"}
    assert {(one.row.check, one.row.cause) for one in PACK.given} == {(COUNTED, cause) for cause in CAUSES}
    assert all(sum(one.row.probabilities) == pytest.approx(1) for one in PACK.given)
