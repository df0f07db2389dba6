import pytest

from bellcrank.diagnosis.allowed import access_minutes, checks_left, may_run, open_now, to_open
from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired

from .small_pack import COMPILED

BENT, STRAIGHT = Found("blade-look", "r1"), Found("blade-look", "r0")


def case(*events, complaint="no-power"):
    return Case((complaint,), events)


def left(one):
    return [check.id for check in checks_left(COMPILED, one)]


def opened(one):
    return [name for name, flag in zip(COMPILED.access_order, open_now(COMPILED, one), strict=True) if flag]


def test_an_engine_that_does_not_run_is_not_asked_to():
    assert "run-up" in left(case())
    assert "run-up" not in left(case(complaint="wont-start"))
    assert not may_run(COMPILED, Case(("no-power", "wont-start")))


def test_no_run_is_asked_for_with_a_bent_blade():
    assert "run-up" not in left(case(BENT))


@pytest.mark.parametrize("later", [STRAIGHT, Repaired("mend-blade", "not-cured")])
def test_a_run_is_asked_for_again_when_the_blade_is_put_right_or_was_misread(later):
    assert "run-up" in left(case(BENT, later))


@pytest.mark.parametrize("later", [Repaired("mend-coil", "not-cured"), Found("blade-look", NOT_SURE)])
def test_another_repair_and_not_sure_lift_nothing(later):
    assert not may_run(COMPILED, case(BENT, later))


def test_what_forbids_a_start_is_asked_again_after_not_sure():
    assert "blade-look" in left(case(BENT, Found("blade-look", NOT_SURE)))


def test_a_run_stays_forbidden_when_the_blade_is_found_bent_again():
    assert not may_run(COMPILED, case(BENT, Repaired("mend-blade", "not-cured"), BENT))


def test_an_answered_check_is_not_offered_again():
    assert "spark" not in left(case(Found("spark", "r0")))
    assert "spark" not in left(case(Found("spark", NOT_SURE)))
    assert "spark" in left(case(Found("spark", "r0"), Repaired("mend-coil", "not-cured")))
    assert "spark" not in left(case(Found("spark", "r0"), Repaired("mend-coil", "not-cured"), Found("spark", "r0")))


def test_a_check_leaves_open_what_it_opened():
    assert opened(case(Found("key-look", "r0"))) == ["shroud-off", "flywheel-off"]


def test_a_start_has_closed_what_must_be_shut_to_run():
    done = (Found("key-look", "r0"), Found("blade-look", "r0"))
    assert opened(case(*done, Repaired("mend-key", "not-cured"))) == ["deck-up"]
    assert opened(case(*done, Found("run-up", "r0"))) == ["deck-up"]
    assert opened(case(*done, Repaired("mend-key", "not-tried"))) == ["shroud-off", "flywheel-off", "deck-up"]


def test_covers_still_shut_are_counted_with_what_comes_before_them():
    shut = open_now(COMPILED, case())
    assert to_open(COMPILED, ("flywheel-off",), shut) == ("shroud-off", "flywheel-off")
    assert access_minutes(COMPILED, ("flywheel-off",), shut) == 20.0
    shroud = COMPILED.access_set(("shroud-off",))
    assert to_open(COMPILED, ("flywheel-off",), shroud) == ("flywheel-off",)
    assert access_minutes(COMPILED, ("flywheel-off",), shroud) == 10.0
