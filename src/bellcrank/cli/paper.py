"""``bellcrank paper``: a paper of a job as a PDF file."""

from pathlib import Path

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.terminal import wrap
from bellcrank.errors import StorageFault
from bellcrank.papers.printing import print_paper
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.settings import read_settings

BENCH = "http://127.0.0.1:8765/"


@click.command("paper")
@number_argument
@click.argument("what", metavar="job-sheet|quote|invoice|tag")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE", help="Else WHAT-NUMBER.pdf here."
)
@click.option("--paper", type=click.Choice(["a4", "letter"]), help="Size; else what the shop is set to.")
@click.option(
    "--bench", default=BENCH, metavar="ADDRESS", show_default=True, help="Of the bench page, for the QR code."
)
@every_command
@pass_desk
def command(desk: Desk, number: int, what: str, out: Path | None, paper: str | None, bench: str) -> None:
    """Write a paper of job NUMBER as a PDF."""
    with desk.shop() as shop:
        settings = read_settings(shop)
        address = f"{bench.rstrip('/')}/jobs/{number}"
        document = print_paper(what, job_sheet(shop, number), settings, paper or settings.paper, address)
    path = out or Path(f"{what}-{number}.pdf")
    _write(path, document)
    record = {"number": number, "paper": what, "file": path, "size_bytes": len(document)}
    desk.tell(record, lambda: [wrap(f"Written: {path}")])


def _write(path: Path, document: bytes) -> None:
    try:
        path.write_bytes(document)
    except OSError as fault:
        raise StorageFault(f"{path} cannot be written ({fault.strerror}). Choose another place with --out.") from None
