from dataclasses import replace

import numpy as np
import pytest

from bellcrank.diagnosis.closed_case import cures_of
from bellcrank.diagnosis.counts import Counts, added
from bellcrank.diagnosis.learnt_pack import COMPUTED, SAFETY, model_shares, with_learnt
from bellcrank.diagnosis.lessons import lesson_of
from bellcrank.diagnosis.network import compile_pack
from bellcrank.diagnosis.told_again import replay
from bellcrank.knowledge.pack import read_library
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.sources import Basis
from bellcrank.stats.updating import sums_of

from .simulated_shop import changed, closed_cases
from .small_pack import COMPILED, PACK

MODELLED = model_shares(COMPILED)


def share_of(pack, complaint, cause):
    return next(one for one in pack.causes if one.id == cause).shares.get(complaint, 0.0)


def row_of(pack, check, cause):
    found = next(one for one in pack.checks if one.id == check)
    return found.leak if cause == LEAK_ROW else next(r for r in found.likelihoods if r.cause == cause).probabilities


def learnt(counts, pack=PACK):
    return with_learnt(pack, counts, model_shares(compile_pack(pack)))


def test_without_counts_nothing_changes():
    assert with_learnt(PACK, Counts(), MODELLED).pack == PACK


def test_jobs_that_come_as_the_pack_says_change_no_share():
    told = {("wont-start", name): 40 * chance for name, chance in MODELLED["wont-start"].items()}
    pack = with_learnt(PACK, Counts(jobs={"wont-start": 40.0}, causes=told), MODELLED).pack
    for cause in PACK.causes:
        assert share_of(pack, "wont-start", cause.id) == pytest.approx(cause.shares.get("wont-start", 0.0), abs=1e-12)


def test_a_share_moves_by_the_formula_of_the_reference():
    # Source: design reference for diagnosis, 3.9: p <- p (ESS f + n) / ((ESS + N) f), with ESS 60
    counts = Counts(jobs={"wont-start": 40.0}, causes={("wont-start", "coil"): 20.0})
    modelled = MODELLED["wont-start"]["coil"]
    expected = 0.15 * (60 * modelled + 20) / (100 * modelled)
    assert share_of(with_learnt(PACK, counts, MODELLED).pack, "wont-start", "coil") == pytest.approx(expected)


def test_a_cause_the_pack_does_not_name_for_a_complaint_gets_a_share():
    # by hand: 5 of 60 + 40
    counts = Counts(jobs={"no-power": 40.0}, causes={("no-power", "coil"): 5.0})
    assert share_of(with_learnt(PACK, counts, MODELLED).pack, "no-power", "coil") == pytest.approx(0.05)


def test_shares_never_come_to_more_than_all():
    counts = Counts(jobs={"wont-start": 5000.0}, causes={("wont-start", "coil"): 5000.0})
    pack = with_learnt(PACK, counts, MODELLED).pack
    assert sum(cause.shares.get("wont-start", 0.0) for cause in pack.causes) <= 0.99 + 1e-9
    compile_pack(pack)


def test_rows_move_by_their_counts():
    # by hand: (16 * (.05, .15, .80) + (4, 0, 0)) / 20 and (48 * (.97, .02, .01) + (0, 6, 0)) / 54
    counts = Counts(results={("spark", "coil", "r0"): 4.0, ("spark", LEAK_ROW, "r1"): 6.0})
    pack = with_learnt(PACK, counts, MODELLED).pack
    assert row_of(pack, "spark", "coil") == pytest.approx((4.8 / 20, 2.4 / 20, 12.8 / 20))
    assert row_of(pack, "spark", LEAK_ROW) == pytest.approx((46.56 / 54, 6.96 / 54, 0.48 / 54))


def test_what_was_learnt_is_called_the_shops_own():
    counts = Counts(
        jobs={"wont-start": 9.0}, causes={("wont-start", "coil"): 9.0}, results={("spark", "coil", "r0"): 4.0}
    )
    pack = with_learnt(PACK, counts, MODELLED).pack
    assert next(one for one in pack.causes if one.id == "coil").origin.basis is Basis.OWN_SHOP
    spark = next(one for one in pack.checks if one.id == "spark")
    assert {row.cause: row.origin.basis for row in spark.likelihoods} == {
        "coil": Basis.OWN_SHOP,
        "plug": Basis.GUESS,
    }


