"""Combinations of causes, against laws and a listing of every world."""

import pytest

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.diagnosis.combinations import likely_combinations
from tests.stats.brute_force import brute_force_joint

from .small_pack import COMPILED

STRUCK = (Found("hit", "r1"), Found("key-look", "r1"))


def test_a_strike_brings_key_and_blade_together():
    belief = believe(COMPILED, Case(("wont-start",), STRUCK))
    first = likely_combinations(COMPILED, belief)[0]
    assert set(first.causes) == {"key", "blade"}


@pytest.mark.parametrize("events", [(), STRUCK, (*STRUCK, Repaired("mend-key", "not-cured"))])
def test_combinations_are_what_listing_every_world_gives(events):
    belief = believe(COMPILED, Case(("wont-start",), events))
    causes = ("key", "blade", "plug")
    whole = brute_force_joint(COMPILED.network, belief.evidence, frozenset(), frozenset())
    for one in likely_combinations(COMPILED, belief, causes):
        here, others = frozenset(one.causes), frozenset(causes) - frozenset(one.causes)
        expected = brute_force_joint(COMPILED.network, belief.evidence, here, others) / whole
        assert one.probability == pytest.approx(expected, rel=1e-9)


def test_combinations_of_one_cause_say_what_the_belief_says():
    belief = believe(COMPILED, Case(("wont-start",), STRUCK))
    chances = {one.causes: one.probability for one in likely_combinations(COMPILED, belief, ("key",))}
    assert chances[("key",)] == pytest.approx(belief.now["key"], abs=1e-12)


def test_what_happened_to_a_machine_is_no_cause_to_be_found_in_it():
    belief = believe(COMPILED, Case(("wont-start",), STRUCK))
    assert all("strike" not in one.causes for one in likely_combinations(COMPILED, belief))


def test_without_likely_causes_there_is_no_combination():
    belief = believe(COMPILED, Case((), ()))
    assert likely_combinations(COMPILED, belief, ()) == ()
