"""``bellcrank way-out``: the way back of a job, with a torque for every fastener."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.show_job import head
from bellcrank.cli.show_work import fetch_lines, way
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotAllowedNow
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.words import counted, gap_in_words, minutes
from bellcrank.shop.work_sheet import WorkSheet
from bellcrank.teardown.search import HAIR


@click.command("way-out")
@number_argument
@every_command
@pass_desk
def command(desk: Desk, number: int) -> None:
    """Show the way back of job NUMBER: torques, rounds, gaps, what must move freely, what is still on the tray."""
    with desk.shop() as shop:
        sheet = job_sheet(shop, number)
    work = sheet.work
    if work is None:
        raise NotAllowedNow(f"Job {number} has no way in yet. Choose a part with: bellcrank steps {number} --to PART.")
    record = {
        "number": number,
        "steps": work.steps_out,
        "minutes": work.minutes_out,
        "proven": work.minutes_out - work.bound_out <= HAIR,
        "bound": work.bound_out,
        "on_the_tray": work.on_the_tray,
        "fetch": work.fetch,
    }
    desk.tell(record, lambda: [*head(sheet), "", *_lines(work)])


def _lines(work: WorkSheet) -> list[str]:
    tray = counted(work.on_the_tray, "fastener", "fasteners")
    return [
        wrap(f"way back from: {work.target_words}", indent="    ", first="  "),
        wrap(
            f"{minutes(work.minutes_out)} ({gap_in_words(work.minutes_out - work.bound_out)}); {tray} on the tray now",
            indent="  ",
        ),
        *fetch_lines(work.fetch),
        *way("the way back", work.steps_out, work.torque_unit),
    ]
