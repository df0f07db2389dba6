"""Woodruff and parallel keys."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import NotFound, OutOfRange
from bellcrank.fastening.drive_materials import DriveMaterial
from bellcrank.fastening.key_joint import key_capacity
from bellcrank.fastening.keys import FittedKey, SizeUnit, chord, find_parallel, find_woodruff
from bellcrank.knowledge.pack import read_library
from bellcrank.units import read, to_si

LIBRARY = read_library()
WOODRUFF, PARALLEL, MATERIALS = LIBRARY.woodruff_keys, LIBRARY.parallel_keys, LIBRARY.drive_materials
STEEL = MATERIALS["key-steel"]
INCH = 0.0254


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("606", "606"),
        ("#606", "606"),
        ("No. 606", "606"),
        ("Woodruff key 606", "606"),
        ("3/16x3/4", "606"),
        ('3/16" × 3/4"', "606"),
        ("1/4 x 1-1/4", "810"),
        ("4x6.5", "4x6.5"),
        ("4 × 6,5 mm", "4x6.5"),
        ("4x6.5x16", "4x6.5"),
    ],
)
def test_finds_a_woodruff_key_as_it_is_written(text, key):
    assert find_woodruff(text, WOODRUFF).key == key


@pytest.mark.parametrize("text", ["", "999", "5x9", "key"])
def test_says_how_to_name_a_woodruff_key_that_is_in_no_table(text):
    with pytest.raises(NotFound, match="such as 606"):
        find_woodruff(text, WOODRUFF)


@pytest.mark.parametrize("key", [one for one in WOODRUFF if one.unit is SizeUnit.INCH], ids=lambda one: one.key)
def test_the_number_of_an_inch_key_tells_its_sizes(key):
    """ANSI B17.2: the last two digits are the disc in eighths, those before them the width in thirty-seconds."""
    assert key.width == pytest.approx(int(key.key[:-2]) / 32 * INCH)
    assert key.disc_diameter == pytest.approx(int(key.key[-2:]) / 8 * INCH)


@pytest.mark.parametrize("key", WOODRUFF, ids=lambda one: one.key)
def test_a_woodruff_key_fits_its_seats(key):
    standing_proud = key.height - key.shaft_seat
    assert 0 < standing_proud < key.hub_seat < key.height < key.disc_diameter / 2
    assert chord(key.disc_diameter, key.shaft_seat) < key.length < key.disc_diameter


@pytest.mark.parametrize("key", [one for one in WOODRUFF if one.unit is SizeUnit.INCH], ids=lambda one: one.key)
def test_half_an_inch_keys_width_stands_proud_less_five_thou(key):
    """The differences in the printed table, which rounds heights to a thou; they also give the seats of No. 605."""
    in_shaft = key.height - key.width / 2 - 0.005 * INCH
    assert key.shaft_seat == pytest.approx(in_shaft, abs=0.0006 * INCH)
    assert key.hub_seat == pytest.approx(key.width / 2 + 0.006 * INCH, abs=0.0002 * INCH)


@pytest.mark.parametrize("shaft", [6, 8, 8.1, 10, 12, 17, 22, 30, 38, 44, 50])
def test_a_metric_shaft_gets_one_key(shaft):
    found = find_parallel(to_si(shaft, "mm", "length"), PARALLEL)
    assert found.width < to_si(shaft, "mm", "length") / 2
    assert found.shaft_seat + found.hub_seat > found.height


def test_an_inch_shaft_measured_in_millimetres_gets_the_same_key():
    inch = find_parallel(read("7/8 in", "length").si, PARALLEL, SizeUnit.INCH)
    assert find_parallel(read("22.225 mm", "length").si, PARALLEL, SizeUnit.INCH) == inch
    assert inch.width == pytest.approx(3 / 16 * INCH)


def test_a_misprint_of_the_keyway_chart_is_not_followed():
    """The chart prints “13/16 to 1-1/4” for the 1/4 in key, over its own “5/8 to 7/8” for 3/16; it must be 15/16."""
    assert find_parallel(13 / 16 * INCH, PARALLEL, SizeUnit.INCH).width == pytest.approx(3 / 16 * INCH)


@pytest.mark.parametrize(("shaft", "unit"), [(size, unit) for size in (0.003, 0.090) for unit in SizeUnit])
def test_refuses_a_shaft_that_is_in_no_table_with_what_the_table_covers(shaft, unit):
    with pytest.raises(OutOfRange, match="our table of keys goes from"):
        find_parallel(shaft, PARALLEL, unit)


@given(side=st.floats(0.002, 0.02), length=st.floats(0.005, 0.1), shaft=st.floats(0.05, 0.2))
def test_a_square_key_is_as_strong_in_shear_as_on_its_side(side, length, shaft):
    """Mott, equations 11-1 to 11-5: with half the yield strength in shear both ask for the same length."""
    square = FittedKey("square key", side, side * length, side / 2 * length)
    capacity = key_capacity(square, STEEL, shaft, STEEL)
    assert capacity.shear.marked == pytest.approx(capacity.key_side.marked, rel=1e-9)
    needed = 4 * capacity.shear.marked / (shaft * side * STEEL.yield_)
    assert needed == pytest.approx(length, rel=1e-9)


def test_a_square_inch_key_sits_half_in_the_shaft():
    fitted = find_parallel(0.75 * INCH, PARALLEL, SizeUnit.INCH).fitted(INCH)
    assert fitted.hub_side_area == pytest.approx(fitted.shear_area / 2)
    assert fitted.words == "0.1875 in key"


@pytest.mark.parametrize(
    ("material", "torque"), [("zinc-3", 143), ("zinc-5", 175), ("aluminium-6061", 137), ("aluminium-2024", 190)]
)
def test_frozen_a_soft_key_is_not_much_weaker_than_a_steel_one(material, torque):
    """Frozen orientation: key 605, 64.8 mm² in shear, 20.6 mm shaft, worked beside the code."""
    fitted = find_woodruff("605", WOODRUFF).fitted()
    assert fitted.shear_area * 1e6 == pytest.approx(64.8, abs=0.05)
    shear = key_capacity(fitted, MATERIALS[material], 0.0206, MATERIALS["cast-aluminium"]).shear_ultimate
    assert shear == pytest.approx(torque, abs=0.6)
    steel = key_capacity(fitted, STEEL, 0.0206, MATERIALS["cast-aluminium"])
    assert shear > 0.75 * steel.shear_ultimate


@given(scale=st.floats(0.5, 4))
def test_twice_the_disc_has_twice_the_chord(scale):
    assert chord(16.0 * scale, 6.5 * scale) == pytest.approx(scale * chord(16.0, 6.5))


@given(share=st.floats(0.001, 0.5), disc=st.floats(0.004, 0.05))
def test_the_chord_is_the_one_from_the_centre_of_the_disc(share, disc):
    from_centre = disc / 2 - share * disc
    assert chord(disc, share * disc) == pytest.approx(2 * math.sqrt((disc / 2) ** 2 - from_centre**2), rel=1e-6)


def test_arrays_go_through_the_same_formula():
    fitted, shafts = find_woodruff("606", WOODRUFF).fitted(), np.array([0.015, 0.020, 0.025])
    torques = key_capacity(fitted, STEEL, shafts, STEEL).shear_ultimate
    assert torques == pytest.approx([key_capacity(fitted, STEEL, float(d), STEEL).shear_ultimate for d in shafts])
    discs = np.array([13.0, 16.0])
    assert chord(discs, np.array([5.0, 6.5])) == pytest.approx([chord(13.0, 5.0), chord(16.0, 6.5)])


def test_refuses_a_key_wider_than_half_its_shaft():
    with pytest.raises(OutOfRange, match="Shaft diameter over key width"):
        key_capacity(find_woodruff("606", WOODRUFF).fitted(), STEEL, 0.005, STEEL)


def test_refuses_a_material_without_a_shear_strength():
    brass = DriveMaterial("brass", "brass", 400e6, 150e6, None, 100e9, 0.34)
    with pytest.raises(OutOfRange, match="No shear strength is on record for brass"):
        key_capacity(find_woodruff("606", WOODRUFF).fitted(), brass, 0.02, STEEL)


def test_refuses_a_seat_deeper_than_half_the_disc():
    with pytest.raises(OutOfRange, match="less than half a disc"):
        chord(0.016, 0.009)


@pytest.mark.parametrize("length", [0.0, -0.01, float("nan")])
def test_refuses_a_key_without_length(length):
    with pytest.raises(OutOfRange, match="Length of the key"):
        find_parallel(0.02, PARALLEL).fitted(length)
