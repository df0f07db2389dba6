import math

import pytest

from bellcrank.diagnosis.because import how_sure, reasons_for_all, times_said
from bellcrank.diagnosis.belief import believe, gather
from bellcrank.diagnosis.case import Case, Found, Repaired
from tests.stats.brute_force import brute_force

from .small_pack import CHECKS, COMPILED

HIT, EARLY, FIRES, OFF = Found("hit", "r1"), Found("timing", "r1"), Found("spark", "r0"), Found("key-look", "r1")
FAILED = Repaired("mend-plug", "not-cured")
EVENTS = (HIT, EARLY, FIRES, Found("colour", "r1"))


def reasons(cause, *events):
    return reasons_for_all(COMPILED, believe(COMPILED, Case(("wont-start",), events)), [cause])[cause]


def all_of(told):
    return {one.says: one for one in (*told.speaks_for, *told.speaks_against)}


def decibans(cause, *events):
    """Ten times the logarithm of the odds, from every world listed (tests/stats/brute_force.py)."""
    _, now, _, _ = brute_force(COMPILED.network, gather(COMPILED, Case(("wont-start",), events))[1])
    chance = now[COMPILED.network.position[cause]]
    return 10 * math.log10(chance / (1 - chance))


@pytest.mark.parametrize("cause", ["key", "coil", "blade", "plug"])
def test_a_finding_weighs_as_much_as_it_moves_the_odds_with_all_else_kept_and_on_its_own(cause):
    # Oracle: brute force; Good: ten times the logarithm of the odds ratio.
    told = all_of(reasons(cause, HIT, EARLY, FIRES))
    for finding, says in (
        (HIT, "it hit something"),
        (EARLY, "the mark comes early"),
        (FIRES, "the spark tester fires"),
    ):
        rest = [one for one in (HIT, EARLY, FIRES) if one is not finding]
        kept = decibans(cause, HIT, EARLY, FIRES) - decibans(cause, *rest)
        alone = decibans(cause, finding) - decibans(cause)
        if says in told:
            assert told[says].decibans == pytest.approx(kept, abs=1e-6)
            assert told[says].alone == pytest.approx(alone, abs=1e-6)
        else:
            assert abs(kept) < 0.5
            assert abs(alone - kept) < 3.0


def test_a_finding_she_only_thinks_counts_for_less_in_both_weights_and_says_so():
    thought = Found("timing", "r1", unsure=True)
    told = all_of(reasons("key", HIT, thought))["the mark comes early, only thought so"]
    assert told.decibans == pytest.approx(decibans("key", HIT, thought) - decibans("key", HIT), abs=1e-6)
    assert told.alone == pytest.approx(decibans("key", thought) - decibans("key"), abs=1e-6)
    assert told.alone < decibans("key", EARLY) - decibans("key")


def test_a_repair_that_failed_is_a_reason_like_a_finding():
    told = all_of(reasons("plug", HIT, FAILED))["“Do mend-plug” did not cure it"]
    assert told.decibans == pytest.approx(decibans("plug", HIT, FAILED) - decibans("plug", HIT), abs=1e-6)
    assert told.alone == pytest.approx(decibans("plug", FAILED) - decibans("plug"), abs=1e-6)
    assert told.words.endswith("times less likely")


def test_a_repair_that_cured_it_is_no_reason_against_what_it_mended():
    assert all_of(reasons("plug", FAILED, Repaired("mend-key", "cured"))) == {}


def test_says_for_and_against_in_shop_words():
    coil = reasons("coil", *EVENTS)
    assert coil.speaks_against[0].words == "the spark tester fires: 20 times less likely"
    assert [one.says for one in reasons("key", *EVENTS).speaks_for][:2] == ["the mark comes early", "it hit something"]


def test_a_finding_that_says_nothing_is_no_reason():
    assert "it is green" not in all_of(reasons("key", *EVENTS))


def test_findings_that_say_the_same_are_told_so():
    # A bent blade follows from a strike; keyway and mark both tell of the key, so of the strike, so of the blade.
    told = all_of(reasons("blade", HIT, EARLY, OFF))["the keyway is off"]
    assert told.words == "the keyway is off: nothing more (8 times more likely on its own)"
    assert told.note == "says much the same as “the mark comes early”"
    assert told.decibans < told.alone - 3


@pytest.mark.parametrize(
    ("cause", "finding", "other", "words"),
    [
        # A dry plug speaks against a dead coil, until the weak spark says that something is wrong with the spark.
        ("coil", Found("plug-look", "r1"), Found("spark", "r1"), "says less beside “the spark is weak”"),
        # A weak spark may come from an old plug; a tan plug leaves the coil.
        ("coil", Found("spark", "r1"), Found("plug-look", "r0"), "says more beside “the plug is tan”"),
        # No spark says coil; but the mark is early as well, so it takes two faults, and the plug may be one of them.
        ("plug", Found("spark", "r2"), EARLY, "“the mark comes early” turns it round"),
        ("coil", Found("plug-look", "r2"), Found("run-up", "r1"), "says much the same as “it dies when opened up”"),
    ],
)
def test_it_is_told_what_a_finding_goes_together_with(cause, finding, other, words):
    level = int(finding.result[1:])
    says = next(one.results[level].says for one in CHECKS if one.id == finding.check)
    told = all_of(reasons(cause, finding, other))[says]
    kept = decibans(cause, finding, other) - decibans(cause, other)
    alone = decibans(cause, finding) - decibans(cause)
    assert (told.decibans, told.alone) == pytest.approx((kept, alone), abs=1e-6)
    assert told.note == words
    assert told.words.endswith(" on its own)")


def test_a_reason_whose_two_weights_agree_says_one():
    told = all_of(reasons("key", HIT, FIRES))["it hit something"]
    assert (told.words, told.note) == ("it hit something: 10 times more likely", "")


def test_gives_three_reasons_at_most_each_way():
    events = tuple(Found(name, "r1") for name in ("hit", "timing", "key-look", "smell", "plug-look", "spark"))
    for cause in COMPILED.network.names:
        told = reasons(cause, *events)
        assert len(told.speaks_for) <= 3
        assert len(told.speaks_against) <= 3
        assert list(told.speaks_for) == sorted(told.speaks_for, key=lambda one: -one.decibans)


def test_a_machine_without_findings_has_no_reasons():
    assert all_of(reasons("key")) == {}


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (1.2, "a little more likely"),
        (1.4, "1.5 times more likely"),
        (2, "twice as likely"),
        (1 / 2, "half as likely"),
        (5.2, "5 times more likely"),
        (1 / 8.5, "8 times less likely"),
        (105, "100 times more likely"),
        (1e-9, "over 100 times less likely"),
    ],
)
def test_says_a_weight_in_rounded_times(times, words):
    assert times_said(10 * math.log10(times)) == words


@pytest.mark.parametrize(
    ("probability", "word"),
    [(0.0, "hardly"), (0.03, "unlikely"), (0.3, "even"), (0.6, "likely"), (0.9, "almost sure"), (1.0, "almost sure")],
)
def test_puts_a_probability_in_a_word(probability, word):
    assert how_sure(probability) == word
