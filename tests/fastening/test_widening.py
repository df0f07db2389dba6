"""What would widen a window, with the number."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.heads import Face
from bellcrank.fastening.window import recommend_torque

from .joints import STEEL, joint


def test_a_flange_is_told_with_the_limit_and_the_torque_it_moves_to():
    window = recommend_torque(joint(head="hex"))
    flanged = recommend_torque(joint(head="flange"))
    assert window.widened_high == flanged.high
    assert f"to {flanged.governs}, at {flanged.high:.1f} N·m instead of {window.high:.1f} N·m" in window.widen


def test_a_flange_is_not_told_where_the_measured_face_is_larger():
    wide = recommend_torque(joint(face=Face(0.013, 0.0115)))
    assert wide.limits[0].part is Part.FACE
    assert wide.widen.startswith("A hard washer")


@given(engaged=st.floats(0.0021, 0.008), head=st.sampled_from(["hex", "flange"]))
def test_the_thread_that_is_told_moves_the_limit_just_there(engaged, head):
    window = recommend_torque(joint(engaged=engaged, head=head))
    if window.limits[0].part not in (Part.HOLE, Part.OWN_THREAD):
        return
    more = float(re.search(r"(\d+\.\d) mm more thread", window.widen)[1]) / 1000
    just_short, enough = (
        recommend_torque(joint(engaged=engaged + more + step, head=head)) for step in (-0.0001, 0.0001)
    )
    assert just_short.limits[0].part in (Part.HOLE, Part.OWN_THREAD)
    assert enough.limits[0].part not in (Part.HOLE, Part.OWN_THREAD)
    assert enough.high == pytest.approx(window.widened_high)


def test_a_stronger_bolt_is_told_with_what_is_next():
    window = recommend_torque(joint(head="flange"))
    after = next(limit for limit in window.limits if limit.part is not Part.BOLT)
    assert f"Then {after.words} is next, at {after.torque:.1f} N·m." in window.widen


def test_a_neck_is_told_as_a_neck():
    one = replace(joint(into=None, under_head=STEEL, head="nut"), neck=0.0044)
    assert recommend_torque(one).widen.startswith("A bolt without a neck")
