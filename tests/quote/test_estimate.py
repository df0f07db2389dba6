"""The range of a job: a mixture of triangles, checked by hand and by drawing from it."""

from decimal import Decimal

import numpy as np
import pytest

from bellcrank.errors import OutOfRange
from bellcrank.quote.estimate import Rates, RepairChance, estimate

D = Decimal

RATES = Rates(D(60), D(0), D(0))  # one a minute


def repair(chance, minutes, parts="0", access=0.0):
    return RepairChance("it", chance, minutes, access, D(parts))


def test_one_sure_repair_has_no_range():
    # 30 min at 1.00 a minute and a part of 10.00: 40.00 whichever way.
    found = estimate([repair(1.0, (30, 30, 30), "10")], RATES)
    assert (found.low, found.expected, found.high) == (D("40.00"), D("40.00"), D("40.00"))


def test_tax_and_what_was_spent_come_on_top():
    # (20 min x 1.00) x 1.10 + 10.00 x 1.20 + 5.00 spent = 22 + 12 + 5.
    found = estimate([repair(1.0, (20, 20, 20), "10")], Rates(D(60), D(10), D(20)), spent=D(5))
    assert found.expected == D("39.00")


def test_a_triangle_by_its_own_formula():
    # Triangle 0, 10, 20: mean 10, tenth at sqrt(.1 * 20 * 10) = 4.472, nine tenths at 20 - 4.472.
    found = estimate([repair(1.0, (0, 10, 20))], RATES)
    assert float(found.low) == pytest.approx(4.47, abs=0.01)
    assert float(found.high) == pytest.approx(15.53, abs=0.01)
    assert found.expected == D("10.00")


def test_agrees_with_drawing_from_the_mixture():
    # Second route: numpy's own triangular generator.
    repairs = [repair(0.5, (10, 20, 50), "5"), repair(0.3, (60, 90, 200), "40", access=15), repair(0.1, (5, 5, 5))]
    rng = np.random.default_rng(5)
    which = rng.choice(3, 400_000, p=np.array([0.5, 0.3, 0.1]) / 0.9)
    low, top, high, fixed = (np.array(x)[which] for x in ([10, 75, 5], [20, 105, 5], [50, 215, 5], [5, 40, 0]))
    drawn = np.where(low == high, low, rng.triangular(low, top, high + (low == high))) + fixed
    found = estimate(repairs, RATES, limit=D(60))
    assert float(found.expected) == pytest.approx(drawn.mean(), rel=0.01)
    assert float(found.high) == pytest.approx(np.quantile(drawn, 0.9), rel=0.01)
    assert found.chance_over == pytest.approx((drawn > 60).mean(), abs=0.005)


@pytest.mark.parametrize("minutes", [(30, 20, 40), (-1, 2, 3)])
def test_minutes_that_do_not_rise_are_refused(minutes):
    with pytest.raises(OutOfRange, match="must rise"):
        estimate([repair(0.5, minutes)], RATES)


def test_nothing_likely_has_no_price():
    with pytest.raises(OutOfRange, match="Do the next check first"):
        estimate([], RATES)
