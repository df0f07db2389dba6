"""The whole answer about stripping."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.engagement import required_engagement
from bellcrank.fastening.pull_out import WornHole, pull_out
from bellcrank.fastening.stripping import strip_area, strip_force
from bellcrank.fastening.threads import parse_thread, stress_area

from .joints import CAST, PLASTIC, STEEL

M6 = parse_thread("M6")
FINE = parse_thread("5/16-24")
engagements = st.floats(0.003, 0.03)


def test_one_call_answers_both_areas_and_both_pulls():
    found = pull_out(FINE, 0.3125 * 0.0254, CAST)
    assert found.internal_area == pytest.approx(strip_area(FINE, 0.3125 * 0.0254))
    assert found.internal_area * 1e6 == pytest.approx(0.663 * 0.3125 * 645.16, rel=0.006)  # printed, per inch
    sound = strip_force(FINE, 0.3125 * 0.0254, CAST)
    assert (found.strip_force, found.strip_force_low) == pytest.approx((sound.nominal, sound.low))
    assert found.gives_way == "hole"


@given(engagement=engagements, tensile=st.floats(3e8, 1.3e9), width=st.floats(0.0085, 0.05))
def test_what_to_count_on_never_passes_what_a_new_thread_holds(engagement, tensile, width):
    found = pull_out(M6, engagement, CAST, bolt_tensile=tensile, boss_width=width)
    assert 0 < found.strip_force_low < found.strip_force
    assert found.strip_force <= pull_out(M6, engagement, CAST).strip_force
    assert found.strip_force == pytest.approx(min(found.hole.nominal, found.bolt.nominal))


@given(engagement=engagements, hole=st.floats(0.0049, 0.00579))
def test_a_larger_hole_never_holds_more(engagement, hole):
    worn = pull_out(M6, engagement, CAST, bolt_tensile=800e6, worn=WornHole(minor_diameter=hole))
    larger = pull_out(M6, engagement, CAST, bolt_tensile=800e6, worn=WornHole(minor_diameter=hole + 5e-6))
    assert larger.external_area < worn.external_area
    assert larger.hole.low <= worn.hole.low * (1 + 1e-9)


def test_a_hole_whose_flanks_are_worn_loses_area():
    worn = pull_out(M6, 0.012, CAST, worn=WornHole(pitch_diameter=0.0057))
    assert worn.internal_area < pull_out(M6, 0.012, CAST).internal_area
    assert worn.strip_force < pull_out(M6, 0.012, CAST).strip_force


def test_the_worn_bound_is_under_half_of_a_sound_thread():
    found = pull_out(M6, 0.012, CAST)
    assert found.worn_bound / found.strip_force == pytest.approx(0.457, rel=0.02)


def test_a_soft_screw_in_steel_gives_way_itself():
    assert pull_out(M6, 0.006, replace(STEEL, shear=400e6), bolt_tensile=400e6).gives_way == "bolt"


def test_a_strength_ratio_no_test_covers_is_told():
    found = pull_out(M6, 0.012, replace(CAST, shear=60e6), bolt_tensile=1220e6)
    assert found.strength_ratio < 0.4
    assert any("no test covers" in note for note in found.notes)


def test_says_what_was_not_given():
    told = " ".join(pull_out(M6, 0.012, CAST).notes)
    for words in ("say its strength class", "taken as thick", "taken as sound"):
        assert words in told


def test_refuses_a_hole_in_which_the_screw_no_longer_catches():
    with pytest.raises(OutOfRange, match="no longer catches"):
        pull_out(M6, 0.012, CAST, worn=WornHole(minor_diameter=0.0059))


def test_refuses_a_boss_so_thin_that_it_splits():
    with pytest.raises(OutOfRange, match=r"Width of the boss over the thread diameter is 1\.2"):
        pull_out(M6, 0.012, CAST, boss_width=0.0072)


def test_refuses_plastic():
    with pytest.raises(OutOfRange, match="Strip one screw"):
        pull_out(M6, 0.012, PLASTIC)


@pytest.mark.parametrize("method", ["h28", "vdi", "rp1228"])
@given(tensile=st.floats(4e8, 1.3e9))
def test_a_stronger_bolt_never_needs_less_thread(method, tensile):
    assert required_engagement(M6, tensile, CAST, method) < required_engagement(M6, tensile * 1.05, CAST, method) * 1.02


def test_at_the_required_engagement_the_hole_holds_as_much_as_the_bolt():
    needed = required_engagement(M6, 800e6, CAST)
    assert strip_force(M6, needed, CAST).nominal == pytest.approx(800e6 * stress_area(M6))


def test_the_textbook_bolt_in_aluminium_lies_a_little_under_its_rule_of_two_diameters():
    """Roloff/Matek, M8 10.9 in aluminium of shear 180 MPa: two diameters; the formulae give 1.5 to 1.9."""
    soft = replace(CAST, shear=180e6)
    for method in ("h28", "vdi"):
        assert 1.5 < required_engagement(parse_thread("M8"), 1040e6, soft, method) / 0.008 < 2.0


def test_refuses_a_way_nobody_knows_and_a_material_without_strength():
    with pytest.raises(NotUnderstood, match="h28, vdi, rp1228"):
        required_engagement(M6, 800e6, CAST, "guess")
    with pytest.raises(OutOfRange, match="no thread strength to compute with for plastic"):
        required_engagement(M6, 800e6, PLASTIC)


def test_refuses_a_hole_far_stronger_than_its_bolt():
    with pytest.raises(OutOfRange, match="times as strong as the bolt"):
        required_engagement(M6, 400e6, replace(STEEL, shear=900e6), "vdi")
