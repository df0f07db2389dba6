"""The shop's own settings: what stands on papers, what an hour costs, which units it thinks in."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields, replace
from decimal import Decimal

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.shop.premises import Shop
from bellcrank.shop.storage.things import read_setting_rows, write_setting_rows
from bellcrank.shop.texts import LONG, amount, clean, clean_line

CHOICES = {
    "torque_unit": ("N·m", "ft·lb", "in·lb"),
    "length_unit": ("mm", "in"),
    "paper": ("a4", "letter"),
}
AMOUNTS = {"labour_rate": "Labour an hour", "parts_tax": "Tax on parts", "labour_tax": "Tax on labour"}
CURRENCY_LETTERS = 3  # ISO 4217


@dataclass(frozen=True, slots=True)
class Settings:
    """How this shop works."""

    shop_name: str = "Your shop"
    address: str = ""
    phone: str = ""
    mechanic: str = ""
    currency: str = "EUR"
    labour_rate: Decimal = Decimal("54.00")  # an hour, before tax
    parts_tax: Decimal = Decimal(0)  # [%]
    labour_tax: Decimal = Decimal(0)  # [%]
    torque_unit: str = "N·m"
    length_unit: str = "mm"
    paper: str = "a4"


def read_settings(shop: Shop) -> Settings:
    """Read the settings; what was never set stands at its usual value."""
    with shop.storage.reading() as connection:
        return settings_from(read_setting_rows(connection))


def settings_from(rows: Mapping[str, str]) -> Settings:
    """Give settings from their rows."""
    known = {field.name for field in fields(Settings)}
    values = {key: Decimal(value) if key in AMOUNTS else value for key, value in rows.items() if key in known}
    return replace(Settings(), **values)  # type: ignore[arg-type]


def write_settings(shop: Shop, typed: Mapping[str, str]) -> Settings:
    """Check what was typed and keep it; what was not typed stays as it is."""
    checked = {name: _checked(name, text) for name, text in typed.items() if name in asdict(Settings())}
    if checked:
        with shop.storage.writing() as connection:
            write_setting_rows(connection, checked)
    return read_settings(shop)


def _checked(name: str, text: str) -> str:
    if name in CHOICES:
        if text not in CHOICES[name]:
            choice = ", ".join(CHOICES[name])
            raise NotUnderstood(f"“{text}” cannot be chosen here. It must be one of {choice}.", name)
        return text
    if name in AMOUNTS:
        value = amount(text or "0", AMOUNTS[name], field=name)
        if name.endswith("_tax") and value > 100:
            raise OutOfRange(f"{AMOUNTS[name]} is {text} %; it must be 100 at most. Type the per cent.", name)
        return str(value)
    if name == "currency":
        code = text.strip().upper()
        if len(code) != CURRENCY_LETTERS or not code.isascii() or not code.isalpha():
            raise NotUnderstood(f"Currency is “{text}”; it must be a code of three letters, like EUR or USD.", name)
        return code
    what = f"The {name.replace('_', ' ')}"
    return clean(text, what, longest=LONG, field=name) if name == "address" else clean_line(text, what, field=name)
