"""What every command is handed: where the shop's data lies, and whether it is asked for JSON."""

import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click
import platformdirs

from bellcrank.cli.as_json import json_text
from bellcrank.cli.terminal import say, speaks_unicode
from bellcrank.errors import NotUnderstood
from bellcrank.units import TORQUE_UNITS, unit_named

if TYPE_CHECKING:
    from bellcrank.shop.premises import Shop

ENVIRONMENT_NAME = "BELLCRANK_DATA"
Command = TypeVar("Command", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True)
class Desk:
    """The options that every command knows."""

    data: Path | None = None  # as typed; None: the environment or the user's data folder says
    as_json: bool = False

    @property
    def folder(self) -> Path:
        """The shop's data folder: the option, else the environment, else the user's data folder."""
        return data_folder(self.data)

    @contextmanager
    def shop(self) -> Iterator["Shop"]:
        """Open the shop for one command and close it after it."""
        from bellcrank.bootstrap import open_shop  # noqa: PLC0415  storage imports slowly, and --help needs none

        shop = open_shop(self.folder)
        try:
            yield shop
        finally:
            shop.close()

    def tell(self, record: Any, lines: Callable[[], Iterable[str]]) -> None:
        """Show a record: as JSON when that was asked for, else as the lines of text."""
        if self.as_json:
            click.echo(json_text(record, ascii_only=not speaks_unicode()))
        else:
            say(lines())


class TorqueUnit(click.Choice[str]):
    """The unit to say torques in, as it can be typed: no keyboard has a middle dot."""

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Read the unit by any of its spellings, or refuse with the units there are."""
        try:
            symbol = unit_named(value, "torque").symbol
        except NotUnderstood:
            symbol = value
        return super().convert(symbol, param, ctx)


def data_folder(typed: Path | None) -> Path:
    """Give the folder the shop's data lies in: what was typed, else the environment, else the user's data folder."""
    if typed is not None:
        return typed
    if os.environ.get(ENVIRONMENT_NAME):
        return Path(os.environ[ENVIRONMENT_NAME])
    return Path(platformdirs.user_data_dir("bellcrank"))


def _use_data(context: click.Context, _: click.Parameter, value: Path | None) -> None:
    if value is not None:
        context.obj = replace(context.ensure_object(Desk), data=value)


def _use_json(context: click.Context, _: click.Parameter, value: bool) -> None:
    if value:
        context.obj = replace(context.ensure_object(Desk), as_json=True)


data_option = click.option(
    "--data",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    callback=_use_data,
    expose_value=False,
    help=f"Folder of the shop's data; else {ENVIRONMENT_NAME} or your own data folder.",
)
json_option = click.option(
    "--json", is_flag=True, callback=_use_json, expose_value=False, help="Answer as JSON, for programs."
)
debug_option = click.option("--debug", is_flag=True, expose_value=False, help="Show the inside when something breaks.")
pass_desk = click.make_pass_decorator(Desk, ensure=True)
unit_option = click.option(
    "--unit",
    type=TorqueUnit(TORQUE_UNITS),
    default=TORQUE_UNITS[0],
    show_default=True,
    help="Said first; forces and lengths go with it. ft-lb, in-lb, Nm will do.",
)
by_option = click.option("--by", default="", metavar="NAME", help="Who did it; else the mechanic of the settings.")


def every_command(command: Command) -> Command:
    """Add the options that every command knows: --json, --data and --debug."""
    return json_option(data_option(debug_option(command)))
