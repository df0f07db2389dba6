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


@pytest.mark.parametrize(("chance", "goes_on"), [(0.41, True), (0.39, False)])
def test_goes_on_as_long_as_chance_over_minutes_beats_one_over_giving_up(chance, goes_on):
    # SACSO 2.3 (see the references): calling for service has the efficiency 1 / its cost: here 20 / 50 = .40.
    compiled = compiled_of([{"a": 1.0}], [20.0], give_up=50.0)
    told = value(compiled, {"a": chance, "not-listed": 1 - chance})
    assert told == pytest.approx(20.0 + (1 - chance) * 50.0 if goes_on else 50.0)


def expected_cost(order, chances, minutes):
    """Give the cost of an order of sure repairs on independent faults, when the machine is known to be faulty."""
    spared = np.array([np.prod(1 - chances[list(order[place:])]) for place in range(len(order))])
    return sum(minutes[one] * (1 - spared[place]) for place, one in enumerate(order)) / (1 - spared[0])


@pytest.mark.parametrize(
    ("order", "chances", "minutes", "cost"),
    [
        ((2, 1, 0), (0.5, 0.3, 0.1), (10, 4, 1), 12.094891),
        ((0, 1, 2), (0.5, 0.3, 0.1), (10, 4, 1), 12.306569),
        ((0, 1), (0.6, 0.1), (10, 1.2), 10.1875),
        ((1, 0), (0.6, 0.1), (10, 1.2), 10.575),
    ],
)
def test_the_formula_for_independent_faults_gives_the_known_costs(order, chances, minutes, cost):
    # Srinivas 1995, as stated in Vomlelova 2003, p. 269: the cost of an order; values by hand.
    assert expected_cost(order, np.array(chances), minutes) == pytest.approx(cost, abs=1e-6)


def test_several_faults_at_once_cost_the_order_hardly_anything_at_the_rates_of_a_shop():
    # The planner takes one fault to be to blame and orders by p/c; with independent faults p/(c(1-p)) is best. At
    # shares of up to one in four it loses under one in a hundred against all orders; where faults are likelier, more.
    rng = np.random.default_rng(5)
    rare, common = [], []
    for losses, most in ((rare, 0.25), (common, 0.6)):
        for _ in range(60):
            chances, minutes = rng.uniform(0.02, most, 5), rng.uniform(1, 20, 5)
            best = min(expected_cost(order, chances, minutes) for order in permutations(range(5)))
            ours = np.argsort(-chances / minutes)
            losses.append(expected_cost(tuple(ours), chances, minutes) / best - 1)
    assert np.mean(rare) < 0.005
    assert np.max(rare) < 0.03
    assert np.mean(common) > np.mean(rare)


def test_the_planner_orders_independent_faults_by_chance_over_minutes():
    # .6 / 10 is less than .1 / 1.2: the cheap repair first, though for independent faults 10.1875 beats 10.575.
    compiled = compiled_of([{"a": 1.0}, {"b": 1.0}], [10.0, 1.2])
    blame = {"a": 0.6 / 0.7, "b": 0.1 / 0.7}
    assert value(compiled, blame) == pytest.approx(1.2 + blame["a"] * 10.0, abs=1e-9)
