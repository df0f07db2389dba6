"""``bellcrank take-back``: undo what was recorded."""

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import JobNumber, number_argument
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_next import next_lines
from bellcrank.cli.terminal import wrap
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import take_back


@click.command("take-back")
@number_argument
@click.argument("event", type=JobNumber(), required=False)
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, event: int | None, by: str) -> None:
    """Take back the last entry of job NUMBER, or the entry EVENT; nothing is erased."""
    with desk.shop() as shop:
        last = job_sheet(shop, number).last_event
        take_back(shop, number, event, who(shop, by))
        sheet = job_sheet(shop, number)
    chosen = event if event is not None else last.id if last else None
    words = next((line.words for line in sheet.events if line.id == chosen), "")
    told = wrap(f"{words} (entry {chosen})", first="taken back: ", indent="  ")
    desk.tell(sheet, lambda: [*head(sheet), told, *next_lines(sheet, 3, 1)])
