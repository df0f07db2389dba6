"""From what was felt back to where the flywheel sits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.bootstrap import open_library
from bellcrank.engine.slip_belief import Explanation, Felt, KeyState, Known, belief_before, believe
from bellcrank.engine.slip_table import STATES, SlipTable, State
from bellcrank.errors import OutOfRange

TABLE = open_library().slip_tables["overhead-valve-160"]
UNKNOWN = Known()
counts = st.integers(1, 40).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))


def chance(belief, explanation):
    return dict(belief.explained)[explanation]


def toy(kick_where_early):
    """Two engines that kick in so many of ten pulls when early, else never; nothing else happens."""
    slips = np.radians([-180.0, -60.0, 0.0, 60.0, 180.0])
    table = np.zeros((2, len(STATES), 5, 8), dtype=np.uint16)
    table[:, :4, 1, 3] = table[:, :4, 1, 7] = kick_where_early
    table[..., 1] = 10 - table[..., 3]
    return SlipTable("toy", slips, table, 10, slips, table[0, 0], 10, "")


def test_agrees_with_bayes_rule_by_hand():
    # by hand: with chances (10k + pooled)/11 shared as the table says, miscounts 0.003, and the binomial of 1 in 2
    felt, table = Felt(pulls=2, jerks=1), toy([[5], [5]])
    kick = 0.003 + 0.994 * (5 + (20 * 0.5 + 0.5) / 21) / 11
    none = 0.003 + 0.994 * (0 + 0.5 / 21) / 11
    likely = np.array([2 * p * (1 - p) for p in (none, kick, none, none, none)])
    before = belief_before(table.slips, UNKNOWN).sum(axis=0)
    by_hand = before * likely / (before * likely).sum()
    assert believe(table, felt, UNKNOWN).chances == pytest.approx(by_hand, rel=1e-9)


@given(counts, st.sampled_from(KeyState), st.sampled_from([None, True, False]), st.booleans())
def test_belief_is_always_together_one_and_told_whole(counted, key, tight, points):
    jerks, of = counted
    belief = believe(TABLE, Felt(of, jerks), Known(key=key, blade_tight=tight, points=points))
    assert belief.chances.sum() == pytest.approx(1)
    assert sum(one for _, one in belief.explained) == pytest.approx(1)
    assert (belief.chances >= 0).all()


def test_nothing_felt_leaves_what_was_believed_before():
    before = belief_before(TABLE.slips, UNKNOWN).sum(axis=0)
    assert believe(TABLE, None, UNKNOWN).chances == pytest.approx(before)


def test_jerks_never_speak_for_a_late_spark():
    # common practice, no source: a late spark does not kick
    told = Known(key=KeyState.SHEARED, blade_tight=True, release_works=True)
    belief = believe(TABLE, Felt(10, jerks=3), told)
    assert chance(belief, Explanation.LATE) < chance(belief, Explanation.EARLY) / 10


def test_a_whole_key_and_jerks_speak_for_blade_and_release():
    # common practice, no source: a loose blade and a dead release jerk the cord with a good key
    belief = believe(TABLE, Felt(10, jerks=4), Known(key=KeyState.WHOLE))
    good_key = sum(chance(belief, one) for one in (Explanation.BLADE_LOOSE, Explanation.RELEASE_DEAD, Explanation.BOTH))
    assert good_key > 0.6


def test_pops_without_jerks_and_starts_speak_for_a_far_slip():
    # valve and spark geometry: the spark falls while the intake valve is open
    belief = believe(TABLE, Felt(6, jerks=0, starts=0, pops=True), Known(blade_tight=True))
    far = np.abs(np.degrees(belief.slips)) > 60
    assert belief.chances[far].sum() > 0.9


def test_starting_every_time_leaves_the_flywheel_near_its_place():
    belief = believe(TABLE, Felt(3, jerks=0, starts=3), UNKNOWN)
    assert belief.chances[np.abs(np.degrees(belief.slips)) <= 50].sum() > 0.99


def test_no_jerk_is_weak_evidence():
    # a leaky cylinder or a release that stays open hides a slip: it must not be ruled out
    told = Known(key=KeyState.SHEARED)
    belief = believe(TABLE, Felt(5, jerks=0), told)
    assert chance(belief, Explanation.EARLY) > 0.1


def test_breaker_points_that_fire_at_all_hold_the_flywheel_near_its_place():
    # common practice, no source: five degrees are enough to lose the spark of breaker points
    belief = believe(TABLE, Felt(3, jerks=0, starts=2), Known(key=KeyState.SHEARED, points=True))
    assert belief.in_place > 0.9


@pytest.mark.parametrize("wrong", [{"pulls": 0}, {"pulls": 3, "jerks": 4}, {"pulls": 3, "jerks": 2, "starts": 2}])
def test_counts_that_cannot_be_are_refused(wrong):
    with pytest.raises(OutOfRange, match=r"pulls"):
        Felt(**wrong)


@given(st.sampled_from(State), st.sampled_from(range(8)))
def test_chances_are_chances(state, counted):
    chances = TABLE.chances(state)[..., counted]
    assert ((chances > 0) & (chances < 1)).all()
    low, middle, high = TABLE.band(counted, state)
    assert (low <= middle).all()
    assert (middle <= high).all()


def test_half_a_turn_is_one_place_and_told_once():
    # half a turn early and half a turn late are the same place
    belief = believe(TABLE, Felt(10, jerks=4, starts=0), UNKNOWN)
    ends = [end for low, high in belief.ranges for end in {low, high}]
    assert sum(abs(end) > np.radians(175) for end in ends) <= 1
