"""``bellcrank found``: what a check has shown."""

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import answer_with_next, who, with_suggestion
from bellcrank.errors import NotFound
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding


@click.command("found")
@number_argument
@click.argument("check")
@click.argument("result")
@click.option("--unsure", is_flag=True, help="You only think so: it counts for less.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, check: str, result: str, unsure: bool, by: str) -> None:
    """Record that CHECK on job NUMBER has shown RESULT; “not-sure” is a result too."""
    with desk.shop() as shop:
        try:
            event = record_finding(shop, number, check, result, who(shop, by), unsure=unsure)
        except NotFound as refusal:
            raise with_suggestion(refusal, shop, job_sheet(shop, number), check) from None
        answer_with_next(desk, shop, number, event)
