"""``bellcrank price``: what the job comes to, line by line, and its invoice number."""

from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import JobNumber, number_argument
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_price import price_lines
from bellcrank.shop.billing import (
    add_line,
    drop_line,
    issue_invoice,
    price_ahead,
    propose_lines,
    record_agreement,
    record_worth,
)
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.premises import Shop


class Typed(TypedDict):
    """What may be typed about the price."""

    proposed: bool
    ahead: tuple[str, ...]
    added: tuple[tuple[str, str, str, str], ...]
    dropped: tuple[int, ...]
    agreed: tuple[str, str] | None
    worth: str | None
    invoice: bool
    by: str


@click.command("price")
@number_argument
@click.option("--propose", "proposed", is_flag=True, help="Take the lines that follow from the repairs done.")
@click.option("--ahead", multiple=True, metavar="REPAIR", help="Take the lines of a repair not done yet, for a quote.")
@click.option(
    "--add",
    "added",
    nargs=4,
    multiple=True,
    metavar="part|labour|other WORDS QUANTITY PRICE",
    help="Add a line, like: --add part “blade bolt” 1 4.50",
)
@click.option("--drop", "dropped", multiple=True, type=JobNumber(), metavar="LINE", help="Drop a line by its number.")
@click.option("--agreed", nargs=2, metavar="AMOUNT HOW", help="What may be spent, and how it was agreed.")
@click.option("--worth", metavar="AMOUNT", help="What the machine is worth: more is not put into it.")
@click.option("--invoice", is_flag=True, help="Give the job its invoice number; its price is fixed from then on.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, **typed: Unpack[Typed]) -> None:
    """Show the price of job NUMBER, add and drop lines, record what was agreed, write the invoice."""
    with desk.shop() as shop:
        _record(shop, number, typed)
        sheet = job_sheet(shop, number)
    desk.tell({"number": number, "price": sheet.price}, lambda: [*head(sheet), *price_lines(sheet.price)])


def _record(shop: Shop, number: int, typed: Typed) -> None:
    by = who(shop, typed["by"])
    if typed["proposed"]:
        propose_lines(shop, number, by)
    for repair in typed["ahead"]:
        price_ahead(shop, number, repair, by)
    for kind, words, quantity, unit_price in typed["added"]:
        add_line(shop, number, kind=kind, words=words, quantity=quantity, unit_price=unit_price, by=by)
    for line in typed["dropped"]:
        drop_line(shop, number, line, by)
    if typed["agreed"]:
        limit, how = typed["agreed"]
        record_agreement(shop, number, limit=limit, how=how, by=by)
    if typed["worth"] is not None:
        record_worth(shop, number, worth=typed["worth"], by=by)
    if typed["invoice"]:
        issue_invoice(shop, number, by)
