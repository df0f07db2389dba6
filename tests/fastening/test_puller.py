"""The puller as a mechanic asks it, by hand-worked numbers and by the laws it must keep."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.pull import Pull, PullVerdict
from bellcrank.fastening.puller import CAUTIONS, judge_pull
from bellcrank.fastening.threads import parse_thread, pitch_diameter

from .joints import CAST, CLASS_8_8, PLASTIC, STEEL

LENGTHS = st.floats(0.0021, 0.020)
M6 = parse_thread("M6")


def pull(**changes):
    given_here = {
        "release_low": 10e3,
        "release_high": 28e3,
        "thread": M6,
        "strength": CLASS_8_8,
        "hub": CAST,
        "engaged": 0.006,
        "tapped_depth": 0.010,
        "screw": parse_thread("M10"),
        "circle_radius": 0.025,
    }
    return Pull(**(given_here | changes))


def test_six_millimetres_in_die_cast_aluminium_hold_a_clean_taper_only():
    """12.27 mm²/mm x 190 MPa: new 6 mm 14.0 kN, usable 0.7 x 5 mm 8.16 kN; proof 580 x 20.12 = 11.67 kN."""
    answer = judge_pull(pull())
    assert answer.verdict is PullVerdict.CLEAN_ONLY
    assert answer.strip_geometric == pytest.approx(13_990, rel=0.002)
    assert answer.strip_usable == pytest.approx(8160, rel=0.002)
    assert answer.bolt_proof == pytest.approx(11_670, rel=0.001)
    assert answer.allowed == pytest.approx(8160 / 1.5, rel=0.002)
    assert (answer.load.clean, answer.load.fretted) == pytest.approx((5000, 14_000))
    assert answer.hole_margin.clean == pytest.approx(8160 / 5000, rel=0.002)
    assert answer.bolt_margin.fretted == pytest.approx(11_670 / 14_000, rel=0.001)


def test_knows_where_to_stop_on_the_centre_screw_and_on_the_bolts():
    """M10: 1.5/2π + 0.14 x 9.026/1.732 + 0.14 x 2 = 1.248 mm, x 2 x 5440 N = 13.6 N·m; M6 hex 1.133 mm: 6.2 N·m."""
    answer = judge_pull(pull())
    assert answer.screw_torque_limit == pytest.approx(13.58, rel=0.005)
    assert answer.bolt_torque_limit == pytest.approx(6.16, rel=0.005)


def test_a_light_pull_has_enough_thread():
    assert judge_pull(pull(release_low=2e3, release_high=8e3)).verdict is PullVerdict.ENOUGH


def test_a_longer_bolt_will_do_where_the_hole_has_the_thread():
    """8 kN a bolt asks 1 + 1.5 x 8000/1632 = 8.35 mm; the hole has 10."""
    answer = judge_pull(pull(release_high=16e3))
    assert answer.verdict is PullVerdict.SCREW_IN_DEEPER
    assert answer.needed_fretted == pytest.approx(0.00835, rel=0.002)
    assert (answer.deeper, answer.deeper_for_least) == (answer.needed_fretted, False)


def test_taps_deeper_where_the_hub_has_room():
    answer = judge_pull(pull(release_high=16e3, tapped_depth=0.007, hub_depth=0.012))
    assert answer.verdict is PullVerdict.TAP_DEEPER
    assert answer.deeper == answer.needed_fretted


def test_a_deeper_hole_for_a_clean_taper_is_not_one_for_a_fretted_one():
    answer = judge_pull(pull(engaged=0.003, tapped_depth=0.003, hub_depth=0.008))
    assert answer.verdict is PullVerdict.TAP_DEEPER
    assert (answer.deeper, answer.deeper_for_least) == (answer.needed_clean, True)
    assert answer.needed_fretted is None


def test_another_way_when_the_hub_is_too_thin():
    answer = judge_pull(pull(engaged=0.003, tapped_depth=0.003, hub_depth=0.004))
    assert answer.verdict is PullVerdict.ANOTHER_WAY
    assert answer.needed_clean is not None


def test_another_way_when_the_bolts_would_yield_first():
    answer = judge_pull(pull(release_low=20e3, engaged=0.010))
    assert answer.verdict is PullVerdict.ANOTHER_WAY
    assert answer.needed_clean is None


def test_a_third_bolt_carries_what_two_could_not():
    force = {"release_low": 10e3, "release_high": 15e3, "tapped_depth": 0.006}
    assert judge_pull(pull(bolts=2, **force)).verdict is not PullVerdict.ENOUGH
    assert judge_pull(pull(bolts=3, **force)).verdict is PullVerdict.ENOUGH


def test_a_hole_formed_before_is_counted_a_fifth_weaker_and_says_from_where():
    answer = judge_pull(pull(formed_again=True))
    assert answer.strip_usable == pytest.approx(0.8 * judge_pull(pull()).strip_usable)
    assert any("from memory" in one for one in answer.assumptions)


def test_a_wide_cored_hole_holds_less_and_one_within_limits_as_much():
    """M6 6H: 4.917 + 0.230 = 5.147 mm at most; 5.4 mm leaves 0.6/0.853 of the height."""
    wide, usual = judge_pull(pull(core_hole=0.0054)), judge_pull(pull(core_hole=0.0051))
    assert usual.strip_usable == judge_pull(pull()).strip_usable
    assert wide.strip_usable / usual.strip_usable == pytest.approx(0.6 / 0.853, rel=0.002)
    assert any("height of thread" in one for one in wide.assumptions)


def test_the_soft_bolts_own_thread_counts_in_a_hard_hub():
    soft = replace(CLASS_8_8, ranges=(replace(CLASS_8_8.ranges[0], tensile=300e6),))
    assert judge_pull(pull(hub=STEEL, strength=soft)).strip_usable < judge_pull(pull(hub=STEEL)).strip_usable


def test_a_taper_that_falls_off_leaves_every_margin():
    answer = judge_pull(pull(release_low=0.0))
    assert answer.hole_margin.clean == math.inf


def test_lists_the_cautions_in_words():
    assert judge_pull(pull()).cautions == CAUTIONS
    said = " ".join(CAUTIONS)
    for word in ("lead off", "nut on by a few turns", "clear of the line", "Eyes", "Never hammer", "magnets"):
        assert word in said


@given(engaged=LENGTHS)
def test_with_its_margin_a_hole_is_asked_for_less_than_the_most_pessimistic_formula_allows(engaged):
    """NASA RP-1228: π dm Fs L/3, less than half of formula (2a)."""
    bound = math.pi * pitch_diameter(M6) * 190e6 * engaged / 3
    assert judge_pull(pull(engaged=engaged, tapped_depth=0.02)).allowed < bound


@given(engaged=LENGTHS, low=st.floats(0.0, 4e4), more=st.floats(1.0, 4e4), bolts=st.sampled_from([2, 3]))
def test_the_needed_thread_is_enough_once_it_is_engaged(engaged, low, more, bolts):
    asked = pull(release_low=low, release_high=low + more, engaged=engaged, tapped_depth=0.05, bolts=bolts)
    answer = judge_pull(asked)
    if answer.needed_fretted is None:
        assert answer.verdict in (PullVerdict.CLEAN_ONLY, PullVerdict.SCREW_IN_DEEPER, PullVerdict.ANOTHER_WAY)
        return
    deep = judge_pull(replace(asked, engaged=answer.needed_fretted * (1 + 1e-9)))
    assert deep.verdict is PullVerdict.ENOUGH
    assert answer.needed_clean <= answer.needed_fretted


@given(engaged=LENGTHS, more=st.floats(0.0, 0.02))
def test_more_thread_never_holds_less(engaged, more):
    short = judge_pull(pull(engaged=engaged, tapped_depth=0.05))
    long = judge_pull(pull(engaged=engaged + more, tapped_depth=0.05))
    assert long.strip_usable >= short.strip_usable
    assert long.screw_torque_limit >= short.screw_torque_limit * (1 - 1e-12)


@given(engaged=LENGTHS, share=st.floats(0.0, 0.5), friction=st.floats(0.05, 0.4))
def test_at_the_limit_on_the_screw_the_heaviest_bolt_is_just_at_what_is_allowed(engaged, share, friction):
    asked = pull(engaged=engaged, tapped_depth=0.05, off_centre=share * 0.025, friction=friction)
    answer = judge_pull(asked)
    force = answer.allowed / answer.load.fretted * asked.release_high
    again = judge_pull(replace(asked, release_low=0.0, release_high=force))
    assert again.load.fretted == pytest.approx(answer.allowed)
    assert answer.allowed < answer.strip_usable < answer.strip_geometric


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"release_low": 30e3}, "the other way round"),
        ({"release_low": -1e3}, r"clean taper is -1\.0 kN; it must be zero or more"),
        ({"release_high": 0.0, "release_low": 0.0}, "fretted taper is 0.0 kN; it must be above zero"),
        ({"engaged": 0.0015}, r"Only 1\.5 threads of M6×1 are engaged; it must be 2 or more to pull"),
        ({"engaged": 0.012}, r"12\.0 mm of thread is said to be engaged, but the hole has only 10\.0 mm"),
        ({"hub_depth": 0.008}, r"10\.0 mm of thread is said to be tapped, but the hub has only 8\.0 mm"),
        ({"tapped_depth": float("nan")}, "Measure both again"),
        ({"engaged": float("nan")}, "Thread engagement is missing"),
        ({"off_centre": 0.020}, "Centre the screw"),
        ({"bolts": 4}, "it must be 2 or 3"),
        ({"core_hole": 0.006}, r"hole inside the thread is 6\.00 mm"),
        ({"core_hole": 0.00425}, r"it must be 4\.92 mm or more"),
        ({"hub": PLASTIC}, "no thread strength to compute with for plastic"),
        ({"thread": parse_thread("M1.6"), "strength": replace(CLASS_8_8, ranges=CLASS_8_8.ranges[1:])}, "not defined"),
    ],
)
def test_refuses_what_cannot_be_and_says_what_to_do(changes, words):
    with pytest.raises(OutOfRange, match=words):
        judge_pull(pull(**changes))
