import pytest

from bellcrank.diagnosis.aftermath import look_also
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found, Repaired

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
