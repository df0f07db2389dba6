"""``bellcrank tools``: which of the tools that not every shop has are here."""

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import heading, wrap
from bellcrank.shop.settings import read_settings
from bellcrank.shop.tools import ToolLine, say_tool, tool_lines


@click.command("tools")
@click.option("--lacking", multiple=True, metavar="TOOL", help="This shop has it not; may be repeated.")
@click.option("--here", multiple=True, metavar="TOOL", help="This shop has it after all; may be repeated.")
@every_command
@pass_desk
def command(desk: Desk, lacking: tuple[str, ...], here: tuple[str, ...]) -> None:
    """Say which tools this shop has not; all are taken to be here until it is said."""
    with desk.shop() as shop:
        for name in lacking:
            say_tool(shop, name, here=False)
        for name in here:
            say_tool(shop, name, here=True)
        tools, currency = tool_lines(shop), read_settings(shop).currency
    desk.tell({"tools": tools, "currency": currency}, lambda: _lines(tools, currency))


def _lines(tools: tuple[ToolLine, ...], currency: str) -> list[str]:
    missing = [one for one in tools if not one.here]
    lines = [heading("not here"), *(_missing(one, currency) for one in missing)]
    if not missing:
        lines.append("  nothing")
    there = ", ".join(one.id for one in tools if one.here)
    return [*lines, heading("taken to be here"), wrap(there, first="  ", indent="  ")]


def _missing(one: ToolLine, currency: str) -> str:
    get = "borrow or hire, or buy from" if one.lend else "buy from"
    return wrap(f"{one.id}: {get} about {one.price} {currency}", first="  ", indent="    ")
