from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.diagnosis.by_repairs import by_repairs
from bellcrank.diagnosis.counted import counted
from bellcrank.diagnosis.network import compile_pack
from bellcrank.knowledge.model import Access

from .small_pack import cause, pack_of, repair

FAR_OFF = 1000.0  # [min] giving up never pays in these examples
ROUNDING = 0.11  # [min] what is left when a plan counts as done, 1e-4, is charged as giving up


def compiled_of(fixes, minutes, *, access=None, accesses=(), give_up=FAR_OFF, start=0.0):
    names = sorted({name for one in fixes for name in one})
    repairs = tuple(
        repair(f"r{n}", one, cost, (access or {}).get(n, ()))
        for n, (one, cost) in enumerate(zip(fixes, minutes, strict=True), start=1)
    )
    causes = tuple(cause(name, name, {"wont-start": 0.1}) for name in names)
    return compile_pack(
        pack_of(
            causes=causes,
            repairs=repairs,
            accesses=accesses,
            give_up_minutes=give_up,
            start_check_minutes=start,
        )
    )


def value(compiled, chances):
    culprits = np.array([chances.get(name, 0.0) for name in compiled.network.names])
    shut = np.zeros((1, len(compiled.access_order)), bool)
    return float(by_repairs(counted(compiled), culprits[None], shut).minutes[0])


OVERLAPPING = [("1", "2"), ("2", "3"), ("3", "4"), ("4", "5")]
CHANCES = {"1": 0.10, "2": 0.30, "3": 0.25, "4": 0.20, "5": 0.15}


def test_overlapping_repairs_are_taken_greedily_with_recalculation():
    # By hand: repairs 3, 1, 4: 3 + .55 * 5 + .15 * 4 = 6.35 (the best order, 2, 4, 1, takes 6.30).
    compiled = compiled_of([dict.fromkeys(pair, 1.0) for pair in OVERLAPPING], [5, 4, 3, 4])
    assert value(compiled, CHANCES) == pytest.approx(6.35, abs=1e-9)


def test_repairs_that_fail_one_time_in_ten():
    # By hand: repairs 3, 2, 4, 1, giving up at 30 min: 3 + .595 * 4 + .3025 * 4 + .1495 * 5 + .0325 * 30 = 8.3125.
    compiled = compiled_of([dict.fromkeys(pair, 0.9) for pair in OVERLAPPING], [5, 4, 3, 4], give_up=30.0)
    assert value(compiled, CHANCES) == pytest.approx(8.3125, abs=1e-9)


@pytest.mark.parametrize(("stays_open", "expected"), [(True, 20.0), (False, 27.0)])
def test_work_under_one_cover_is_shared_while_it_may_stay_open(stays_open, expected):
    # By hand: plug, key, gap, coil: 5 + .7 * 16 + .45 * 4 + .25 * 8 = 20; closed for every start, plug, key 16, gap 14,
    # coil 18 each pay the cover: plug 5, then key .7 * 16, gap .45 * 14, coil .25 * 18.
    shroud = Access("shroud", "shroud off", (), None, 10.0, 0.0, shut_to_run=not stays_open)
    compiled = compiled_of(
        [{"plug": 1.0}, {"gap": 1.0}, {"coil": 1.0}, {"key": 1.0}],
        [5, 4, 8, 6],
        access={2: ("shroud",), 3: ("shroud",), 4: ("shroud",)},
        accesses=(shroud,),
    )
    assert value(compiled, {"plug": 0.30, "gap": 0.20, "coil": 0.25, "key": 0.25}) == pytest.approx(expected, abs=1e-9)


shares = st.lists(st.integers(1, 20), min_size=4, max_size=4)


@settings(max_examples=60, deadline=None)
@given(shares, shares)
def test_sure_repairs_of_single_causes_are_in_the_best_order(weights, minutes):
    # Second route: all 24 orders (Kadane and Simon: chance over cost is best for a single fault).
    chances = np.array(weights) / sum(weights)
    compiled = compiled_of([{name: 1.0} for name in "abcd"], minutes)
    best = min(
        sum(minutes[r] * (1 - chances[list(order[:place])].sum()) for place, r in enumerate(order))
        for order in permutations(range(4))
    )
    assert value(compiled, dict(zip("abcd", chances, strict=True))) == pytest.approx(best, abs=ROUNDING)


def test_gives_up_when_no_repair_is_worth_its_minutes():
    compiled = compiled_of([{"a": 1.0}], [100.0], give_up=50.0)
    assert value(compiled, {"a": 0.4, "not-listed": 0.6}) == 50.0


@settings(max_examples=60, deadline=None)
@given(shares, shares, st.lists(st.floats(0.0, 1.0), min_size=4, max_size=4))
def test_knowing_more_never_costs_minutes(weights, minutes, seen):
    # For a single fault and sure repairs the order is the best there is, so a free look cannot make it longer.
    chances = np.array(weights) / sum(weights)
    compiled = compiled_of([{name: 1.0} for name in "abcd"], minutes)
    total = 0.0
    for likelihood in (np.array(seen), 1 - np.array(seen)):
        weight = chances @ likelihood
        if weight > 0:
            total += weight * value(compiled, dict(zip("abcd", chances * likelihood / weight, strict=True)))
    assert total <= value(compiled, dict(zip("abcd", chances, strict=True))) + ROUNDING
