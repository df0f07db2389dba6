from bellcrank.diagnosis.case import NOT_SURE, Case, Found, Repaired
from bellcrank.diagnosis.findings import Dated, answered, counting

from .small_pack import COMPILED

SPARK, WEAK = Found("spark", "r0"), Found("spark", "r1")
COIL = Repaired("mend-coil", "not-cured")
FUEL = Repaired("mend-stale", "not-cured")


def counted(*events):
    return counting(COMPILED, Case(("wont-start",), events))


def stands(*events):
    return answered(COMPILED, Case(("wont-start",), events))


def test_the_last_answer_counts():
    assert counted(SPARK, WEAK) == (Dated(WEAK, 0, 0),)


def test_both_answers_count_around_a_repair_of_what_the_check_looks_at():
    assert counted(SPARK, COIL, WEAK) == (Dated(SPARK, 0, 0), Dated(WEAK, 1, 1))


def test_a_repair_elsewhere_does_not_make_a_second_answer_new():
    assert counted(SPARK, FUEL, WEAK) == (Dated(WEAK, 1, 1),)


def test_of_two_answers_after_the_repair_the_last_counts():
    assert counted(SPARK, COIL, SPARK, WEAK) == (Dated(SPARK, 0, 0), Dated(WEAK, 1, 1))


def test_the_same_answer_around_a_repair_is_one_finding_that_lasted():
    assert counted(WEAK, COIL, WEAK, COIL, WEAK) == (Dated(WEAK, 2, 0),)


def test_an_answer_stands_until_a_repair_touches_what_it_looked_at():
    assert stands(SPARK, FUEL) == {SPARK}
    assert stands(SPARK, COIL) == frozenset()


def test_the_same_answer_given_again_after_the_repair_stands():
    assert stands(SPARK, COIL, SPARK) == {SPARK}


def test_not_sure_is_an_answer_that_does_not_count():
    unsure = Found("spark", NOT_SURE)
    assert stands(unsure) == {unsure}
    assert counted(unsure) == ()
