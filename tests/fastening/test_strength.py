"""Strength classes and materials, and the packs' own tables of them."""

import pytest

from bellcrank.errors import OutOfRange
from bellcrank.fastening.strength import gather_classes, strength_at
from bellcrank.knowledge.pack import read_library

from .joints import CLASS_8_8


@pytest.fixture(scope="module")
def library():
    return read_library()


def test_a_thick_bolt_of_class_8_8_is_a_little_stronger():
    assert strength_at(CLASS_8_8, 0.016).proof == 580e6
    assert strength_at(CLASS_8_8, 0.018).proof == 600e6


def test_refuses_a_class_in_a_size_it_is_not_made_in():
    with pytest.raises(OutOfRange, match=r"class 8\.8 is not defined for a thread of 50\.00 mm"):
        strength_at(CLASS_8_8, 0.050)


def test_rows_with_one_key_make_one_class_rising_in_diameter():
    thin, thick = CLASS_8_8.ranges
    gathered = gather_classes([("8.8", "class 8.8", thick), ("8.8", "class 8.8", thin)])
    assert gathered == {"8.8": CLASS_8_8}


def test_proof_is_below_yield_is_below_tensile_in_every_class(library):
    for strength in library.strength_classes.values():
        for each in strength.ranges:
            assert 0 < each.proof <= each.yield_ < each.tensile


def test_an_unmarked_screw_is_trusted_no_more_than_the_weakest_class(library):
    (unmarked,) = library.strength_classes["unmarked"].ranges
    every = [each for one in library.strength_classes.values() for each in one.ranges]
    assert unmarked.proof == min(each.proof for each in every)


def test_no_material_is_trusted_beyond_its_knock_down(library):
    assert all(0 < material.knock_down <= 1 for material in library.materials.values())


def test_plastic_has_no_strength_to_compute_with(library):
    plastic = library.materials["plastic"]
    assert (plastic.tensile, plastic.shear, plastic.bearing) == (None, None, None)
