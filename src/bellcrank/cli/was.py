"""``bellcrank was``: which cause it was, and how long the repair took, for the jobs to come."""

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import answer_with_next, who
from bellcrank.shop.what_it_was import record_what_it_was


@click.command("was")
@number_argument
@click.argument("cause", default="")
@click.option("--minutes", default="", metavar="25", help="At the repair alone, without getting in and back out.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, cause: str, minutes: str, by: str) -> None:
    """Say that job NUMBER was CAUSE (not-listed: something else), or how long the repair took, or both."""
    with desk.shop() as shop:
        entry = record_what_it_was(shop, number, cause, minutes, who(shop, by))
        answer_with_next(desk, shop, number, entry)
