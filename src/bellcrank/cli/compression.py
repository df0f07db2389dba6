"""``bellcrank compression``: what a gauge should read while cranking, in first guess."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import wrap
from bellcrank.shop.engines import GAUGE_CAUTION, Gauge, gauge_from_words
from bellcrank.units import convert


class Typed(TypedDict):
    """What may be typed about a compression reading."""

    engine: str
    height: str
    hose: str
    compression: str
    leak: str
    turning: str


@dataclass(frozen=True, slots=True)
class CompressionAnswer:
    """What a gauge should read, and why it is a range."""

    engine: str
    trapped_ratio: float
    gauge_low_psi: float
    gauge_high_psi: float
    gauge_low_bar: float
    gauge_high_bar: float
    released_low_psi: float  # while the compression release works
    released_high_psi: float
    ambient_pa: float
    caution: str
    notes: tuple[str, ...]


@click.command("compression")
@click.option("--engine", default="overhead-valve-160", show_default=True, metavar="CARD", help="The engine's card.")
@click.option("--height", default="", metavar="“500 m”", help="Above the sea.")
@click.option(
    "--hose", default="", metavar="“4 cm³”", help="Volume of the gauge's hose, when its valve is at the gauge."
)
@click.option("--ratio", "compression", default="", metavar="8.5", help="Compression ratio, when it is known.")
@click.option("--leak", default="", metavar="“0.4 mm²”", help="Area of all leaks, from leakdown.")
@click.option("--turning", default="", metavar="“400 rpm”", help="Speed it is turned at; matters when it leaks.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Give what a compression gauge should read while the cord is pulled, without a compression release and with."""
    found = gauge_from_words(open_library(), {name: str(value) for name, value in typed.items()})
    answer = _answer(found)
    desk.tell(answer, lambda: _lines(answer))


def _answer(found: Gauge) -> CompressionAnswer:
    return CompressionAnswer(
        engine=found.card.id,
        trapped_ratio=found.ratio,
        gauge_low_psi=convert(found.low, "psi", "pressure"),
        gauge_high_psi=convert(found.high, "psi", "pressure"),
        gauge_low_bar=convert(found.low, "bar", "pressure"),
        gauge_high_bar=convert(found.high, "bar", "pressure"),
        released_low_psi=convert(found.released[0], "psi", "pressure"),
        released_high_psi=convert(found.released[1], "psi", "pressure"),
        ambient_pa=found.ambient,
        caution=GAUGE_CAUTION,
        notes=found.notes,
    )


def _lines(answer: CompressionAnswer) -> list[str]:
    return [
        wrap(answer.caution, first="! ", indent="  "),
        "",
        f"  gauge     {answer.gauge_low_psi:.0f} to {answer.gauge_high_psi:.0f} psi "
        f"({answer.gauge_low_bar:.1f} to {answer.gauge_high_bar:.1f} bar)",
        f"  released  {answer.released_low_psi:.0f} to {answer.released_high_psi:.0f} psi, while a release works",
        f"  trapped   {answer.trapped_ratio:.2f} to 1",
        "",
        *(wrap(one, first="  - ", indent="    ") for one in answer.notes),
    ]
