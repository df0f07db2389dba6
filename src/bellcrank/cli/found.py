"""``bellcrank found``: what a check has shown."""

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import answer_with_next, who, with_suggestion
from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_finding, record_reading


@click.command("found")
@number_argument
@click.argument("check")
@click.argument("result", required=False, default="")
@click.option(
    "--reading", default="", metavar="NUMBER", help="What the instrument shows, instead of RESULT: “310 kPa”."
)
@click.option("--unsure", is_flag=True, help="You only think so: it counts for less.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, check: str, result: str, reading: str, unsure: bool, by: str) -> None:
    """Record that CHECK on job NUMBER has shown RESULT; “not-sure” is a result too. Or give a reading."""
    if bool(result) == bool(reading):
        raise NotUnderstood("Give either a RESULT or a --reading. “bellcrank next NUMBER --all” lists the results.")
    with desk.shop() as shop:
        try:
            event = (
                record_reading(shop, number, check, reading, who(shop, by))
                if reading
                else record_finding(shop, number, check, result, who(shop, by), unsure=unsure)
            )
        except NotFound as refusal:
            raise with_suggestion(refusal, shop, job_sheet(shop, number), check) from None
        answer_with_next(desk, shop, number, event)
