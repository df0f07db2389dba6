"""Reading tapers and what hubs are made of."""

import pytest

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.shop.tapers import drive_material_named, taper_from_words

TYPED = {"ratio": "1:8", "mean_diameter": "7/8 in", "length": "25"}


def test_lengths_come_in_either_system_and_are_millimetres_without_a_unit():
    taper = taper_from_words(TYPED)
    assert (taper.ratio, taper.mean_diameter, taper.length) == pytest.approx((0.125, 0.022225, 0.025))


@pytest.mark.parametrize(
    ("wrong", "error"),
    [({"ratio": ""}, NotUnderstood), ({"ratio": "1:1"}, OutOfRange), ({"mean_diameter": "-1"}, OutOfRange),
     ({"length": "500"}, OutOfRange), ({"length": ""}, NotUnderstood)],
)  # fmt: skip
def test_refuses_what_is_no_taper(wrong, error):
    with pytest.raises(error):
        taper_from_words({**TYPED, **wrong})


def test_a_hub_is_known_by_its_words(shop):
    assert drive_material_named(shop.library, " Grey cast iron", "hub").key == "grey-iron"
    with pytest.raises(NotFound, match="It must be one of"):
        drive_material_named(shop.library, "wood", "hub")
