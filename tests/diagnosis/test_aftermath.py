import pytest

from bellcrank.diagnosis.aftermath import chance_of_cure, look_also
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired
from bellcrank.errors import NotFound
from bellcrank.stats.evidence import Evidence, Standing
from tests.stats.brute_force import brute_force

from .small_pack import COMPILED

STRUCK = (Found("hit", "r1"), Found("key-look", "r1"))


def companions(*events, complaint="wont-start"):
    belief = believe(COMPILED, Case((complaint,), events))
    return {one.cause: one.probability for one in look_also(COMPILED, belief)}


def test_a_sheared_key_put_right_still_asks_for_the_blade_and_the_crank():
    # By hand: with the strike, the blade is bent by it in .7 or on its own, .01 - .004 * .7; without, on its own.
    case = Case(("wont-start",), (*STRUCK, Repaired("mend-key", "cured")))
    strike = believe(COMPILED, case).on_arrival["strike"]
    own = 0.0072
    found = companions(*case.events)
    assert list(found) == ["blade", "crank"]
    assert strike > 0.9
    assert found["blade"] == pytest.approx(strike * (1 - 0.3 * (1 - own)) + (1 - strike) * own, rel=1e-9)


def test_a_cured_plug_asks_for_nothing_else():
    assert companions(Repaired("mend-plug", "cured")) == {}


def test_a_blade_found_straight_is_asked_for_less():
    seen = (*STRUCK, Found("blade-look", "r0"))
    before, after = companions(*STRUCK, Repaired("mend-key", "cured")), companions(*seen, Repaired("mend-key", "cured"))
    # By hand, Bayes: a bent blade looks straight in .05 * .98, a straight one in .98, so its odds fall twentyfold.
    odds = before["blade"] / (1 - before["blade"]) * 0.05
    assert after["blade"] == pytest.approx(odds / (1 + odds), rel=1e-6)


@pytest.mark.parametrize("repair", ["mend-key", "mend-plug", "mend-jet"])
def test_the_chance_of_a_cure_is_that_of_all_worlds_in_which_it_starts(repair):
    # Oracle: tests/stats/brute_force.py, the share of worlds in which the complaint stood and ends with the repair.
    belief = believe(COMPILED, Case(("wont-start",), STRUCK))
    base = belief.evidence
    after = Evidence(base.sightings, (Standing("complaint:wont-start", 0, 1),), (*base.mends, COMPILED.mend(repair)))
    expected = brute_force(COMPILED.network, after)[0] / brute_force(COMPILED.network, base)[0]
    assert chance_of_cure(COMPILED, belief, repair) == pytest.approx(expected, abs=1e-12)


def test_trying_what_was_mended_mends_nothing_more():
    fresh = believe(COMPILED, Case(("wont-start",)))
    done = believe(COMPILED, Case(("wont-start",), (Repaired("mend-plug", "not-tried"),)))
    chances = [chance_of_cure(COMPILED, one, "mend-plug") for one in (fresh, done)]
    assert chances[1] == pytest.approx(chances[0], rel=1e-9)


def test_a_cured_machine_is_cured():
    belief = believe(COMPILED, Case(("wont-start",), (Repaired("mend-plug", "cured"),)))
    assert chance_of_cure(COMPILED, belief, "mend-key") == 1.0


def test_refuses_a_repair_it_does_not_know():
    with pytest.raises(NotFound, match="no repair “pray”"):
        chance_of_cure(COMPILED, believe(COMPILED, Case(("wont-start",))), "pray")
