"""``bellcrank open``: the bench in the browser."""

import click

from bellcrank.cli.desk import Desk, data_option, debug_option, pass_desk
from bellcrank.cli.terminal import say
from bellcrank.shop.demo import load_demo
from bellcrank.shop.learning import learn
from bellcrank.web.server import serve

LAST_PORT = 65535


@click.command("open")
@click.option("--demo", is_flag=True, help="Fill the bench with the demo shop first.")
@click.option(
    "--port",
    type=click.IntRange(1, LAST_PORT),
    metavar="NUMBER",
    help="Port of the page; else 8765, or the next one that is free.",
)
@click.option("--no-browser", is_flag=True, help="Only say the address, do not open a browser.")
@data_option
@debug_option
@pass_desk
def command(desk: Desk, demo: bool, port: int | None, no_browser: bool) -> None:
    """Open the bench in the browser, on this computer only, until Ctrl-C."""
    with desk.shop() as shop:
        if demo:
            say(load_demo(shop))
            for kind in shop.library.packs:
                learn(shop, kind)
        serve(shop, port=port, open_browser=not no_browser, say=say)
