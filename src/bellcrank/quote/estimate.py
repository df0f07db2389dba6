"""What a job may come to before the cause is certain: a range, not a number.

It is not known yet which repair it will be, nor how long that takes. Each repair weighs as much as its chance; its
minutes lie in a triangle from low over typical to high. Labour is minutes times rate, so the price of one repair is a
triangle too, and the price of the job is a mixture of triangles. All is worked out directly, nothing drawn at random.

Chances that add up to more than one (two causes may sit in one machine) are scaled to one: the range is that of the
next repair, not of a machine with everything wrong. Chances that add up to less leave the rest out.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from bellcrank.errors import OutOfRange
from bellcrank.quote.price import HUNDRED, rounded

LOW_SHARE = 0.10  # [-] one job in ten comes out below "low"; common practice, no source
MIDDLE_SHARE = 0.50
HIGH_SHARE = 0.90  # [-] one job in ten passes "high"; common practice, no source
HALVINGS = 80  # [-] halvings of the bracket: far below one coin for any price
MINUTES_IN_AN_HOUR = 60


@dataclass(frozen=True, slots=True)
class RepairChance:
    """A repair that may be the one, with its chance, minutes and parts."""

    words: str
    chance: float  # that this is the repair it takes [-]
    minutes: tuple[float, float, float]  # low, typical, high; hands-on [min]
    access_minutes: float  # to open and close what is in the way [min]
    parts: Decimal  # before tax


@dataclass(frozen=True, slots=True)
class Rates:
    """What the shop takes for an hour, and the tax on labour and on parts."""

    labour_per_hour: Decimal  # before tax
    labour_tax_percent: Decimal
    parts_tax_percent: Decimal


@dataclass(frozen=True, slots=True)
class Estimate:
    """The range of the whole job, tax included."""

    low: Decimal  # one job in ten comes out below
    middle: Decimal  # as many come out below as above
    expected: Decimal
    high: Decimal  # one job in ten passes it
    chance_over: float | None  # that it passes the agreed limit; None when nothing was agreed [-]


@dataclass(frozen=True, slots=True)
class _Triangle:
    """A triangle over low, typical and high, with the weight it has in the mixture."""

    weight: float
    low: float
    typical: float
    high: float


def estimate(
    repairs: Sequence[RepairChance],
    rates: Rates,
    *,
    spent: Decimal = Decimal(0),
    looking_minutes: float = 0.0,
    limit: Decimal | None = None,
    places: int = 2,
) -> Estimate:
    """Estimate the job from its likely repairs, on top of what is ``spent`` (tax included) and what looking will take.

    >>> one = RepairChance("new key", 1.0, (30.0, 30.0, 30.0), 0.0, Decimal("10"))
    >>> estimate([one], Rates(Decimal(80), Decimal(0), Decimal(0))).expected
    Decimal('50.00')
    """
    _refuse(repairs, looking_minutes)
    total = sum(repair.chance for repair in repairs)
    minutes = [_minutes(repair, repair.chance / total, looking_minutes) for repair in repairs]
    money = [_money(time, repair.parts, rates, spent) for time, repair in zip(minutes, repairs, strict=True)]
    return Estimate(
        low=_coins(_quantile(money, LOW_SHARE), places),
        middle=_coins(_quantile(money, MIDDLE_SHARE), places),
        expected=_coins(_mean(money), places),
        high=_coins(_quantile(money, HIGH_SHARE), places),
        chance_over=None if limit is None else _chance_over(money, limit, places),
    )


def chances_over(
    repairs: Sequence[RepairChance], rates: Rates, limit: Decimal, *, spent: Decimal = Decimal(0), places: int = 2
) -> tuple[float, ...]:
    """Give the chance that the job passes a limit, tax included, for each repair, if that is the one it takes.

    >>> half_an_hour = RepairChance("new key", 1.0, (30.0, 30.0, 30.0), 0.0, Decimal("10"))
    >>> rates = Rates(Decimal(80), Decimal(0), Decimal(0))
    >>> chances_over([half_an_hour], rates, Decimal(50)), chances_over([half_an_hour], rates, Decimal(49))
    ((0.0,), (1.0,))
    """
    money = (_money(_minutes(repair, 1.0, 0.0), repair.parts, rates, spent) for repair in repairs)
    return tuple(_chance_over([one], limit, places) for one in money)


def _minutes(repair: RepairChance, weight: float, looking: float) -> _Triangle:
    before = repair.access_minutes + looking
    low, typical, high = repair.minutes
    return _Triangle(weight=weight, low=before + low, typical=before + typical, high=before + high)


def _money(time: _Triangle, parts: Decimal, rates: Rates, spent: Decimal) -> _Triangle:
    per_minute = float(rates.labour_per_hour * (1 + rates.labour_tax_percent / HUNDRED)) / MINUTES_IN_AN_HOUR
    fixed = float(spent + parts * (1 + rates.parts_tax_percent / HUNDRED))
    return _Triangle(
        weight=time.weight,
        low=fixed + per_minute * time.low,
        typical=fixed + per_minute * time.typical,
        high=fixed + per_minute * time.high,
    )


def _mean(mixture: Sequence[_Triangle]) -> float:
    return sum(one.weight * (one.low + one.typical + one.high) / 3 for one in mixture)


def _share_up_to(mixture: Sequence[_Triangle], value: float) -> float:
    return min(1.0, sum(one.weight * _share_of_one(one, value) for one in mixture))


def _chance_over(money: Sequence[_Triangle], limit: Decimal, places: int) -> float:
    half_a_coin = Decimal(5).scaleb(-places - 1)  # a price that rounds to the limit does not pass it
    return 1.0 - _share_up_to(money, float(limit + half_a_coin))


def _share_of_one(one: _Triangle, value: float) -> float:
    """Share of a triangle up to a value: (x-a)²/((c-a)(b-a)) left of its top, 1-(b-x)²/((b-a)(b-c)) right of it."""
    low, top, high = one.low, one.typical, one.high
    if value >= high:
        return 1.0
    if value < low:
        return 0.0
    if value < top:
        return (value - low) ** 2 / ((high - low) * (top - low))
    return 1.0 - (high - value) ** 2 / ((high - low) * (high - top))


def _quantile(mixture: Sequence[_Triangle], share: float) -> float:
    low, high = min(one.low for one in mixture), max(one.high for one in mixture)
    if _share_up_to(mixture, low) >= share:
        return low
    for _ in range(HALVINGS):  # the share jumps where a repair has fixed minutes: halve, do not follow the slope
        middle = (low + high) / 2
        if _share_up_to(mixture, middle) >= share:
            high = middle
        else:
            low = middle
    return high


def _coins(amount: float, places: int) -> Decimal:
    return rounded(Decimal(repr(amount)), places)


def _refuse(repairs: Sequence[RepairChance], looking_minutes: float) -> None:
    if not repairs or sum(repair.chance for repair in repairs) <= 0:
        raise OutOfRange("There is no likely repair to price yet. Do the next check first.")
    if not (math.isfinite(looking_minutes) and looking_minutes >= 0):
        raise OutOfRange(f"Minutes for looking are {looking_minutes}; they must be zero or more. Type them again.")
    for repair in repairs:
        _refuse_one(repair)


def _refuse_one(repair: RepairChance) -> None:
    low, typical, high = repair.minutes
    if not 0 <= repair.chance <= 1:
        raise OutOfRange(f"Chance of “{repair.words}” is {repair.chance}; it must lie between 0 and 1.")
    if not (0 <= low <= typical <= high < math.inf and 0 <= repair.access_minutes < math.inf):
        raise OutOfRange(
            f"Minutes of “{repair.words}” are {low}, {typical}, {high} and {repair.access_minutes} to get there; "
            "they must rise from low over typical to high and not be below zero. Mend the repair's minutes."
        )
    if not (repair.parts.is_finite() and repair.parts >= 0):
        raise OutOfRange(f"Parts of “{repair.words}” cost {repair.parts}; that must be zero or more. Type the price.")
