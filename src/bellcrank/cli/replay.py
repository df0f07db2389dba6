"""``bellcrank replay``: a job step by step, what was believed and advised then and what was done."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.show_replay import all_steps, one_step
from bellcrank.shop.replay import replay, step_of


@click.command("replay")
@number_argument
@click.option("--step", type=int, metavar="K", help="Show one step; 0 is what was told at the door.")
@click.option("--quiz", is_flag=True, help="With --step: ask what you would do next, and keep the advice back.")
@every_command
@pass_desk
def command(desk: Desk, number: int, step: int | None, quiz: bool) -> None:
    """Replay job NUMBER step by step.

    What was taken back is left out.
    """
    with desk.shop() as shop:
        sheet = replay(shop, number)
    if step is None:
        desk.tell(sheet, lambda: all_steps(sheet))
        return
    shown = step_of(sheet, step)
    desk.tell(shown, lambda: one_step(sheet, shown, quiz=quiz))
