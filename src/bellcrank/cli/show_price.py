"""Money of a job, as lines of text."""

from decimal import Decimal

from bellcrank.cli.terminal import beside, heading, wrap
from bellcrank.shop.price_sheet import PriceSheet
from bellcrank.shop.words import coins, money, money_range


def price_lines(price: PriceSheet) -> list[str]:
    """List every line of the price, the tax and the total, then what was agreed."""

    def said(amount: Decimal) -> str:
        return coins(amount, price.currency)

    lines = [heading("lines")] if price.lines else []
    for line in price.lines:
        words = f"  {line.id:>4}  {line.words}, {line.quantity:f} {line.unit} at {said(line.unit_price)}"
        lines.append(beside(words, said(line.net)))
    lines += [
        beside(f"        tax {tax.percent:f} % of {said(tax.net)}", said(tax.tax)) for tax in price.taxes if tax.tax
    ]
    if price.lines:
        lines.append(beside("        total with tax", money(price.total, price.currency)))
    return [*lines, *summary_lines(price)]


def summary_lines(price: PriceSheet) -> list[str]:
    """Say what the job comes to so far, what it may come to, and what was agreed."""
    whole = f"the whole job likely {money_range(price.expected_low, price.expected_high, price.currency)}"
    lines = [heading("price"), f"  so far {money(price.total, price.currency)} with tax", wrap(whole, indent="  ")]
    if price.agreed_limit is not None:
        lines.append(f"  agreed to spend before asking: {money(price.agreed_limit, price.currency)}")
    if price.worth is not None:
        lines.append(f"  the machine is worth: {money(price.worth, price.currency)}")
    if price.over_words:
        lines.append(wrap(price.over_words, first="  ! ", indent="    "))
    if price.ahead:
        lines.append(wrap("for a quote, before it is done:", indent="  "))
    lines += [wrap(f"--ahead {one.id}: {one.words}", first="    ", indent="      ") for one in price.ahead]
    return [*lines, f"  invoice {price.invoice_number}"] if price.invoice_number else lines
