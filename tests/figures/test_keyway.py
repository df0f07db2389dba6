"""A key between shaft and hub."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.fastening.key_joint import key_capacity
from bellcrank.fastening.keys import LEAST_SHAFT
from bellcrank.figures.keyway import key_figure
from bellcrank.knowledge.pack import read_library
from bellcrank.units import convert

from .drawn import bold, inked, paths, refuse_a_muddle, told
from .others import OTHERS, keyed

LIBRARY = read_library()


def width_and_height(line):
    across, down = [x for x, _ in line], [y for _, y in line]
    return max(across) - min(across), max(down) - min(down)


@pytest.mark.parametrize(
    ("changes", "first", "limit", "faces"),
    [
        ({"bearing": 180.0}, "The key shears first, at 143 to 172 N·m", "Limit: the key's shear", 1),
        ({"bearing": 110.0}, "The keyway breaks first, at 110 to 132 N·m", "Limit: side of the keyway", 1),
        ({"bearing": 150.0}, "Key or keyway gives way first, at 143 to 172 N·m", "Limit: key or keyway", 2),
        ({"bearing": 300.0, "crush": 150.0}, "The key gives way first, at 143 to 172 N·m", "Limit: the key", 2),
    ],
)
def test_what_may_give_way_first_is_inked_named_and_stated(changes, first, limit, faces):
    figure = keyed(**changes)
    assert told(figure)[0] == first
    assert bold(figure) == limit
    assert [one.get("class") for one in inked(figure)] == ["drawn-governs"] * faces


def test_the_ink_lies_across_the_key_where_it_shears_and_along_its_side_where_the_keyway_breaks():
    (across, thick), (narrow, high) = (
        width_and_height(paths(figure, "drawn-governs")[0]) for figure in (keyed(), keyed(bearing=110.0))
    )
    assert across > 2 * thick
    assert high > 1.5 * narrow


def test_the_text_twin_says_sizes_and_both_torques_in_both_systems():
    _, twin = told(keyed())
    assert "5.00 mm wide, on a 20.0 mm shaft" in twin
    for low in (143.0, 180.0):
        metric, feet = (
            f"{low:.0f} to {1.2 * low:.0f} N·m",
            [f"{convert(one, 'ft·lb', 'torque'):.0f}" for one in (low, 1.2 * low)],
        )
        assert f"{metric} ({feet[0]} to {feet[1]} ft·lb)" in twin


def test_key_and_seat_are_to_the_scale_of_the_shaft():
    shaft, _, _, key = paths(keyed(), "drawn-line")
    assert width_and_height(key)[0] / width_and_height(shaft)[0] == pytest.approx(5 / 20, rel=0.02)
    assert width_and_height(key)[1] / width_and_height(key)[0] == pytest.approx(5.1 / 5, rel=0.02)


def test_a_key_too_thin_to_be_seen_is_drawn_close_up_and_said_to_be():
    assert "close up" in told(OTHERS["key, thin"])[1]
    assert "close up" not in told(keyed())[1]


@pytest.mark.parametrize("key", LIBRARY.woodruff_keys, ids=lambda one: one.key)
@pytest.mark.parametrize("times", [LEAST_SHAFT, 4.0, 9.0, 100.0])
def test_every_woodruff_key_of_the_table_can_be_drawn_on_thin_and_thick_shafts(key, times):
    shaft, steel = 1.0001 * times * key.width, LIBRARY.drive_materials["key-steel"]
    shaft = min(shaft, 99.9 * key.width)
    carries = key_capacity(key.fitted(), steel, shaft, steel)
    refuse_a_muddle(key_figure(key.fitted(), shaft, key.shaft_seat, key.hub_seat, carries))


@settings(max_examples=40, deadline=None)
@given(
    st.floats(0.001, 0.02),
    st.floats(1.001 * LEAST_SHAFT, 99.9),
    st.floats(0.2, 1.4),
    st.floats(0.1, 0.6),
    st.floats(0.1, 1e5),
    st.floats(0.1, 1e5),
)
def test_nothing_lies_over_anything(width, times, deep, high, shear, bearing):
    seats = deep * width, 1.1 * high * width
    refuse_a_muddle(keyed(width, times * width, seats, above=high * width, shear=shear, bearing=bearing))
