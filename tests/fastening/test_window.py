"""The torque nobody published."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.stripping import strip_force
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.window import recommend_torque
from bellcrank.sources import Basis

from .joints import CAST, PLASTIC, STEEL, joint

THREADS = ["M4", "M5", "M6", "M8", "M8x1", "M10", "1/4-20", "1/4-28", "5/16-18", "3/8-24", "#10-24", "5/8-18"]


def test_a_plain_head_on_cast_aluminium_gives_way_before_the_bolt():
    """Frozen orientation, worked by hand from the printed strengths: 27.7 mm² x 290 MPa, over 1.25, K 0.166."""
    window = recommend_torque(joint(head="hex"))
    assert window.governs == "the die-cast aluminium under the head"
    assert window.high == pytest.approx(6.4, rel=0.01)
    assert "flange" in window.widen


def test_a_flange_head_hands_the_limit_to_the_bolt():
    window = recommend_torque(joint(head="flange"))
    assert window.governs == "the bolt itself"
    assert window.high == pytest.approx(7.6, rel=0.015)


def test_a_short_thread_in_the_casting_hands_the_limit_to_the_thread():
    window = recommend_torque(joint(head="hex", engaged=0.006))
    assert window.governs == "the thread in the die-cast aluminium"
    assert window.high == pytest.approx(4.3, rel=0.01)
    assert "insert" in window.widen


def test_a_strong_short_screw_in_steel_may_lose_its_own_thread():
    weak = joint(into=STEEL, under_head=STEEL, engaged=0.0025, head="flange")
    words = {limit.words for limit in recommend_torque(weak).limits}
    assert "the screw's own thread" in words


def test_a_nut_is_taken_to_be_as_strong_as_its_bolt():
    window = recommend_torque(joint(into=None, under_head=STEEL, head="nut"))
    assert not any("thread" in limit.words for limit in window.limits)


@given(
    thread=st.sampled_from(THREADS),
    head=st.sampled_from(["hex", "nut", "flange", "pan"]),
    diameters=st.floats(0.6, 3.0),
    friction=st.floats(0.05, 0.4),
    by=st.sampled_from(["torque wrench", "hand feel"]),
    material=st.sampled_from([CAST, STEEL]),
)
def test_the_window_is_never_inverted_and_never_passes_a_limit(thread, head, diameters, friction, by, material):
    engaged = diameters * parse_thread(thread).diameter
    window = recommend_torque(
        joint(
            thread,
            head=head,
            engaged=engaged,
            friction=friction,
            tightened_by=by,
            into=material,
            under_head=material,
        )
    )
    assert 0 < window.low < window.target < window.high
    assert 0 < window.preload_low < window.preload_high
    assert window.preload_high <= min(limit.preload for limit in window.limits)
    assert window.high <= min(limit.torque for limit in window.limits)
    assert window.basis is Basis.COMPUTED
    assert window.widen


def test_a_hand_gets_a_lower_window_than_a_wrench():
    assert recommend_torque(joint(tightened_by="hand feel")).high < recommend_torque(joint()).high


def test_twice_the_thread_never_lowers_the_window():
    assert recommend_torque(joint(engaged=0.012)).high >= recommend_torque(joint(engaged=0.006)).high


def test_says_what_it_took_for_granted_when_nobody_measured_the_thread():
    told = " ".join(recommend_torque(joint(engaged=None)).assumptions)
    assert "6.0 mm (0.236 in), one diameter of the screw, is assumed" in told
    assert "±25%" in told


def test_an_assumed_engagement_still_holds_when_only_one_diameter_is_there():
    """The strip margin covers the assumption: at the window's end one diameter of cast thread does not strip."""
    for thread in ("M5", "M6", "M8", "1/4-20", "5/16-18"):
        most = recommend_torque(joint(thread, engaged=None, head="flange")).preload_high
        assert most < CAST.knock_down * strip_force(parse_thread(thread), parse_thread(thread).diameter, CAST).nominal


def test_refuses_plastic_in_the_hole_and_says_what_to_do():
    with pytest.raises(OutOfRange, match="Strip one screw in a scrap piece"):
        recommend_torque(joint(into=PLASTIC))


def test_refuses_plastic_under_the_head_and_says_what_to_do():
    with pytest.raises(OutOfRange, match="No pressure limit is on record for plastic under a head"):
        recommend_torque(joint(under_head=PLASTIC))


def test_refuses_thin_sheet():
    with pytest.raises(OutOfRange, match="threads of M6×1 are engaged"):
        recommend_torque(joint(into=STEEL, under_head=STEEL, engaged=0.001))


def test_refuses_a_way_of_tightening_nobody_measured():
    with pytest.raises(NotUnderstood, match="torque wrench or hand feel"):
        recommend_torque(joint(tightened_by="impact gun"))


@pytest.mark.parametrize("friction", [0.0, -0.1, 2.0, float("nan")])
def test_refuses_a_friction_that_cannot_be(friction):
    with pytest.raises(OutOfRange, match="Friction"):
        recommend_torque(joint(friction=friction))
