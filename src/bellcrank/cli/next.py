"""``bellcrank next``: the causes with reasons, and what to check next."""

from dataclasses import replace

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.show_job import head
from bellcrank.cli.show_next import CAUSES_SHOWN, NEXT_SHOWN, next_lines
from bellcrank.cli.terminal import heading, wrap
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.further import further_line


@click.command("next")
@number_argument
@click.option("--all", "everything", is_flag=True, help="Show every cause and everything that can be done.")
@click.option("--deeper", is_flag=True, help="Look two steps ahead, and say whether that changes what comes first.")
@click.option("--seconds", default="", metavar="SECONDS", help="How long to look ahead at most; 2 if not said.")
@every_command
@pass_desk
def command(desk: Desk, number: int, everything: bool, deeper: bool, seconds: str) -> None:
    """Rank the causes of job NUMBER with reasons, and what to do next."""
    with desk.shop() as shop:
        sheet = job_sheet(shop, number)
        further = further_line(shop, number, seconds) if deeper or seconds else None
    if further is not None:
        sheet = replace(sheet, next=further.next)
    record = {
        "number": sheet.number,
        "surprise": sheet.surprise,
        "causes": sheet.causes,
        "combinations": sheet.combinations,
        "verdict": sheet.verdict,
        "next": sheet.next,
        "cure": sheet.cure,
        "further": further,
    }
    shown = (len(sheet.causes), len(sheet.next)) if everything else (CAUSES_SHOWN, NEXT_SHOWN)
    looked = [] if further is None else [heading("two steps ahead"), wrap(further.words, indent="  ")]
    desk.tell(record, lambda: [*head(sheet), *looked, *next_lines(sheet, *shown)])
