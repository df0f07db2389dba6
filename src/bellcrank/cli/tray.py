"""``bellcrank tray``: the tray sheet of a job as a PDF file, and as text or JSON what lies in which tray."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.paper import bench_option, out_option, paper_option, printed
from bellcrank.cli.terminal import wrap
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.tray import Tray, TraySheet, tray_sheet
from bellcrank.shop.words import counted


@dataclass(frozen=True, slots=True)
class TrayAnswer:
    """What was written, and what stands on it."""

    number: int
    file: Path
    size_bytes: int
    sheet: TraySheet


@click.command("tray")
@number_argument
@out_option("tray-NUMBER.pdf")
@paper_option
@bench_option
@every_command
@pass_desk
def command(desk: Desk, number: int, out: Path | None, paper: str | None, bench: str) -> None:
    """Write the tray sheet of job NUMBER: what comes off, drawn to true size, and where it sat."""
    with desk.shop() as shop:
        sheet = job_sheet(shop, number)
        trays = tray_sheet(sheet)
        path, size = printed(shop, sheet, "tray", (out, paper, bench))
    desk.tell(TrayAnswer(number, path, size, trays), lambda: _lines(path, trays))


def _lines(path: Path, trays: TraySheet) -> Iterator[str]:
    total, count = counted(trays.total, "fastener", "fasteners"), counted(len(trays.trays), "tray", "trays")
    yield wrap(f"Written: {path}")
    yield wrap(f"To the {trays.target_words}: {total} in {count}. At the end none may lie on the sheet.")
    for tray in trays.trays:
        yield wrap(_line(tray))


def _line(tray: Tray) -> str:
    fastener = tray.fastener
    length = f"{fastener.length_mm:g} mm long" if fastener.length_mm else ""
    marks = ("safety joint" if fastener.safety_joint else "", "a new one goes in" if fastener.single_use else "")
    told = ", ".join(part for part in (fastener.thread, length, *marks) if part)
    return f"{tray.number}: {fastener.to_lay_out} × {fastener.words}{f', {told}' if told else ''}"
