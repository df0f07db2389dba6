"""``bellcrank repaired``: a repair and what it did."""

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import answer_with_next, who, with_suggestion
from bellcrank.errors import NotFound
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_repair


@click.command("repaired")
@number_argument
@click.argument("repair")
@click.argument("outcome", metavar="cured|not-cured|not-tried")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, repair: str, outcome: str, by: str) -> None:
    """Record that REPAIR was done on job NUMBER, and whether the machine works now."""
    with desk.shop() as shop:
        try:
            event = record_repair(shop, number, repair, outcome, who(shop, by))
        except NotFound as refusal:
            raise with_suggestion(refusal, shop, job_sheet(shop, number), repair) from None
        answer_with_next(desk, shop, number, event)
