from decimal import Decimal

import pytest

from bellcrank.quote.estimate import Rates, RepairChance, chances_over, estimate
from bellcrank.quote.worth import minutes_per_price, money_expected, work_worth

D = Decimal

TAXED = Rates(labour_per_hour=D(54), labour_tax_percent=D(20), parts_tax_percent=D(10))


def test_parts_are_worth_the_minutes_the_shop_works_for_them_tax_and_all():
    # By hand: a coin of parts costs 1.10; a minute costs 54 * 1.2 / 60 = 1.08.
    assert minutes_per_price(TAXED) == pytest.approx(1.10 / 1.08)


def test_an_amount_as_work():
    assert work_worth(D("108"), TAXED) == pytest.approx(100.0)


def test_where_labour_is_free_minutes_say_nothing_about_money():
    free = Rates(D(0), D(20), D(10))
    assert (minutes_per_price(free), work_worth(D(100), free)) == (None, None)


def test_expected_money_is_work_and_parts_each_with_its_tax_rounded_once():
    # By hand: 10 min at 54 = 9.00, with tax 10.80; parts 5.05, with tax 5.555: 16.355, a half goes up.
    assert money_expected(10.0, 5.05, TAXED) == D("16.36")
    assert money_expected(10.0, 5.05, TAXED, places=0) == D("16")


def test_the_chance_to_pass_a_limit_is_the_part_of_the_triangle_above_it():
    # A triangle over 20, 30, 40 min, 1.08 a minute with tax: half of it lies above 30 * 1.08 = 32.40.
    one = RepairChance("it", 0.2, (20.0, 30.0, 40.0), 0.0, D(0))
    sure = RepairChance("that", 0.8, (60.0, 60.0, 60.0), 0.0, D(10))
    low, high = chances_over([one, sure], TAXED, D("32.40"))
    assert low == pytest.approx(0.5, abs=0.01)
    assert high == 1.0
    assert chances_over([one], TAXED, D("32.40"), spent=D("20"))[0] == 1.0


def test_half_of_such_jobs_come_out_below_the_middle():
    # Two repairs, as likely: 10 min or 50 min to 70 min; the middle lies where the first ends and the second begins.
    pair = [RepairChance("a", 0.4, (10.0,) * 3, 0.0, D(0)), RepairChance("b", 0.6, (50.0, 60.0, 70.0), 0.0, D(0))]
    found = estimate(pair, Rates(D(60), D(0), D(0)))
    # Of the second's six tenths one tenth is below: (x - 50)² / 200 = 1/6, x = 55.77.
    assert float(found.middle) == pytest.approx(55.77, abs=0.01)
