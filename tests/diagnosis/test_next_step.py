import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.by_repairs import by_repairs
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.counted import counted
from bellcrank.diagnosis.next_step import rank

from .small_pack import CHECKS, COMPILED, PACK

founds = st.sampled_from(CHECKS).flatmap(
    lambda one: st.sampled_from(one.results).map(lambda result: Found(one.id, result.id))
)


def ranked(*events, complaint="wont-start"):
    return rank(COMPILED, believe(COMPILED, Case((complaint,), events)))


def step(steps, name):
    return next(one for one in steps if one.id == name)


@settings(max_examples=25, deadline=None)
@given(st.lists(founds, max_size=4, unique_by=lambda one: one.check))
def test_the_chances_of_a_check_are_those_of_finding_each_result(events):
    # Second route: the share of evidence that is left when the result is recorded as found.
    case = Case(("no-power",), tuple(events))
    belief = believe(COMPILED, case)
    check = next(one for one in rank(COMPILED, belief) if one.kind == "check")
    for result, chance in check.outcomes:
        found = believe(COMPILED, Case(case.complaints, (*events, Found(check.id, result))))
        assert chance == pytest.approx(found.without.evidence[0] / belief.without.evidence[0], rel=1e-9)
    assert sum(chance for _, chance in check.outcomes) == pytest.approx(1.0, abs=1e-12)


def test_the_value_of_a_check_is_that_of_its_branches():
    # Second route: record each result as found and go on by repairs from there.
    spark = step(ranked(), "spark")
    shut = np.zeros((1, len(COMPILED.access_order)), bool)
    branches = 0.0
    for result, chance in spark.outcomes:
        blame = np.array(list(believe(COMPILED, Case(("wont-start",), (Found("spark", result),))).blocking.values()))
        branches += chance * float(by_repairs(counted(COMPILED), blame[None] / blame.sum(), shut).minutes[0])
    assert spark.expected_minutes == pytest.approx(2.0 + branches, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(st.lists(founds, max_size=4, unique_by=lambda one: one.check))
def test_one_step_is_never_worse_than_stopping(events):
    steps = ranked(*events)
    assert min(one.expected_minutes for one in steps) <= PACK.give_up_minutes


def test_a_check_that_tells_nothing_saves_nothing():
    colour = step(ranked(), "colour")
    assert colour.saves_per_minute == 0.0
    assert "saves hardly a minute" in colour.why


def test_looks_at_the_spark_before_it_takes_the_flywheel_off():
    names = [one.id for one in ranked()]
    assert names.index("spark") < names.index("key-look")
    assert names.index("spark") < names.index("mend-coil")


def test_repairs_at_once_what_is_sure():
    steps = ranked(Found("hit", "r1"), Found("timing", "r1"), Found("key-look", "r1"))
    assert (steps[0].kind, steps[0].id) == ("repair", "mend-key")
    assert steps[0].access_minutes == 0.0  # the flywheel is off from looking at the key
    assert steps[0].chance_of_cure > 0.9


def test_a_filter_common_in_all_machines_gets_the_blame_of_its_share():
    # Oracle: the pack: 40 of 100 machines without power have the filter to blame, and it is mended in .95.
    steps = ranked(complaint="no-power")
    assert step(steps, "mend-filter").chance_of_cure == pytest.approx(0.40 * 0.95, rel=0.1)


def test_names_the_covers_to_be_opened_first():
    key = step(ranked(), "key-look")
    assert (key.open_first, key.access_minutes) == (("shroud-off", "flywheel-off"), 20.0)


def test_says_which_causes_a_check_tells_apart():
    assert step(ranked(), "spark").why.startswith("Tells “ignition coil dead” from “")


def test_stops_when_neither_check_nor_repair_is_worth_its_minutes():
    failed = [Repaired(one.id, "not-cured") for one in PACK.repairs if one.id != "mend-crank"]
    steps = ranked(*(Found(one.id, "r0") for one in CHECKS), *failed, *(Found(one.id, "r0") for one in CHECKS))
    assert steps[0].kind == "stop"
    assert steps[0].expected_minutes == min(one.expected_minutes for one in steps)


def test_stopping_is_always_on_the_list():
    stop = step(ranked(), "stop")
    assert (stop.kind, stop.expected_minutes) == ("stop", PACK.give_up_minutes)


def test_nothing_is_next_on_a_cured_machine_or_without_a_complaint():
    assert ranked(Repaired("mend-plug", "cured")) == ()
    assert rank(COMPILED, believe(COMPILED, Case(()))) == ()


def test_the_same_case_gives_the_same_list():
    events = (Found("spark", "r1"), Repaired("mend-plug", "not-cured"), Found("plug-look", "r2"))
    assert ranked(*events) == ranked(*events)
    assert np.isfinite([one.expected_minutes for one in ranked(*events)]).all()
