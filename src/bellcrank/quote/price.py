"""The price of a job: line totals, tax rate by rate, and the sum.

Rounding, always half up (a half goes away from zero) to the smallest coin of the currency:

1. every line: quantity times unit price, rounded once;
2. every tax rate: the rounded lines of that rate are added first, then the tax is taken of the sum and rounded once;
3. the total is the sum of these rounded amounts, so what is printed always adds up.

Money is Decimal from end to end. A credit (a fee that comes off the repair) is a line with a unit price below zero.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from bellcrank.errors import OutOfRange

HUNDRED = Decimal(100)


@dataclass(frozen=True, slots=True)
class Line:
    """One line as it was entered: so many of something at a price, before tax."""

    words: str
    quantity: Decimal
    unit_price: Decimal
    tax_percent: Decimal


@dataclass(frozen=True, slots=True)
class PricedLine:
    """A line with what it comes to before tax."""

    line: Line
    net: Decimal


@dataclass(frozen=True, slots=True)
class Tax:
    """The tax of one rate: what it is taken of, and what it comes to."""

    percent: Decimal
    net: Decimal
    tax: Decimal


@dataclass(frozen=True, slots=True)
class Price:
    """What the lines come to; net + taxes = total, to the coin."""

    lines: tuple[PricedLine, ...]
    net: Decimal
    taxes: tuple[Tax, ...]
    total: Decimal


def price(lines: Sequence[Line], *, places: int = 2) -> Price:
    """Price the lines; ``places`` is the currency's digits after the point (2 for cents, 0 for yen).

    >>> price([Line("key", Decimal(3), Decimal("2.35"), Decimal("19"))]).total
    Decimal('8.39')
    """
    priced = tuple(PricedLine(line=line, net=line_net(line, places=places)) for line in lines)
    taxes = _taxes(priced, places)
    net = sum((one.net for one in priced), rounded(Decimal(0), places))
    total = net + sum((one.tax for one in taxes), Decimal(0))
    if total < 0:
        raise OutOfRange(f"The lines come to {total}; a bill cannot be below zero. Make the credit smaller.")
    return Price(lines=priced, net=net, taxes=taxes, total=total)


def line_net(line: Line, *, places: int = 2) -> Decimal:
    """Give what one line comes to before tax, or refuse a line that cannot be."""
    _refuse_strange_numbers(line)
    if line.quantity <= 0:
        raise OutOfRange(
            f"Quantity of “{line.words}” is {line.quantity}; it must be above zero. Drop the line if nothing was used.",
            field="quantity",
        )
    if not 0 <= line.tax_percent <= HUNDRED:
        raise OutOfRange(
            f"Tax on “{line.words}” is {line.tax_percent} %; it must lie between 0 and 100. Type the rate in per cent.",
            field="tax_percent",
        )
    return rounded(line.quantity * line.unit_price, places)


def rounded(amount: Decimal, places: int = 2) -> Decimal:
    """Round money half up to the smallest coin.

    >>> rounded(Decimal("2.345")), rounded(Decimal("-2.345")), rounded(Decimal("2.5"), 0)
    (Decimal('2.35'), Decimal('-2.35'), Decimal('3'))
    """
    return amount.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)


def passes_limit(total: Decimal, agreed: Decimal | None) -> bool:
    """Say whether the total, tax included, is more than the customer agreed to; nothing agreed limits nothing."""
    return agreed is not None and total > agreed


def _taxes(priced: Sequence[PricedLine], places: int) -> tuple[Tax, ...]:
    rates = sorted({one.line.tax_percent for one in priced})
    taxes = []
    for rate in rates:
        net = sum((one.net for one in priced if one.line.tax_percent == rate), rounded(Decimal(0), places))
        taxes.append(Tax(percent=rate, net=net, tax=rounded(net * rate / HUNDRED, places)))
    return tuple(taxes)


def _refuse_strange_numbers(line: Line) -> None:
    numbers = (("quantity", line.quantity), ("price", line.unit_price), ("tax", line.tax_percent))
    for name, number in numbers:
        if not number.is_finite():
            raise OutOfRange(
                f"The {name} of “{line.words}” is {number}; it must be a number. Type it again.",
                field={"price": "unit_price", "tax": "tax_percent"}.get(name, name),
            )
        if abs(number) >= Decimal(10) ** 9:
            raise OutOfRange(f"The {name} of “{line.words}” is {number}; that cannot be. Type it again.")
