"""``bellcrank way-in``: the least-time way in to parts of a kind of machine, without a job."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.show_work import fetch_lines, way
from bellcrank.cli.terminal import wrap
from bellcrank.shop.ways import WayInSheet, way_in_to
from bellcrank.shop.words import gap_in_words, minutes


@click.command("way-in")
@click.argument("kind")
@click.option("--to", "targets", multiple=True, required=True, metavar="PART", help="Part to free; may be repeated.")
@every_command
@pass_desk
def command(desk: Desk, kind: str, targets: tuple[str, ...]) -> None:
    """Plan the way in to parts of a KIND of machine: what comes off, in which order, with which tools."""
    with desk.shop() as shop:
        sheet = way_in_to(shop, kind, targets)
    desk.tell(sheet, lambda: _lines(sheet))


def _lines(sheet: WayInSheet) -> list[str]:
    takes = f"{minutes(sheet.minutes)}, {minutes(sheet.changeover_minutes)} of it changing tools and turning"
    return [
        wrap(f"way to: {sheet.target_words}", indent="    ", first="  "),
        wrap(f"{takes} ({gap_in_words(sheet.minutes - sheet.bound)})", indent="  "),
        *fetch_lines(sheet.fetch),
        *way("the way in", sheet.steps, sheet.torque_unit),
    ]
