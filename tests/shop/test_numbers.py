import pytest

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.numbers import joint_from_words, material_named


def test_a_thread_alone_is_enough(shop):
    joint = joint_from_words(shop.library, {"thread": "M6"})
    assert (joint.strength.key, joint.into.key, joint.engaged) == ("8.8", "cast-aluminium", None)


def test_a_nut_is_no_tapped_hole(shop):
    joint = joint_from_words(shop.library, {"thread": "3/8-16", "into": "nut"})
    assert (joint.into, joint.under_head.key) == (None, "mild-steel")


def test_an_engaged_length_is_in_millimetres_when_no_unit_is_typed(shop):
    assert joint_from_words(shop.library, {"thread": "M6", "engaged": "12"}).engaged == pytest.approx(0.012)


def test_a_material_is_known_by_its_words(shop):
    assert material_named(shop.library, " Die-Cast Aluminium ", "into").key == "cast-aluminium"


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ({}, NotUnderstood),
        ({"thread": "M6.3x9"}, NotUnderstood),
        ({"thread": "M6", "strength": "99"}, NotFound),
        ({"thread": "M6", "into": "cheese"}, NotFound),
        ({"thread": "M6", "engaged": "-3"}, OutOfRange),
        ({"thread": "M6", "friction": "slippery"}, NotUnderstood),
        ({"thread": "M6", "friction": "7"}, OutOfRange),
    ],
)
def test_refuses_a_joint_that_cannot_be(shop, typed, error):
    with pytest.raises(error):
        joint_from_words(shop.library, typed)
