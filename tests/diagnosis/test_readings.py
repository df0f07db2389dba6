"""What a reading says: results by limits, and how well each fits it, against scipy's normal distribution."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from bellcrank.diagnosis.belief import believe
from bellcrank.diagnosis.case import Case, Found
from bellcrank.diagnosis.readings import fits, fits_gauge, knows_gauge, result_of
from bellcrank.errors import OutOfRange
from bellcrank.knowledge.pack import read_library
from bellcrank.knowledge.scale import Scale

from .small_pack import CHECKS, COMPILED, GUESS

LOW, HIGH = 275e3, 620e3  # [Pa]
SCALE = Scale("kPa", "pressure", ("r1", "r0", "r1"), (LOW, HIGH), 0.05, 15e3, GUESS)
LOOK = next(one for one in CHECKS if len(one.results) == 2)  # any with two results


def test_a_reading_at_a_limit_belongs_to_the_upper_side():
    assert [result_of(SCALE, one) for one in (0.0, LOW - 1, LOW, HIGH, 2e6)] == ["r1", "r1", "r0", "r1", "r1"]


def test_refuses_a_reading_below_zero():
    with pytest.raises(OutOfRange, match="cannot be below zero"):
        result_of(SCALE, -1.0)


@given(st.floats(1e4, 2e6))
def test_results_fit_by_their_share_of_a_normal_distribution_about_the_reading(reading):
    # Oracle: scipy.stats.norm. Two ranges, too low and too high, are one result.
    spread = norm(reading, (0.05**2 * reading**2 + 15e3**2) ** 0.5)
    right = spread.cdf(HIGH) - spread.cdf(LOW)
    wrong = spread.cdf(LOW) + spread.sf(HIGH)
    expected = [right / max(right, wrong), wrong / max(right, wrong)]
    assert list(fits(LOOK, SCALE, reading)) == pytest.approx(expected, abs=1.1e-6)


def test_far_from_a_limit_a_reading_is_as_good_as_a_result_and_at_it_as_good_as_none():
    # By hand: far away one result fits alone; at the limit both sides fit alike.
    def believed(*events):
        return believe(COMPILED, Case(("wont-start",), events)).now

    far, at_it = fits(LOOK, SCALE, 50e3), fits(LOOK, SCALE, LOW)
    assert at_it == pytest.approx((1.0, 1.0), abs=1e-6)
    assert believed(Found(LOOK.id, "r1", fits=far)) == believed(Found(LOOK.id, "r1"))
    assert believed(Found(LOOK.id, "r0", fits=at_it)) == pytest.approx(believed(), abs=1e-6)


def test_the_same_reading_is_high_for_a_side_valve_and_fits_both_on_an_overhead_valve_engine():
    # Common practice, no source: a side-valve engine does not come up to 700 kPa with its release at work.
    pack = read_library().packs["walk-behind-mower"]
    check = next(one for one in pack.checks if one.id == "compression-gauge")
    results = [one.id for one in check.results]
    side, over = (
        dict(zip(results, fits_gauge(check, pack.gauge, card, 700e3), strict=True))
        for card in ("side-valve-150", "overhead-valve-190")
    )
    assert side["high"] == 1.0
    assert side["normal"] < 0.5
    assert over["normal"] == 1.0
    assert knows_gauge(check, pack.gauge, "side-valve-150")
    assert not knows_gauge(check, pack.gauge, "")
