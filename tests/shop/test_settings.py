from decimal import Decimal

import pytest

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.shop.settings import Settings, read_settings, write_settings


def test_a_new_shop_has_usual_settings(shop):
    settings = read_settings(shop)
    assert settings == Settings()
    assert (settings.currency, settings.labour_rate, settings.torque_unit) == ("EUR", Decimal("54.00"), "N·m")


def test_what_is_written_is_read_again_and_the_rest_stays(shop):
    write_settings(shop, {"shop_name": "Σκάφος & Sons", "labour_rate": "61,50"})
    settings = read_settings(shop)
    assert (settings.shop_name, settings.labour_rate) == ("Σκάφος & Sons", Decimal("61.50"))
    assert settings.paper == "a4"


def test_a_currency_is_written_in_capitals(shop):
    assert write_settings(shop, {"currency": " usd "}).currency == "USD"


def test_an_unknown_field_changes_nothing(shop):
    assert write_settings(shop, {"colour": "red", "_csrf": "x"}) == Settings()


@pytest.mark.parametrize(
    ("field", "typed", "error"),
    [
        ("currency", "EURO", NotUnderstood),
        ("currency", "12€", NotUnderstood),
        ("labour_rate", "-1", OutOfRange),
        ("labour_rate", "lots", NotUnderstood),
        ("parts_tax", "101", OutOfRange),
        ("torque_unit", "Nm per sec", NotUnderstood),
        ("paper", "napkin", NotUnderstood),
        ("shop_name", "x" * 5000, OutOfRange),
        ("address", "\ud800", NotUnderstood),
    ],
)
def test_refuses_a_setting_that_cannot_be_at_its_field(shop, field, typed, error):
    with pytest.raises(error) as refusal:
        write_settings(shop, {field: typed, "phone": "555"})
    assert refusal.value.field == field
    assert read_settings(shop) == Settings()