def test_numbers_of_what_can_hurt_somebody_stay_and_what_the_jobs_say_is_told():
    counts = Counts(
        jobs={"vibrates": 30.0}, causes={("vibrates", "blade"): 1.0}, results={("blade-look", "blade", "r0"): 9.0}
    )
    found = with_learnt(PACK, counts, MODELLED)
    assert share_of(found.pack, "vibrates", "blade") == share_of(PACK, "vibrates", "blade")
    assert row_of(found.pack, "blade-look", "blade") == row_of(PACK, "blade-look", "blade")
    told = next(one for one in found.shares if one.cause == "blade")
    assert (told.held, told.seen, told.of) == (SAFETY, 1.0, 30.0)
    assert told.learnt < told.before


def test_rows_that_follow_from_computed_pulls_stay():
    pack = read_library().packs["walk-behind-mower"]
    check = next(one for one in pack.checks if one.id == "count-jerks")
    counts = Counts(results={("count-jerks", cause, check.results[0].id): 50.0 for cause in ("blade-loose", LEAK_ROW)})
    found = learnt(counts, pack)
    assert found.pack.checks == pack.checks
    assert {one.held for one in found.rows} == {COMPUTED}


def test_minutes_are_drawn_towards_the_packs():
    # by hand: six times 8 min and two times 32 min, geometric mean 8 * 4 ** (2 / 8)
    found = with_learnt(PACK, Counts(minutes={"mend-coil": sums_of(32, 32)}), MODELLED)
    repair = next(one for one in found.pack.repairs if one.id == "mend-coil")
    assert repair.minutes[1] == pytest.approx(8 * 4**0.25)
    assert repair.minutes[0] < repair.minutes[1] < repair.minutes[2]


def test_counts_of_what_the_pack_does_not_know_change_nothing():
    counts = Counts(
        jobs={"sings": 3.0},
        causes={("sings", "mouse"): 3.0},
        results={("spark", "mouse", "r0"): 3.0, ("sniff", LEAK_ROW, "r0"): 2.0},
        minutes={"mend-mouse": sums_of(3)},
    )
    assert with_learnt(PACK, counts, MODELLED).pack == PACK


def lessons(closed):
    return added((lesson_of(COMPILED, one, cures_of(COMPILED, one)), 1.0) for one in closed)


def test_a_shop_that_learns_from_its_closed_jobs_tells_fresh_ones_better():
    # Jobs drawn from a pack whose numbers are off; the same fresh jobs told with and without what was learnt.
    gains = []
    for seed in range(4):
        rng = np.random.default_rng(seed)
        world = changed(PACK, rng)
        learnt_now = compile_pack(with_learnt(PACK, lessons(closed_cases(world, 250, rng)), MODELLED).pack)
        fresh = closed_cases(world, 150, rng)
        told = [[replay(pack, one, cures_of(pack, one)).surprise for one in fresh] for pack in (COMPILED, learnt_now)]
        gains.append(np.array(told[0]) - np.array(told[1]))
    every = np.concatenate(gains)
    assert every.mean() > 3 * every.std() / np.sqrt(len(every))
    assert all(one.mean() > 0 for one in gains)


def test_a_shop_whose_machines_break_as_the_pack_says_loses_next_to_nothing():
    rng = np.random.default_rng(9)
    learnt_now = compile_pack(with_learnt(PACK, lessons(closed_cases(PACK, 250, rng)), MODELLED).pack)
    fresh = closed_cases(PACK, 300, rng)
    told = [
        np.mean([replay(pack, one, cures_of(pack, one)).surprise for one in fresh]) for pack in (COMPILED, learnt_now)
    ]
    assert told[1] - told[0] < 0.05


def test_the_learnt_pack_can_be_weighed_in_every_complaint():
    pack = read_library().packs["walk-behind-mower"]
    rng = np.random.default_rng(3)
    compiled = compile_pack(pack)
    counted = added((lesson_of(compiled, one, cures_of(compiled, one)), 1.0) for one in closed_cases(pack, 60, rng))
    found = learnt(counted, pack)
    assert replace(found.pack, causes=(), checks=(), repairs=()) == replace(pack, causes=(), checks=(), repairs=())
    assert all(sum(shares.values()) == pytest.approx(1) for shares in model_shares(compile_pack(found.pack)).values())
