"""``bellcrank next``: the causes with reasons, and what to check next."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.show_job import head
from bellcrank.cli.show_next import CAUSES_SHOWN, NEXT_SHOWN, next_lines
from bellcrank.shop.fill_sheet import job_sheet


@click.command("next")
@number_argument
@click.option("--all", "everything", is_flag=True, help="Show every cause and everything that can be done.")
@every_command
@pass_desk
def command(desk: Desk, number: int, everything: bool) -> None:
    """Rank the causes of job NUMBER with reasons, and what to do next."""
    with desk.shop() as shop:
        sheet = job_sheet(shop, number)
    record = {
        "number": sheet.number,
        "surprise": sheet.surprise,
        "causes": sheet.causes,
        "combinations": sheet.combinations,
        "verdict": sheet.verdict,
        "next": sheet.next,
        "cure": sheet.cure,
    }
    shown = (len(sheet.causes), len(sheet.next)) if everything else (CAUSES_SHOWN, NEXT_SHOWN)
    desk.tell(record, lambda: [*head(sheet), *next_lines(sheet, *shown)])
