"""Minutes as money and money as minutes, at what this shop takes for an hour.

The planner counts in minutes and expects in floats; money becomes Decimal here, rounded once.
"""

from decimal import Decimal

from bellcrank.quote.estimate import MINUTES_IN_AN_HOUR, Rates
from bellcrank.quote.price import HUNDRED, rounded


def minutes_per_price(rates: Rates) -> float | None:
    """Give the work that one unit of parts money is worth, both with their tax; None when labour is free. [min]

    >>> minutes_per_price(Rates(Decimal(60), Decimal(0), Decimal(0)))
    1.0
    """
    return work_worth(1 + rates.parts_tax_percent / HUNDRED, rates)


def work_worth(amount: Decimal, rates: Rates) -> float | None:
    """Give the work an amount pays for, tax included; None when labour is free. [min]

    >>> work_worth(Decimal(90), Rates(Decimal(60), Decimal(0), Decimal(0)))
    90.0
    """
    an_hour = rates.labour_per_hour * (1 + rates.labour_tax_percent / HUNDRED)
    return float(amount * MINUTES_IN_AN_HOUR / an_hour) if an_hour else None


def money_expected(work_minutes: float, parts: float, rates: Rates, places: int = 2) -> Decimal:
    """Give what expected minutes and parts (before tax) come to, tax included, to the coin.

    >>> money_expected(30.0, 12.5, Rates(Decimal(60), Decimal(0), Decimal(20)))
    Decimal('45.00')
    """
    labour = Decimal(repr(work_minutes)) / MINUTES_IN_AN_HOUR * rates.labour_per_hour
    return rounded(
        labour * (1 + rates.labour_tax_percent / HUNDRED)
        + Decimal(repr(parts)) * (1 + rates.parts_tax_percent / HUNDRED),
        places,
    )
