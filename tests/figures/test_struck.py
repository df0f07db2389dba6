"""A flywheel after a blade strike."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.fastening.key_joint import GivesWay
from bellcrank.fastening.strike import Grip, Likely
from bellcrank.units import convert

from .drawn import bars, bold, inked, paths, read_svg, refuse_a_muddle, told
from .others import OTHERS, SHARP_STRIKE, SOFT_STRIKE, struck

MIDDLE = 116


def angles(figure):
    """Give from where to where the ink goes round, clockwise from the top. [°]"""
    ((*band, _),) = paths(figure, "drawn-governs")
    down = (max(y for _, y in paths(figure, "drawn-line")[0]) + min(y for _, y in paths(figure, "drawn-line")[0])) / 2
    return [math.degrees(math.atan2(x - MIDDLE, down - y)) % 360 for x, y in band]


@pytest.mark.parametrize(("low", "high"), [(8, 150), (28, 32), (100, 200)])
def test_the_ink_goes_from_the_least_to_the_most_ahead_in_the_sense_of_rotation(low, high):
    turned = angles(struck(low, high))
    assert min(turned) == pytest.approx(low, abs=0.3)
    assert max(turned) == pytest.approx(high, abs=0.3)


def test_an_angle_of_more_than_a_turn_is_drawn_where_it_ends_up_and_said_to_be_more():
    assert angles(OTHERS["strike, 500°"]) == pytest.approx([140] * len(angles(OTHERS["strike, 500°"])), abs=3)
    assert told(OTHERS["strike, 500°"])[0] == "The flywheel slipped more than a turn ahead: 500°"
    assert bold(OTHERS["strike, 500°"]) == "Flywheel 500° ahead: more than a turn"


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (8, 150, "8° to 150°"),
        (0, 30, "up to 30°"),
        (30, 30, "30°"),
        (0, 0.4, "less than 1°"),
        (350, 365, "350° to 365°"),
    ],
)
def test_says_early_in_words(low, high, said):
    assert told(struck(low, high))[0] == f"Spark comes early by {said}"
    assert bold(struck(low, high)) == f"Flywheel {said} ahead: spark early"
    assert f"by {said}, in the sense of rotation, so that the spark comes early" in told(struck(low, high))[1]


@pytest.mark.parametrize(("low", "high"), [(100, 600), (0, 360), (20, 295)])
def test_a_very_wide_range_is_the_whole_circle_and_said_to_be_anywhere(low, high):
    turned = angles(struck(low, high))
    assert {int(one // 30) for one in turned} == set(range(12))
    assert told(struck(low, high))[0].endswith("the spark may come anywhere")
    assert bold(struck(low, high)).endswith("ahead: anywhere")


def test_where_nothing_moved_the_seat_that_holds_is_inked_and_named():
    assert len(inked(OTHERS["strike, the taper holds"])) == 1
    assert told(OTHERS["strike, the taper holds"])[0].startswith("The taper holds")
    assert bold(OTHERS["strike, the taper holds"]) == "Holds: the taper"
    assert bold(OTHERS["strike, the key holds"]) == "Holds: taper and key"
    assert "early" not in " ".join(told(OTHERS["strike, the key holds"]))


@pytest.mark.parametrize(
    ("gone", "first", "said"),
    [
        (Likely.NO, (GivesWay.SHEAR,), ""),
        (Likely.PERHAPS, (GivesWay.SHEAR,), "key perhaps sheared"),
        (Likely.YES, (GivesWay.SHEAR,), "key sheared"),
        (Likely.YES, (GivesWay.SHEAR, GivesWay.CRUSH), "key gone"),
        (Likely.PERHAPS, (GivesWay.SHEAR, GivesWay.KEYWAY), "key or hub's perhaps broken"),
        (Likely.YES, (GivesWay.KEYWAY,), "hub's broken"),
    ],
)
def test_says_what_has_given_way(gone, first, said):
    figure = struck(0, 30, key_gives_way=gone, first=first)
    words = " ".join(one.text for one in read_svg(figure).iter() if one.text)
    assert said in words
    assert bool(said) is any(one in words for one in ("sheared", "gone", "broken"))
    refuse_a_muddle(figure)


def test_the_bars_are_in_one_scale():
    stop, grip, half = bars(OTHERS["strike, sharp"])
    scale = (stop.right - stop.left) / SHARP_STRIKE.mean_torque
    for bar, torques in ((grip, SHARP_STRIKE.grip), (half, SHARP_STRIKE.half_nut_grip)):
        assert bar.left - stop.left == pytest.approx(scale * torques.low, abs=0.2)
        assert bar.right - stop.left == pytest.approx(scale * torques.high, abs=0.2)
    marks = [line[0][0] for line in paths(OTHERS["strike, sharp"], "drawn-mark")]
    assert marks[1:] == pytest.approx([stop.right] * 2, abs=0.2)


@pytest.mark.parametrize(("strike", "name"), [(SHARP_STRIKE, "sharp"), (SOFT_STRIKE, "the taper holds")])
def test_the_text_twin_says_the_torques_in_both_systems(strike, name):
    _, twin = told(OTHERS[f"strike, {name}"])
    for torque in (strike.mean_torque, strike.grip.low, strike.grip.high, strike.half_nut_grip.low):
        assert f"{torque:.0f} N·m ({convert(torque, 'ft·lb', 'torque'):.0f} ft·lb)" in twin


@settings(max_examples=60, deadline=None)
@given(
    st.floats(0, 1000),
    st.floats(0, 1000),
    st.floats(0.1, 1e5),
    st.floats(0.1, 1e4),
    st.floats(1, 10),
    st.sampled_from(list(Likely)),
    st.sampled_from(["N·m", "in·lb"]),
)
def test_nothing_lies_over_anything(low, wide, stop, grip, times, likely, unit):
    whole, half = Grip(grip, times * grip), Grip(grip / 2, times * grip / 2)
    torques = {"mean_torque": stop, "grip": whole, "half_nut_grip": half}
    refuse_a_muddle(struck(low, low + wide, unit, key_gives_way=likely, taper_holds=likely, **torques))
