"""Line totals, tax by rate and the sum, worked by hand."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bellcrank.errors import OutOfRange
from bellcrank.quote.price import Line, passes_limit, price

D = Decimal


def test_a_bill_worked_by_hand():
    # 0.75 h at 54.00 = 40.50; 3 keys at 2.35 = 7.05; one plug at 4.99. Tax 19 % of 52.54 = 9.9826, rounds to 9.98.
    lines = [
        Line("labour", D("0.75"), D("54.00"), D(19)),
        Line("key", D(3), D("2.35"), D(19)),
        Line("plug", D(1), D("4.99"), D(19)),
    ]
    bill = price(lines)
    assert bill.net == D("52.54")
    assert [tax.tax for tax in bill.taxes] == [D("9.98")]
    assert bill.total == D("62.52")


def test_each_rate_is_taxed_on_its_own_sum():
    # 10.00 at 7 % = 0.70; 20.00 at 19 % = 3.80; nothing on 5.00 at 0 %.
    lines = [Line("a", D(1), D(10), D(7)), Line("b", D(1), D(20), D(19)), Line("c", D(1), D(5), D(0))]
    bill = price(lines)
    assert {tax.percent: tax.tax for tax in bill.taxes} == {D(7): D("0.70"), D(19): D("3.80"), D(0): D("0.00")}
    assert bill.total == D("39.50")


def test_halves_go_up():
    assert price([Line("a", D("0.5"), D("0.01"), D(0))]).total == D("0.01")


def test_a_currency_without_cents():
    assert price([Line("a", D(3), D("333.4"), D(10))], places=0).total == D(1100)


@given(st.lists(st.decimals("0.01", "9999", places=2), min_size=1, max_size=8), st.integers(0, 30))
def test_what_is_printed_adds_up(prices, percent):
    bill = price([Line("x", D(1), one, D(percent)) for one in prices])
    assert bill.total == bill.net + sum(tax.tax for tax in bill.taxes)
    assert bill.net == sum(line.net for line in bill.lines)


@pytest.mark.parametrize(
    ("line", "match"),
    [
        (Line("x", D(0), D(1), D(0)), "above zero"),
        (Line("x", D(1), D(1), D(101)), "between 0 and 100"),
        (Line("x", D(1), D("NaN"), D(0)), "must be a number"),
    ],
)
def test_a_line_that_cannot_be_is_refused(line, match):
    with pytest.raises(OutOfRange, match=match):
        price([line])


def test_nothing_agreed_limits_nothing():
    assert not passes_limit(D(500), None)
    assert passes_limit(D("100.01"), D(100))
    assert not passes_limit(D(100), D(100))
