"""The view of the price: lines, taxes, what was agreed, what it may come to."""

from dataclasses import dataclass

from bellcrank.shop.price_sheet import PriceSheet
from bellcrank.shop.words import coins, money, money_range


@dataclass(frozen=True, slots=True)
class PriceLineView:
    """A line of the price."""

    id: int
    words: str
    amount: str
    quantity: str


@dataclass(frozen=True, slots=True)
class PriceView:
    """Money on the sheet."""

    lines: tuple[PriceLineView, ...]
    net: str
    taxes: tuple[tuple[str, str], ...]
    total: str
    agreed: str
    over_limit: bool
    over_words: str
    expected: str
    invoice_number: str
    currency: str
    ahead: tuple[tuple[str, str], ...]  # repairs to be quoted: id, words
    worth: str  # of the machine, "" when nobody told it


def price_view(price: PriceSheet) -> PriceView:
    """Lay out the price."""
    return PriceView(
        lines=tuple(
            PriceLineView(
                line.id,
                line.words,
                money(line.net, price.currency),
                f"{line.quantity.normalize():f} {line.unit} at {coins(line.unit_price, price.currency)}",
            )
            for line in price.lines
        ),
        net=money(price.net, price.currency),
        taxes=tuple((f"tax {tax.percent.normalize():f} %", money(tax.tax, price.currency)) for tax in price.taxes),
        total=money(price.total, price.currency),
        agreed="" if price.agreed_limit is None else money(price.agreed_limit, price.currency),
        over_limit=price.over_limit,
        over_words=price.over_words,
        expected=money_range(price.expected_low, price.expected_high, price.currency),
        invoice_number=price.invoice_number,
        currency=price.currency,
        ahead=tuple((one.id, one.words) for one in price.ahead),
        worth="" if price.worth is None else money(price.worth, price.currency),
    )
