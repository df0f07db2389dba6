"""``bellcrank complaint``: what a machine came in with, in words the knowledge packs know."""

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import answer_with_next, who
from bellcrank.cli.show_job import head
from bellcrank.cli.terminal import wrap
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.findings import record_complaint
from bellcrank.shop.packs import pack_now
from bellcrank.shop.premises import Shop


@click.command("complaint")
@number_argument
@click.argument("complaint", required=False)
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, complaint: str | None, by: str) -> None:
    """Say which known COMPLAINT job NUMBER came in with; without one, list those there are."""
    with desk.shop() as shop:
        if complaint is None:
            _list(desk, shop, number)
            return
        event = record_complaint(shop, number, complaint, who(shop, by))
        answer_with_next(desk, shop, number, event)


def _list(desk: Desk, shop: Shop, number: int) -> None:
    sheet = job_sheet(shop, number)
    known = pack_now(shop, sheet.machine.kind).complaints
    record = {"number": number, "complaints": [{"id": one.id, "words": one.words} for one in known]}
    listed = [wrap(one.words, first=f"  {one.id:<18} ", indent=" " * 21) for one in known]
    desk.tell(record, lambda: [*head(sheet), "", *listed, "", f"say it:  bellcrank complaint {number} ID"])
