"""A key between shaft and hub."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bellcrank.fastening.keys import LEAST_SHAFT, key_capacity
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
    ("bearing", "first", "limit"),
    [
        (180.0, "The key shears first, at 143 N·m", "Limit: the key's shear"),
        (120.0, "The keyway breaks first, at 120 N·m", "Limit: side of the keyway"),
    ],
)
def test_what_gives_way_at_the_least_torque_is_inked_named_and_stated(bearing, first, limit):
    figure = keyed(bearing=bearing)
    assert told(figure)[0] == first
    assert bold(figure) == limit
    assert [one.get("class") for one in inked(figure)] == ["drawn-governs"]


def test_the_ink_lies_across_the_key_where_it_shears_and_along_its_side_where_the_keyway_breaks():
    (across, thick), (narrow, high) = (
        width_and_height(paths(figure, "drawn-governs")[0]) for figure in (keyed(), keyed(bearing=120.0))
    )
    assert across > 2 * thick
    assert high > 1.5 * narrow


def test_the_text_twin_says_sizes_and_both_torques_in_both_systems():
    _, twin = told(keyed())
    assert "5.00 mm wide, on a 20.0 mm shaft" in twin
    for torque in (143.0, 180.0):
        assert f"{torque:.0f} N·m ({convert(torque, 'ft·lb', 'torque'):.0f} ft·lb)" in twin


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
