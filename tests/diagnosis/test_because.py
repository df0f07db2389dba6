import math

import pytest

from bellcrank.diagnosis.because import how_sure, reasons_for_all
from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found

from .small_pack import COMPILED

EVENTS = (Found("hit", "r1"), Found("timing", "r1"), Found("spark", "r0"), Found("colour", "r1"))


def reasons(cause, *events):
    return reasons_for_all(COMPILED, believe(COMPILED, Case(("wont-start",), events)), [cause])[cause]


def odds(cause, *events):
    now = believe(COMPILED, Case(("wont-start",), events)).now[cause]
    return now / (1 - now)


def test_a_finding_weighs_as_much_as_it_moves_the_odds():
    # Second route: the belief without the finding (Good: ten times the logarithm of the odds ratio).
    told = {reason.words: reason.decibans for reason in reasons("key", *EVENTS).speaks_for}
    moved = 10 * math.log10(odds("key", *EVENTS) / odds("key", *EVENTS[:1], *EVENTS[2:]))
    assert told["the mark comes early, so “flywheel key sheared” is much more likely"] == pytest.approx(moved, abs=1e-6)


def test_says_for_and_against_in_shop_words():
    coil = reasons("coil", *EVENTS)
    assert coil.speaks_against[0].words == "the spark tester fires, so “ignition coil dead” is much less likely"
    assert [one.words for one in reasons("key", *EVENTS).speaks_for][1].startswith("it hit something, so “flywheel")


def test_a_finding_that_says_nothing_is_no_reason():
    told = (*reasons("key", *EVENTS).speaks_for, *reasons("key", *EVENTS).speaks_against)
    assert not any("green" in one.words for one in told)


def test_gives_three_reasons_at_most_each_way():
    events = tuple(Found(name, "r1") for name in ("hit", "timing", "key-look", "smell", "plug-look", "spark"))
    for cause in COMPILED.network.names:
        told = reasons(cause, *events)
        assert len(told.speaks_for) <= 3
        assert len(told.speaks_against) <= 3


def test_a_machine_without_findings_has_no_reasons():
    assert reasons("key").speaks_for == ()


@pytest.mark.parametrize(
    ("probability", "word"),
    [(0.0, "hardly"), (0.03, "unlikely"), (0.3, "even"), (0.6, "likely"), (0.9, "almost sure"), (1.0, "almost sure")],
)
def test_puts_a_probability_in_a_word(probability, word):
    assert how_sure(probability) == word
