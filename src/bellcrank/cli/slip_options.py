"""How a slip of the flywheel is told in the terminal: the angle, or what was measured at the rim or at the keyway."""

from collections.abc import Callable
from typing import Any, TypedDict

import click


class SlipTyped(TypedDict):
    """What may be typed about a slip."""

    slip: str
    arc: str
    rim: str
    key_offset: str
    shaft: str
    advance: str


OPTIONS = (
    click.option("--slip", default="", metavar="“-60 °”", help="Of the flywheel; below zero forward, the spark early."),
    click.option("--arc", default="", metavar="“-105 mm”", help="Or along the rim, piston at the top; with --rim."),
    click.option("--rim", default="", metavar="“100 mm”", help="Radius of the rim."),
    click.option("--key-offset", default="", metavar="“-2 mm”", help="Or between the keyways' edges; with --shaft."),
    click.option("--shaft", default="", metavar="“10 mm”", help="Radius of the shaft at the key."),
    click.option("--advance", default="", metavar="“20 °”", help="Of the spark with a good key, when it is known."),
)


def slip_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Let a command ask for a slip."""
    for option in reversed(OPTIONS):
        command = option(command)
    return command
