"""Faces, twisting off, locking nuts, plastics, shoulder screws, heat and inserts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.head_pressure import head_pressure
from bellcrank.fastening.heads import Face
from bellcrank.fastening.inserts import wire_insert_area
from bellcrank.fastening.locking_nuts import locking_nut, reuse_ok
from bellcrank.fastening.plastics import plastic_boss, plastic_target, wide_enough
from bellcrank.fastening.shoulder_screws import neck_share
from bellcrank.fastening.stripping import strip_area
from bellcrank.fastening.thermal import bar_stiffness, thermal_preload_change
from bellcrank.fastening.threads import parse_thread, stress_area
from bellcrank.fastening.tightening import preload_at_yield
from bellcrank.fastening.twist_off import torque_cap, twist_off_torque
from bellcrank.knowledge.pack import read_library

from .joints import CAST, PLASTIC

M6 = parse_thread("M6")
WARM = {"clamp_length": 0.04, "screw_expansion": 12e-6, "part_expansion": 23e-6}


@pytest.fixture(scope="module")
def tables():
    return read_library().screw_tables


def test_a_plain_head_crushes_cast_aluminium_where_a_flange_does_not():
    """Frozen orientation: 10.2 kN of M6 8.8 press 367 MPa under a hex head, some 135 MPa under a flange of 11.8 mm."""
    plain, flange = (head_pressure(10.2e3, Face(outside, 0.0066), CAST) for outside in (0.00888, 0.0118))
    assert plain.pressure == pytest.approx(367e6, rel=0.005)
    assert (plain.ok, flange.ok) == (False, True)
    assert flange.pressure == pytest.approx(135e6, rel=0.01)


@given(outside=st.floats(0.0082, 0.02))
def test_the_most_force_presses_just_the_limit(outside):
    face = Face(outside, 0.008)
    most = head_pressure(0.0, face, CAST).most_force
    assert head_pressure(most * 0.999999, face, CAST).ok
    assert not head_pressure(most * 1.000001, face, CAST).ok


def test_refuses_a_face_without_a_limit_and_one_smaller_than_its_hole():
    with pytest.raises(OutOfRange, match="No pressure limit is on record for plastic"):
        head_pressure(1e3, Face(0.009, 0.0066), PLASTIC)
    with pytest.raises(OutOfRange, match="Width of the face around the hole"):
        head_pressure(1e3, Face(0.0116, 0.0117), CAST)


def test_an_elastic_core_yields_before_a_plastic_one():
    plastic, elastic = (preload_at_yield(M6, 640e6, thread_friction=0.12, twist=way) for way in ("plastic", "elastic"))
    assert elastic < plastic
    with pytest.raises(NotUnderstood, match="plastic or elastic"):
        preload_at_yield(M6, 640e6, thread_friction=0.12, twist="none")


@pytest.mark.parametrize("typed", ["M12", "1/4-20"])
def test_breaking_torques_end_at_m10_and_at_metric_threads(typed):
    with pytest.raises(OutOfRange, match="Twist a spare one off"):
        twist_off_torque(parse_thread(typed), 800e6, shear_share=0.84)


def test_refuses_a_kind_of_screw_no_rule_is_for():
    with pytest.raises(NotUnderstood, match="thread-forming or sheet-metal"):
        torque_cap(10.0, "wood")


def test_a_used_nut_is_judged_by_its_drag(tables):
    nut = locking_nut(M6, tables.locking_nuts)
    assert not reuse_ok(nut, 0.29).reusable
    assert reuse_ok(nut, 0.30).reusable
    assert "thread hurt" in reuse_ok(nut, 3.1).words
    assert reuse_ok(nut, 0.1).words == "It drags less than the 0.3 N·m a used one must have: new nut."


def test_refuses_a_nut_in_no_table(tables):
    with pytest.raises(OutOfRange, match="No drag is on record for a locking nut of M7×1"):
        locking_nut(parse_thread("M7"), tables.locking_nuts)
    with pytest.raises(OutOfRange, match="Drag of the nut"):
        reuse_ok(locking_nut(M6, tables.locking_nuts), -0.1)


@given(diameter=st.floats(0.002, 0.008))
def test_a_boss_is_wider_than_its_screw_and_its_screw_than_the_hole(diameter):
    for rule in read_library().screw_tables.boss_rules.values():
        boss = plastic_boss(rule, diameter)
        assert boss.hole < diameter < boss.outside
        assert boss.engagement > diameter


@given(seating=st.floats(0.1, 5), more=st.floats(0.01, 10), share=st.floats(0.3, 0.5))
def test_the_target_in_plastic_lies_between_driving_and_stripping(seating, more, share):
    assert seating < plastic_target(seating, seating + more, share) < seating + more


def test_a_boss_that_strips_soon_after_seating_is_told():
    assert wide_enough(0.5, 1.5)
    assert not wide_enough(0.5, 1.4)


def test_refuses_a_boss_that_strips_before_it_seats_and_a_share_too_high():
    with pytest.raises(OutOfRange, match="Strip torque over the seating torque"):
        plastic_target(1.0, 0.9)
    with pytest.raises(OutOfRange, match=r"Part of the way is 0\.9"):
        plastic_target(0.5, 2.0, 0.9)


@pytest.mark.parametrize(("size", "share"), [("M5", 0.75), ("M6", 0.76), ("M8", 0.78), ("M10", 0.80), ("M12", 0.81)])
def test_a_shoulder_screw_takes_three_quarters_of_an_equal_bolt(tables, size, share):
    screw = next(one for one in tables.shoulder_screws if one.thread == parse_thread(size))
    assert neck_share(screw.neck, screw.thread) == pytest.approx(share, abs=0.0075)


def test_refuses_a_neck_as_thick_as_its_thread():
    with pytest.raises(OutOfRange, match="Thread over the neck"):
        neck_share(0.006, M6)


@given(change=st.floats(-100, 300), part=st.floats(1e6, 1e10))
def test_heat_meets_two_springs_worked_step_by_step(change, part):
    """Second route: the part's free growth over the screw's is taken up by both, in proportion to their give."""
    screw = bar_stiffness(stress_area(M6), 0.04, 205e9)
    gap = (23e-6 - 12e-6) * 0.04 * change
    stretched = gap * part / (part + screw)  # what the screw takes of it
    found = thermal_preload_change(change, screw_stiffness=screw, part_stiffness=part, **WARM)
    assert found == pytest.approx(screw * stretched, abs=1e-9)


def test_a_rigid_part_is_the_upper_bound_and_like_metals_gain_nothing():
    soft = thermal_preload_change(100, screw_stiffness=1e8, part_stiffness=3e8, **WARM)
    assert 0 < soft < thermal_preload_change(100, screw_stiffness=1e8, **WARM)
    alike = WARM | {"part_expansion": 12e-6}
    assert thermal_preload_change(100, screw_stiffness=1e8, **alike) == 0


def test_refuses_heat_no_bench_has_and_a_screw_without_stiffness():
    with pytest.raises(OutOfRange, match="Change of temperature is 900"):
        thermal_preload_change(900, screw_stiffness=1e8, **WARM)
    with pytest.raises(OutOfRange, match="Stiffness of the screw in N/m is 0"):
        thermal_preload_change(100, screw_stiffness=0.0, **WARM)


def test_an_insert_holds_more_than_the_bare_hole_of_its_length():
    assert wire_insert_area(M6, 0.012) > strip_area(M6, 0.012)
    with pytest.raises(OutOfRange, match="Insert left after tang"):
        wire_insert_area(M6, 0.001)


def test_keyed_inserts_hold_more_than_the_wire_rule_of_one_diameter(tables):
    """Their outer thread is larger: NASA-TM-106943, Table V, with 27 ksi for 6061-T6."""
    for insert in tables.keyed_inserts:
        assert insert.pull_out > 27 * 6.894757e6 * wire_insert_area(insert.thread, insert.thread.diameter)
