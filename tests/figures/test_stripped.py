"""A screw pulled out of a part."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.fastening.pull_out import pull_out
from bellcrank.fastening.stripping import LEAST_PITCHES
from bellcrank.fastening.threads import parse_thread
from bellcrank.units import convert
from tests.fastening.joints import CAST

from .drawn import bold, inked, refuse_a_muddle, told
from .others import OTHERS, STRONG, stripped

SIXES = {"hole": (CAST, 800e6), "bolt": (STRONG, 300e6)}


@pytest.mark.parametrize("which", SIXES)
def test_the_thread_that_tears_first_is_inked_and_named(which):
    figure = stripped("M6", 0.012, *SIXES[which])
    assert [one.get("class") for one in inked(figure)] == ["drawn-governs"] * 2
    assert bold(figure) == f"Limit: {which}'s thread"
    title, twin = told(figure)
    assert title.startswith(f"The {which}'s thread tears out first")
    assert f"gives way first: the {which}'s thread" in twin


def test_the_text_twin_says_the_pull_in_both_systems():
    answer = pull_out(parse_thread("M6"), 0.012, CAST, bolt_tensile=800e6)
    _, twin = told(stripped("M6", 0.012))
    for force in (answer.strip_force_low, answer.strip_force, answer.bolt.low):
        kilo, pounds = convert(force, "kN", "force"), convert(force, "lbf", "force")
        assert f"{kilo:.1f} kN ({pounds:.0f} lbf)" in twin


def test_nothing_is_first_when_the_bolt_is_not_looked_at():
    title, twin = told(OTHERS["strip, bolt not known"])
    assert "first" not in title
    assert "first" not in twin
    assert "not looked at" in twin


def test_a_thread_longer_than_the_drawing_is_said_to_be_drawn_shorter():
    assert "drawn" in OTHERS["strip, long"].split("</desc>")[1]
    assert "drawn</text>" not in OTHERS["strip, hole"]


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(["M2", "M6", "M24x1.5", "M30", "1/4-20", "#10-24"]),
    st.floats(LEAST_PITCHES, 60),
    st.sampled_from([(CAST, 800e6), (CAST, None), (STRONG, 300e6)]),
)
def test_nothing_lies_over_anything(thread, pitches, made_of):
    refuse_a_muddle(stripped(thread, 1.001 * pitches * parse_thread(thread).pitch, *made_of))
