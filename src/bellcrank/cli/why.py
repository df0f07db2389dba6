"""``bellcrank why``: the whole story of one cause."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.show_because import why_lines
from bellcrank.shop.why import why


@click.command("why")
@number_argument
@click.argument("cause")
@every_command
@pass_desk
def command(desk: Desk, number: int, cause: str) -> None:
    """Tell what speaks for and against CAUSE on job NUMBER, and what would change that.

    CAUSE is an ID; “bellcrank next NUMBER” shows them.
    """
    with desk.shop() as shop:
        sheet = why(shop, number, cause)
    desk.tell(sheet, lambda: why_lines(sheet))
