"""``bellcrank jobs``: today's bench."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.show_job import bench_lines
from bellcrank.shop.fill_sheet import bench_sheet


@click.command("jobs")
@every_command
@pass_desk
def command(desk: Desk) -> None:
    """List the jobs: on the bench, waiting, ready to go, gone."""
    with desk.shop() as shop:
        bench = bench_sheet(shop)
    desk.tell(bench, lambda: bench_lines(bench))
