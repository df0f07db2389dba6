"""Worlds in which the pack is wrong are wrong as they say, and sound otherwise."""

import numpy as np
import pytest
from bench.worlds import ON_CAUSES, WORLDS, with_other_numbers, without_causes, world_and_known

from bellcrank.diagnosis.network import NOT_LISTED
from tests.diagnosis.small_pack import COMPILED, PACK

STRUCK = {"coil", "stale"}


def log_odds(chances):
    return np.log(chances / (1 - chances))


def test_the_log_odds_of_causes_are_moved_as_far_as_it_says():
    before = log_odds(COMPILED.network.own)
    moves = [
        log_odds(with_other_numbers(COMPILED.network, np.random.default_rng(seed)).own) - before for seed in range(200)
    ]
    assert np.std(moves) == pytest.approx(ON_CAUSES, rel=0.06)  # 2000 normal numbers: standard error 1.6 %
    assert np.mean(moves) == pytest.approx(0.0, abs=0.07)


def test_moved_rows_are_still_chances_and_causes_a_check_says_nothing_of_stay_silent():
    moved = with_other_numbers(COMPILED.network, np.random.default_rng(3))
    for name, table in COMPILED.network.findings.items():
        other = moved.findings[name]
        assert (np.diff(other.rows, axis=0) >= 0).all()
        assert other.rows[-1] == pytest.approx(1.0)
        silent = [cause for cause in range(table.rows.shape[1]) if cause not in table.touched]
        assert (other.rows[:, silent] == 1).all()


def test_complaints_stay_as_they_are():
    moved = with_other_numbers(COMPILED.network, np.random.default_rng(3))
    for name, table in COMPILED.network.findings.items():
        if name.startswith("complaint:"):
            assert moved.findings[name] is table


def test_nothing_mentions_a_cause_that_was_struck_off():
    left = without_causes(PACK, STRUCK)
    assert not STRUCK & {one.id for one in left.causes}
    assert not STRUCK & {name for one in left.links for name in (one.root, one.consequence)}
    assert not STRUCK & {row.cause for one in left.checks for row in one.likelihoods}
    assert not STRUCK & {cause for one in left.repairs for cause in one.fixes}
    assert {one.id for one in left.checks} == {one.id for one in PACK.checks}


def test_what_was_struck_off_is_somewhere_else_than_on_the_list():
    truth, known = world_and_known(PACK, "unknown causes", (3,))
    assert set(known.network.names) < set(truth.network.names)
    other = known.network.position[NOT_LISTED]
    assert known.network.own[other] > truth.network.own[truth.network.position[NOT_LISTED]]


@pytest.mark.parametrize("world", WORLDS)
def test_the_same_seed_makes_the_same_world(world):
    first, again = world_and_known(PACK, world, (4,))[0], world_and_known(PACK, world, (4,))[0]
    assert (first.network.own == again.network.own).all()
