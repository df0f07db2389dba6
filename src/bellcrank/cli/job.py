"""``bellcrank job``: one job's sheet."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.show_job import job_lines
from bellcrank.shop.fill_sheet import job_sheet


@click.command("job")
@number_argument
@every_command
@pass_desk
def command(desk: Desk, number: int) -> None:
    """Show job NUMBER from the story at the door to the hand-back."""
    with desk.shop() as shop:
        sheet = job_sheet(shop, number)
    desk.tell(sheet, lambda: job_lines(sheet))
