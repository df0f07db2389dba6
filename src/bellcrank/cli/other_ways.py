"""``bellcrank other-ways``: what else could be done on a job's way in, and what it would take."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.show_work import other_lines
from bellcrank.cli.terminal import wrap
from bellcrank.shop.other_ways import OtherWays, other_ways
from bellcrank.shop.words import minutes


@click.command("other-ways")
@number_argument
@every_command
@pass_desk
def command(desk: Desk, number: int) -> None:
    """Hold every other choice on the way in of job NUMBER against the plan: minutes, tools, or why it cannot be."""
    with desk.shop() as shop:
        told = other_ways(shop, number)
    desk.tell(told, lambda: _lines(told))


def _lines(told: OtherWays) -> list[str]:
    left_out = [wrap("; ".join(told.left_out), first="  left out on purpose: ", indent="    ")] if told.left_out else []
    others = other_lines(told.lines) or [wrap("There is nothing to choose between on what is left of it.", indent="  ")]
    return [
        wrap(f"way to: {told.target_words}", first="  ", indent="    "),
        wrap(f"{minutes(told.minutes)} still to go in", indent="  "),
        *left_out,
        *([wrap(told.quicker, indent="  ")] if told.quicker else []),
        *others,
        "",
        wrap(f"choose with:  bellcrank steps {told.number} --without STEP[:WAY]"),
    ]
