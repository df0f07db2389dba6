"""Money of a job, as lines of text."""

from bellcrank.cli.terminal import beside, heading, wrap
from bellcrank.shop.sheet import PriceSheet
from bellcrank.shop.words import money, money_range


def price_lines(price: PriceSheet) -> list[str]:
    """List every line of the price, the tax and the total, then what was agreed."""
    lines = [heading("lines")] if price.lines else []
    for line in price.lines:
        words = f"  {line.id:>4}  {line.words}, {line.quantity:f} {line.unit} at {line.unit_price:.2f}"
        lines.append(beside(words, f"{line.net:.2f}"))
    lines += [
        beside(f"        tax {tax.percent:f} % of {tax.net:.2f}", f"{tax.tax:.2f}") for tax in price.taxes if tax.tax
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
    if price.over_words:
        lines.append(wrap(price.over_words, first="  ! ", indent="    "))
    return [*lines, f"  invoice {price.invoice_number}"] if price.invoice_number else lines
