"""What a joint may have besides thread and material: face, washer, neck, gasket, locking nut, a measured hand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.heads import Face
from bellcrank.fastening.joint import Washer
from bellcrank.fastening.threads import Thread, ThreadSystem, parse_thread
from bellcrank.fastening.to_yield import torque_to_yield
from bellcrank.fastening.window import recommend_torque

from .joints import CAST, PLASTIC, STEEL, joint

INCH = 0.0254


def parts(window):
    return {limit.part: limit for limit in window.limits}


def test_a_face_given_by_its_sizes_is_the_face_of_the_table():
    assert recommend_torque(joint(face=Face(0.00888, 0.0066))).high == recommend_torque(joint(head="hex")).high


@given(friction=st.floats(0.05, 0.4), head_friction=st.floats(0.05, 0.4))
def test_friction_under_the_head_moves_the_torque_and_not_the_clamp(friction, head_friction):
    plain = recommend_torque(joint(friction=friction))
    apart = recommend_torque(joint(friction=friction, head_friction=head_friction))
    assert apart.preload_high == plain.preload_high
    assert (apart.high > plain.high) == (head_friction > friction) or head_friction == pytest.approx(friction)


@given(less=st.floats(0.05, 0.4), more=st.floats(0.05, 0.4), engaged=st.floats(0.004, 0.02))
def test_more_friction_takes_more_torque_and_never_allows_more_clamp(less, more, engaged):
    less, more = sorted((less, more))
    slick, dry = (recommend_torque(joint(friction=one, engaged=engaged, head="flange")) for one in (less, more))
    assert slick.high <= dry.high
    assert slick.preload_high >= dry.preload_high


@given(diameter=st.floats(0.1875, 0.625), turns=st.floats(12, 32), engaged=st.floats(0.25, 1.0))
def test_an_inch_screw_is_the_same_screw_when_it_is_measured_in_millimetres(diameter, turns, engaged):
    """The metric tolerances differ, so only what hangs on sizes given is compared: bolt and face."""
    inch = Thread("inch", ThreadSystem.METRIC, diameter * INCH, INCH / turns)
    millimetre = Thread("millimetre", ThreadSystem.METRIC, diameter * 25.4 / 1000, 25.4 / turns / 1000)
    face = Face(1.6 * diameter * INCH, 1.05 * diameter * INCH)
    found = [
        torque_to_yield(replace(joint(into=None, under_head=STEEL), thread=one, face=face)).torque
        for one in (inch, millimetre)
    ]
    assert found[0] == pytest.approx(found[1], rel=1e-9)


@given(factor=st.floats(0.5, 2.0))
def test_twice_the_size_clamps_four_times_and_takes_eight_times_the_torque(factor):
    thread, face = parse_thread("M8"), Face(0.0116, 0.009)
    small = torque_to_yield(joint("M8", into=None, under_head=STEEL, face=face))
    scaled = replace(thread, diameter=thread.diameter * factor, pitch=thread.pitch * factor)
    one = joint(
        "M8", into=None, under_head=STEEL, face=Face(face.bearing_diameter * factor, face.hole_diameter * factor)
    )
    big = torque_to_yield(replace(one, thread=scaled))
    assert big.preload == pytest.approx(small.preload * factor**2, rel=1e-9)
    assert big.torque == pytest.approx(small.torque * factor**3, rel=1e-9)


def test_a_hard_washer_hands_the_limit_from_the_casting_to_the_bolt():
    washer = Washer(outside=0.012, hole=0.0064, thickness=0.0016, material=STEEL)
    window = recommend_torque(joint(head="hex", washer=washer))
    assert recommend_torque(joint(head="hex")).limits[0].part is Part.FACE
    assert window.limits[0].part is Part.BOLT
    assert parts(window)[Part.WASHER].words == "the mild steel washer under the head"
    assert parts(window)[Part.FACE].words == "the die-cast aluminium under the washer"


def test_a_washer_thicker_than_its_edge_lets_spread_presses_no_further_than_its_edge():
    thick, thicker = (
        recommend_torque(joint(washer=Washer(0.012, 0.0066, thickness, STEEL))) for thickness in (0.003, 0.006)
    )
    assert parts(thick)[Part.FACE].preload == parts(thicker)[Part.FACE].preload


def test_a_soft_washer_gives_way_itself():
    washer = Washer(outside=0.018, hole=0.0066, thickness=0.003, material=CAST)
    assert recommend_torque(joint(into=STEEL, under_head=STEEL, washer=washer)).limits[0].part is Part.WASHER


def test_a_neck_thinner_than_the_thread_governs_and_less_than_its_area_alone_would_say():
    one = joint("M6", into=None, under_head=STEEL, head="nut")
    necked = recommend_torque(replace(one, neck=0.0044))
    assert necked.limits[0].part is Part.NECK
    share = necked.preload_high / recommend_torque(one).preload_high
    assert 0.70 < share <= 0.76


@given(neck=st.floats(0.003, 0.006), friction=st.floats(0.03, 0.5))
def test_a_neck_as_thick_as_the_thread_bears_what_the_thread_bears(neck, friction):
    one = joint("M6", into=None, under_head=STEEL, friction=friction, neck=neck)
    limits = parts(recommend_torque(one))
    core = 0.0050617  # [m] (d2 + d3)/2 of M6
    assert (limits[Part.NECK].preload <= limits[Part.BOLT].preload) == (neck <= core) or abs(neck - core) < 1e-6


def test_a_gasket_caps_the_clamp():
    window = recommend_torque(joint(most_clamp=2000.0))
    assert window.limits[0].part is Part.GASKET
    assert window.preload_high == 2000.0
    assert "gasket or cover" in window.widen


def test_a_locking_nut_adds_its_own_torque_and_no_clamp():
    plain, locking = recommend_torque(joint()), recommend_torque(joint(prevailing_torque=1.5))
    assert locking.preload_high == plain.preload_high
    for name in ("low", "target", "high"):
        assert getattr(locking, name) == pytest.approx(getattr(plain, name) + 1.5)
    assert "locking nut's own 1.5 N·m (13.3 in·lb) is in the torque" in " ".join(locking.assumptions)


def test_a_measured_hand_wins_over_the_table_of_ways():
    window = recommend_torque(joint(tightened_by="hand feel", scatter=0.12))
    assert window.high == pytest.approx(recommend_torque(joint(scatter=0.12)).high)
    assert window.high > recommend_torque(joint(tightened_by="hand feel")).high
    assert "you gave: the clamp scatters ±12%" in " ".join(window.assumptions)


@given(less=st.floats(0.01, 0.9), more=st.floats(0.01, 0.9))
def test_more_scatter_never_raises_the_window(less, more):
    less, more = sorted((less, more))
    assert recommend_torque(joint(scatter=less)).high >= recommend_torque(joint(scatter=more)).high


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"face": Face(0.009, 0.005)}, "must be at least 6.00 mm, or M6×1 does not pass"),
        ({"face": Face(0.0066, 0.0066)}, "Width of the face around the hole"),
        ({"face": Face(float("nan"), 0.0066)}, "Width of the face around the hole is missing"),
        ({"washer": Washer(0.006, 0.0066, 0.001, STEEL)}, "Width of the washer around its hole"),
        ({"washer": Washer(0.012, 0.0066, 0.0, STEEL)}, "Thickness of the washer"),
        ({"washer": Washer(0.012, 0.0066, 0.001, PLASTIC)}, "No pressure limit is on record for plastic"),
        ({"neck": 0.008}, "Measure the groove, not the shoulder"),
        ({"neck": 0.0}, "Neck of the screw"),
        ({"most_clamp": 0.0}, "The most clamp of the gasket"),
        ({"prevailing_torque": -1.0}, "Prevailing torque"),
        ({"head_friction": 0.9}, "Friction under the head is 0.9"),
        ({"scatter": 1.0}, "measure your own hand"),
        ({"scatter": float("nan")}, "Scatter of the clamp is missing"),
    ],
)
def test_refuses_a_joint_that_cannot_be(changes, says):
    with pytest.raises(OutOfRange, match=says):
        recommend_torque(joint(**changes))


def test_to_yield_gives_least_and_most_clamp_by_the_way_it_is_tightened():
    found = torque_to_yield(joint("M8", into=None, under_head=STEEL), 0.9)
    assert found.preload_low == pytest.approx(found.preload * 0.75 / 1.25)
    assert found.stress_area == pytest.approx(36.6e-6, rel=0.005)  # ISO 898-1


@given(less=st.floats(0.01, 1.0), more=st.floats(0.01, 1.0))
def test_clamp_and_torque_grow_with_the_share_of_yield_in_step(less, more):
    first, second = torque_to_yield(joint(), less), torque_to_yield(joint(), more)
    assert first.torque / second.torque == pytest.approx(less / more)
    assert first.preload / second.preload == pytest.approx(less / more)


@pytest.mark.parametrize("share", [0.0, 1.1, -0.5, float("nan")])
def test_to_yield_refuses_a_share_that_cannot_be(share):
    with pytest.raises(OutOfRange, match="Share of yield"):
        torque_to_yield(joint(), share)
