"""Short rules and factors, against screw_thread_lib's own code for them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from screw_thread_lib import Assembly
from screw_thread_lib.threads import C1_ISO, C2_ISO, C3_ISO

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.strip_factors import (
    bolt_bending_factor,
    hole_bending_factor,
    spreading_factor,
    strength_ratio,
)
from bellcrank.fastening.strip_rules import short_strip_area
from bellcrank.fastening.threads import parse_thread

INCH = 0.0254


@pytest.mark.parametrize("name", ["1/4-20", "1/4-28", "1/2-13", "1/2-20", "3/4-10", "1-8"])
def test_short_rules_meet_the_library_that_carries_the_standard(name):
    oracle, thread = Assembly.from_ASME_B11_UN_2A2B(name), parse_thread(name)
    printed = {
        "hole": oracle.ASn_FEDSTD_3(),
        "bolt": oracle.ASs_FEDSTD_5(),
        "bolt, basic": oracle.ASs_max_FEDSTD_6b(),
    }
    for which, area in printed.items():
        assert short_strip_area(thread, INCH, which) / INCH**2 == pytest.approx(area, rel=1e-9)


@given(across=st.floats(1.4, 1.75))
def test_spreading_meets_the_library_where_it_has_the_formula(across):
    assert spreading_factor(across, 1.0) == pytest.approx(C1_ISO(across))


@given(ratio=st.floats(0.41, 2.19))
def test_bending_meets_the_library(ratio):
    assert bolt_bending_factor(ratio) == pytest.approx(C2_ISO(ratio))
    assert hole_bending_factor(ratio) == pytest.approx(C3_ISO(ratio))


@given(across=st.floats(1.4, 5))
def test_spreading_never_promises_more_than_the_thread(across):
    assert 0.7 < spreading_factor(across, 1.0) <= 1.0


@given(scale=st.floats(0.1, 10))
def test_the_strength_ratio_is_a_ratio(scale):
    plain = strength_ratio(hole_shear=2e8, hole_area=1e-4, bolt_shear=4e8, bolt_area=8e-5)
    scaled = strength_ratio(hole_shear=2e8 * scale, hole_area=1e-4, bolt_shear=4e8 * scale, bolt_area=8e-5)
    assert scaled == pytest.approx(plain)


def test_refuses_what_no_test_covers():
    with pytest.raises(OutOfRange, match="so much stronger"):
        bolt_bending_factor(2.3)
    with pytest.raises(OutOfRange, match="so much softer"):
        hole_bending_factor(0.3)


def test_the_short_rule_for_holes_starts_at_a_quarter_inch():
    with pytest.raises(OutOfRange, match="Use the full formula"):
        short_strip_area(parse_thread("#10-32"), 0.01, "hole")
    with pytest.raises(NotUnderstood, match="must be one of hole, bolt"):
        short_strip_area(parse_thread("M8"), 0.01, "nut")
