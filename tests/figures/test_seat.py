"""A hub on its taper."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.fastening.taper import taper_seat
from bellcrank.fastening.taper_forces import FLATTEST, LEAST_FRICTION, LONGEST, MOST_FRICTION, SHORTEST, STEEPEST, Taper
from bellcrank.units import convert

from .drawn import bold, inked, paths, refuse_a_muddle, told
from .others import OTHERS, seated


def flank(figure):
    """Give how far the right flank leans, and how long it is. [px]"""
    corners = paths(figure, "drawn-governs")[0]
    return corners[2][0] - corners[1][0], corners[2][1] - corners[1][1]


def test_the_flank_is_inked_and_named():
    assert [one.get("class") for one in inked(seated())] == ["drawn-governs"] * 2
    assert bold(seated()) == "Limit: grip of the flank"


def test_the_title_says_when_it_slips_and_the_twin_says_all_of_it_in_both_systems():
    seat = taper_seat(25e3, Taper(0.125, 0.022, 0.025), 0.15)
    title, twin = told(seated())
    assert title == f"This taper first slips at {seat.slip_torque_low:.0f} N·m"
    for torque in (seat.slip_torque_low, seat.slip_torque_high):
        assert f"{torque:.0f} N·m ({convert(torque, 'ft·lb', 'torque'):.0f} ft·lb)" in twin
    for force in (25e3, seat.release_force):
        assert f"{convert(force, 'kN', 'force'):.1f} kN ({convert(force, 'lbf', 'force'):.0f} lbf)" in twin


def test_the_torque_is_said_in_the_unit_of_the_shop():
    title, twin = told(seated(unit="ft·lb"))
    assert title.endswith(" ft·lb")
    assert " ft·lb (194 N·m)" in twin


@pytest.mark.parametrize("ratio", [0.125, 0.2, 0.4])
def test_a_taper_that_is_seen_is_drawn_in_its_true_proportion(ratio):
    leans, long = flank(seated(ratio))
    assert leans / long == pytest.approx(ratio / 2, rel=0.03)
    assert "steeper" not in seated(ratio)


def test_a_flat_taper_is_drawn_steeper_and_said_to_be():
    leans, long = flank(seated(0.02))
    assert leans / long > 0.01
    assert "steeper" in seated(0.02)


def test_a_taper_that_does_not_stay_on_has_no_pull_that_frees_it():
    assert len(paths(OTHERS["taper, comes off by itself"], "drawn-arrow")) == 2 * 2  # the nut's push, the torque
    assert len(paths(seated(), "drawn-arrow")) == 4 * 2
    assert "comes off by itself" in told(OTHERS["taper, comes off by itself"])[1]


@settings(max_examples=40, deadline=None)
@given(
    st.floats(FLATTEST, STEEPEST),
    st.floats(0.005, 0.1),
    st.floats(1.001 * SHORTEST, 0.999 * LONGEST),
    st.floats(10, 1e6),
    st.floats(LEAST_FRICTION, MOST_FRICTION),
    st.sampled_from(["N·m", "in·lb"]),
)
def test_nothing_lies_over_anything(ratio, diameter, share, push, friction, unit):
    refuse_a_muddle(seated(ratio, diameter, share * diameter, push, friction, unit))
