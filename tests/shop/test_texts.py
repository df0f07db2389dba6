from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import BellcrankError, NotUnderstood, OutOfRange
from bellcrank.shop.texts import amount, clean, clean_line


def test_a_letter_typed_in_two_pieces_is_kept_as_one():
    assert clean("Jose\u0301", "The name") == "José"


@pytest.mark.parametrize("name", ["Wałęsa", "王小明", "Ωmega Marine", "O'Brien & Söhne", "עברית"])
def test_names_of_the_world_stay_as_they_are(name):
    assert clean(name, "The name") == name


@pytest.mark.parametrize("dirt", ["\x00", "\x1b", "\x7f", "\x85", "\u202e", "\u2066"])
def test_what_cannot_be_seen_is_left_out(dirt):
    assert clean(f"{dirt}Quay{dirt} Street{dirt}", "The address") == "Quay Street"


def test_a_phone_number_copied_from_a_phone_loses_its_wrapping():
    assert clean("\u202a+44 7700 900123\u202c", "The phone number") == "+44 7700 900123"


def test_refuses_half_a_letter():
    with pytest.raises(NotUnderstood, match="half a letter") as refusal:
        clean("caf\ud800", "The name", field="name")
    assert refusal.value.field == "name"


def test_refuses_a_text_that_is_too_long_and_says_by_how_much():
    with pytest.raises(OutOfRange, match=r"The name has 201 letters; it must be 200 at most"):
        clean("x" * 201, "The name")


def test_a_story_keeps_its_lines():
    assert clean("hit a ring\r\nthrows the cord back", "The complaint") == "hit a ring\nthrows the cord back"


def test_a_name_stands_on_one_line():
    assert clean_line("Ola\nNordmann\t2", "The name") == "Ola Nordmann 2"


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("120", "120"),
        ("120.50", "120.50"),
        ("120,5", "120.5"),
        ("1 200", "1200"),
        ("1’200.50", "1200.50"),
        ("1\u202f200,50", "1200.50"),
        (".5", "0.5"),
        ("0.125", "0.125"),
        (" 7 ", "7"),
    ],
)
def test_reads_amounts_as_people_type_them(typed, read):
    assert amount(typed, "The price") == Decimal(read)


@pytest.mark.parametrize("typed", ["", "a lot", "12 coins", "1e5", "1_000", "NaN", "Infinity", "1.2.3", "٣", "."])
def test_refuses_what_is_no_amount_and_says_how_to_write_it(typed):
    with pytest.raises(NotUnderstood, match=r"Write it like 120 or 120\.50"):
        amount(typed, "The price")


@pytest.mark.parametrize("typed", ["1.200", "12,500"])
def test_refuses_an_amount_that_means_two_things(typed):
    with pytest.raises(NotUnderstood, match="may mean"):
        amount(typed, "The price")


@pytest.mark.parametrize("typed", ["-1", "−0.50", "- 3"])
def test_refuses_negative_money(typed):
    with pytest.raises(OutOfRange, match="must be zero or more"):
        amount(typed, "The price")


def test_refuses_an_amount_no_repair_costs():
    with pytest.raises(OutOfRange, match="that cannot be"):
        amount("9" * 40, "The price")


@given(st.text())
def test_every_text_is_kept_clean_or_refused_in_words(text):
    try:
        kept = clean(text, "The name", longest=50)
    except BellcrankError:
        return
    assert kept == clean(kept, "The name", longest=50)


@given(st.text(st.characters(codec="utf-8"), max_size=12))
def test_every_text_is_an_amount_or_refused_in_words(text):
    try:
        value = amount(text, "The price")
    except BellcrankError:
        return
    assert 0 <= value <= 10**7


def test_a_currency_or_per_cent_typed_behind_an_amount_does_no_harm():
    assert amount("80 EUR", "What may be spent") == amount("80", "What may be spent")
    assert amount("19,5 %", "Tax") == amount("19.5", "Tax")
