"""``bellcrank steps``: the way in to a part and back out, ticked off."""

from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_work import after_tick, work_lines
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.premises import Shop
from bellcrank.shop.sheet import JobSheet
from bellcrank.shop.work import choose_target, plan_without, tick


class Typed(TypedDict):
    """What may be typed about the steps."""

    targets: tuple[str, ...]
    also: bool
    barred: tuple[str, ...]
    ticked: tuple[str, ...]
    unticked: tuple[str, ...]
    direction: str | None
    by: str


@click.command("steps")
@number_argument
@click.option("--to", "targets", multiple=True, metavar="PART", help="Plan the way in to this part; may be repeated.")
@click.option("--also", is_flag=True, help="Keep the parts the way leads to already.")
@click.option("--without", "barred", multiple=True, metavar="STEP[:WAY]", help="Leave out a step, or one way of it.")
@click.option("--tick", "ticked", multiple=True, metavar="STEP", help="This step is done; may be repeated.")
@click.option("--untick", "unticked", multiple=True, metavar="STEP", help="This step is not done after all.")
@click.option("--direction", type=click.Choice(["in", "out"]), help="Way the steps belong to; else the one under way.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, **typed: Unpack[Typed]) -> None:
    """Show the steps of job NUMBER to a part and back, with torques; plan the way, tick steps off."""
    with desk.shop() as shop:
        by = who(shop, typed["by"])
        if typed["targets"]:
            choose_target(shop, number, *typed["targets"], also=typed["also"], barred=typed["barred"], by=by)
        elif typed["barred"]:
            plan_without(shop, number, typed["barred"], by=by)
        for operation in typed["unticked"]:
            _tick(shop, number, operation, typed["direction"], done=False, by=by)
        for operation in typed["ticked"]:
            _tick(shop, number, operation, typed["direction"], done=True, by=by)
        sheet = job_sheet(shop, number)
    if typed["ticked"] or typed["unticked"]:
        lines = after_tick(number, sheet.work)
    else:
        lines = work_lines(number, sheet.work, typed["direction"] or "both")
    desk.tell({"number": number, "work": sheet.work}, lambda: [*head(sheet), "", *lines])


def _tick(shop: Shop, number: int, operation: str, direction: str | None, *, done: bool, by: str) -> None:
    way = direction or direction_under_way(job_sheet(shop, number), operation, done=done)
    tick(shop, number, way, operation, done=done, by=by)


def direction_under_way(sheet: JobSheet, operation: str, *, done: bool) -> str:
    """Give the way a step is ticked on: out once it is done on the way in."""
    if sheet.work is None:
        return "in"
    came_off = any(step.operation == operation and step.done for step in sheet.work.steps_in)
    went_back = any(step.operation == operation and step.done for step in sheet.work.steps_out)
    return "out" if (came_off and done) or went_back else "in"
