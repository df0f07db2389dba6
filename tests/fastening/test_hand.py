"""The hand by hand-worked numbers and by the laws it must keep; the factors are in tests/published/pulling.csv."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.hand import (
    FRICTION_SPREAD,
    WRENCH_ERROR,
    hand_on,
    preload_scatter,
    refuse_readings_that_cannot_be,
    span,
)
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.ways import SCATTER

M6, M8 = parse_thread("M6"), parse_thread("M8")
FIVE = [6.0, 7.0, 7.0, 8.0, 7.0]
steady = st.lists(st.floats(0.9, 1.1), min_size=5, max_size=30)


def test_five_readings_worked_by_hand():
    """Mean 35/5 = 7; s = √(2/4) = 0.7071; Γ = 4.291 x 0.7071/7 = 0.4334; window ± √(0.4334² + 0.06²) = 0.4376."""
    hand = hand_on(M6, FIVE)
    assert (hand.count, hand.mean) == (5, 7.0)
    assert hand.deviation == pytest.approx(math.sqrt(0.5))
    assert hand.factor == pytest.approx(4.291, abs=0.0005)
    assert hand.spread == pytest.approx(0.4334, abs=0.0001)
    assert (hand.low, hand.high) == pytest.approx((7 * 0.5624, 7 * 1.4376), rel=0.0003)


def test_the_uncertainty_of_the_mean_lies_near_students_t():
    """s/√n times t = 2.776 for five readings and 2.262 for ten, as every textbook prints them."""
    for readings, t in ((FIVE, 2.776), (FIVE * 2, 2.262)):
        hand = hand_on(M6, readings)
        error = hand.deviation / math.sqrt(hand.count)
        assert hand.mean_uncertainty == pytest.approx(t * error, rel=0.02)


def test_says_the_window_in_shop_words():
    assert hand_on(M6, FIVE).words == "By your hand M6×1 gets 3.9 to 10.1 N·m (from 5 readings)."


@given(shares=steady, middle=st.floats(2.0, 15.0))
def test_the_window_is_never_inverted_and_holds_the_mean_and_the_wrench(shares, middle):
    hand = hand_on(M6, [middle * share for share in shares])
    assert 0 < hand.low <= hand.mean * (1 - WRENCH_ERROR) * (1 + 1e-12)
    assert hand.high >= hand.mean * (1 + WRENCH_ERROR) * (1 - 1e-12)
    assert hand.scatter >= max(FRICTION_SPREAD, hand.spread)


@given(shares=steady, scale=st.floats(0.5, 2.0))
def test_a_stronger_hand_of_the_same_kind_spreads_by_the_same_share(shares, scale):
    once = hand_on(M8, [15.0 * share for share in shares])
    strong = hand_on(M8, [15.0 * scale * share for share in shares])
    assert strong.spread == pytest.approx(once.spread, abs=1e-9)
    assert strong.low == pytest.approx(scale * once.low)


@given(shares=steady)
def test_the_order_of_the_readings_says_nothing(shares):
    readings = [7.0 * share for share in shares]
    assert hand_on(M6, sorted(readings)).spread == pytest.approx(hand_on(M6, readings).spread, abs=1e-9)


def test_the_same_readings_taken_twice_vouch_for_a_narrower_window():
    assert hand_on(M6, FIVE * 2).high < hand_on(M6, FIVE).high


def test_readings_all_alike_are_trusted_no_further_than_the_wrench():
    hand = hand_on(M6, [7.0] * 5)
    assert hand.spread == 0
    assert (hand.low, hand.high) == pytest.approx((7 * 0.94, 7 * 1.06))


def test_inch_pounds_and_newton_metres_give_the_same_hand():
    inch_pound = 0.0254 * 4.4482216152605
    typed = [53.0, 62.0, 62.0, 71.0, 62.0]
    hand = hand_on(parse_thread("1/4-20"), [reading * inch_pound for reading in typed])
    assert hand.mean / inch_pound == pytest.approx(62.0)
    assert hand.spread == pytest.approx(4.291 * math.sqrt(162 / 4) / 62, rel=1e-3)


@pytest.mark.parametrize(("count", "there"), [(0, "are 0 readings"), (1, "is 1 reading"), (4, "are 4 readings")])
def test_fewer_than_five_readings_know_no_hand(count, there):
    with pytest.raises(OutOfRange, match=f"There {there} of M6×1; it must be 5 or more"):
        hand_on(M6, FIVE[:count])


@pytest.mark.parametrize("wrong", [-7.0, 0.0, float("nan"), float("inf")])
def test_a_reading_that_cannot_be_is_refused(wrong):
    with pytest.raises(OutOfRange, match="A reading of M6×1 is"):
        hand_on(M6, [*FIVE, wrong])


def test_readings_a_hundredfold_apart_ask_for_the_unit():
    with pytest.raises(OutOfRange, match=r"run from 0\.07 to 7\.00 N·m \(.*not 100 times apart.*another unit"):
        hand_on(M6, [7.0, 7.0, 7.0, 7.0, 0.07])


def test_inch_pounds_among_newton_metres_are_found_out():
    """62 in·lb typed as 62 among 7 N·m: more than an M6 of class 12.9 holds."""
    with pytest.raises(OutOfRange, match="strongest bolt of that size breaks below 44 N·m"):
        refuse_readings_that_cannot_be(M6, [7.0, 62.0])
    with pytest.raises(OutOfRange, match="not 9 times apart"):
        refuse_readings_that_cannot_be(M8, [62.0, 7.0])


def test_readings_that_promise_nothing_are_said_to():
    with pytest.raises(OutOfRange, match=r"run from 3\.0 to 12\.0 N·m \(27 to 106 in·lb\); 5 of them promise no"):
        hand_on(M6, [3.0, 12.0, 7.0, 4.0, 10.0])


def test_a_hand_without_spread_scatters_like_the_torque_wrench_of_the_window():
    assert preload_scatter(0.0) == SCATTER["torque wrench"].scatter


@given(one=st.floats(0.0, 0.9), other=st.floats(0.0, 0.9))
def test_scatter_is_no_less_than_its_larger_part_and_no_more_than_their_sum(one, other):
    assert max(one, other) * (1 - 1e-12) <= preload_scatter(one, other) <= (one + other) * (1 + 1e-12)


@pytest.mark.parametrize("wrong", [-0.1, 0.95, float("nan")])
def test_refuses_a_spread_that_cannot_be(wrong):
    with pytest.raises(OutOfRange, match="Spread of the torque"):
        preload_scatter(wrong)
    with pytest.raises(OutOfRange, match="Spread by friction"):
        preload_scatter(0.2, wrong)


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(14.2, 26.9, "14 to 27 N·m"), (3.93, 10.07, "3.9 to 10.1 N·m"), (0.07, 7, "0.07 to 7.00 N·m")],
)
def test_a_range_is_told_with_the_digits_it_deserves(low, high, words):
    assert span(low, high) == words
