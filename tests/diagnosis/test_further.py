import numpy as np
import pytest

from bellcrank.diagnosis.allowed import checks_left
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.further import look_further
from bellcrank.diagnosis.network import compile_pack
from bellcrank.diagnosis.next_step import rank

from .small_pack import COMPILED, cause, check, pack_of, repair


def yes():
    return True


def further(*events, complaint="wont-start", compiled=COMPILED, keep_going=yes):
    return look_further(compiled, believe(compiled, Case((complaint,), events)), keep_going)


def step(steps, name):
    return next(one for one in steps if one.id == name)


# Two switches, each on or off; only both together tell which of four repairs it is. One look alone tells nothing worth
# its minutes, two tell all: what a look one step ahead cannot see.
PAIRED = compile_pack(
    pack_of(
        causes=tuple(cause(name, name, {"wont-start": 0.2475}) for name in ("aa", "ab", "ba", "bb")),
        checks=(
            check("left", ("left a", "left b"), (1.0, 0.0), {"ba": (0.0, 1.0), "bb": (0.0, 1.0)}, minutes=9.0),
            check("right", ("right a", "right b"), (1.0, 0.0), {"ab": (0.0, 1.0), "bb": (0.0, 1.0)}, minutes=9.0),
        ),
        repairs=tuple(repair(f"mend-{name}", {name: 1.0}, 30.0) for name in ("aa", "ab", "ba", "bb")),
        fault_scale=1e-6,
        give_up_minutes=500.0,
        start_check_minutes=0.0,
    )
)


def test_two_looks_together_are_worth_what_they_save_by_hand():
    # By hand, four equal causes: repairs alone 30 * 2.5 = 75; one look 9 + 30 * 1.5 = 54; both 18 + 30 = 48. What is
    # not on the list, one in a hundred, adds all four repairs and giving up in each of the plans.
    by_one = step(rank(PAIRED, believe(PAIRED, Case(("wont-start",)))), "left")
    by_two = step(further(compiled=PAIRED).steps, "left")
    assert by_one.expected_minutes == pytest.approx(54.0, rel=0.15)
    assert by_one.expected_minutes - by_two.expected_minutes == pytest.approx(54.0 - 48.0, abs=0.5)


def test_a_look_further_never_makes_a_step_longer():
    for events in ((), (Found("spark", "r1"),), (Found("smell", "r1"), Repaired("mend-stale", "not-cured"))):
        deeper = {one.id: one.expected_minutes for one in further(*events).steps}
        for one in rank(COMPILED, believe(COMPILED, Case(("wont-start",), events))):
            assert deeper[one.id] <= one.expected_minutes + 1e-9


def test_two_steps_are_the_best_of_what_may_follow_in_every_branch():
    # Second route: record each result, rank again, and take the shortest of the checks listed there.
    spark = step(further().steps, "spark")
    expected = 2.0
    for result, chance in spark.outcomes:
        there = believe(COMPILED, Case(("wont-start",), (Found("spark", result),)))
        steps = rank(COMPILED, there)
        shortest = min(one.expected_minutes for one in steps if one.kind == "check")
        by_repairs = step(steps, "colour").expected_minutes - 0.5  # a look at the colour tells nothing
        expected += chance * min(shortest, by_repairs)
    assert spark.expected_minutes == pytest.approx(expected, rel=1e-9)


def test_says_from_what_to_what_the_advice_changes_and_what_that_is_worth():
    changed = [one for one in (further(*events) for events in SOME) if one.changed]
    assert changed
    for one in changed:
        before, after = step(one.steps, one.before.id), one.steps[0]
        assert one.after == after
        assert one.worth_minutes == pytest.approx(before.expected_minutes - after.expected_minutes)
        assert one.worth_minutes >= 0.5


SOME = [
    tuple(
        Found(check.id, check.results[int(rng.integers(len(check.results)))].id)
        for check in (checks_left(COMPILED, Case(("wont-start",)))[place] for place in rng.permutation(6)[:3])
    )
    for rng in map(np.random.default_rng, range(12))
]


@pytest.mark.parametrize("events", SOME)
def test_without_a_change_the_first_step_stays(events):
    looked = further(*events)
    assert looked.changed or (looked.after.id == looked.before.id and looked.worth_minutes == 0.0)


def test_stops_when_told_to_and_says_how_far_it_got():
    answers = iter([True, True, False])
    part = further(keep_going=lambda: next(answers))
    assert (part.looked_at, part.to_look_at) == (3, further().to_look_at)
    assert part.to_look_at > 3
    one = further(keep_going=lambda: False)
    assert one.looked_at == 1  # what stands first is always looked at
    assert {step.id for step in one.steps} == {step.id for step in further().steps}


def test_there_is_nothing_to_look_at_on_a_cured_machine():
    cured = further(Repaired("mend-plug", "cured"))
    assert (cured.steps, cured.changed, cured.to_look_at) == ((), False, 0)
