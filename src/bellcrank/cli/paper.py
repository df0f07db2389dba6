"""``bellcrank paper``: a paper of a job as a PDF file."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.terminal import wrap
from bellcrank.errors import StorageFault
from bellcrank.papers.printing import print_paper
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.settings import read_settings

if TYPE_CHECKING:
    from bellcrank.shop.premises import Shop
    from bellcrank.shop.sheet import JobSheet

BENCH = "http://127.0.0.1:8765/"


def out_option(usual: str) -> Callable[..., Any]:
    """Let a command be told where to write."""
    kind = click.Path(path_type=Path, dir_okay=False)
    return click.option("--out", type=kind, metavar="FILE", help=f"Else {usual} here.")


paper_option = click.option("--paper", type=click.Choice(["a4", "letter"]), help="Size; else what the shop is set to.")
bench_option = click.option(
    "--bench", default=BENCH, metavar="ADDRESS", show_default=True, help="Of the bench page, for the QR code."
)


@click.command("paper")
@number_argument
@click.argument("what", metavar="job-sheet|quote|invoice|tag|tray")
@out_option("WHAT-NUMBER.pdf")
@paper_option
@bench_option
@every_command
@pass_desk
def command(desk: Desk, number: int, what: str, out: Path | None, paper: str | None, bench: str) -> None:
    """Write a paper of job NUMBER as a PDF."""
    with desk.shop() as shop:
        path, size = printed(shop, job_sheet(shop, number), what, (out, paper, bench))
    record = {"number": number, "paper": what, "file": path, "size_bytes": size}
    desk.tell(record, lambda: [wrap(f"Written: {path}")])


def printed(shop: "Shop", sheet: "JobSheet", what: str, typed: tuple[Path | None, str | None, str]) -> tuple[Path, int]:
    """Write a paper where was ``typed``, in the size and for the bench typed; give its file and its size in bytes."""
    out, paper, bench = typed
    settings = read_settings(shop)
    address = f"{bench.rstrip('/')}/jobs/{sheet.number}"
    document = print_paper(what, sheet, settings, paper or settings.paper, address)
    path = out or Path(f"{what}-{sheet.number}.pdf")
    _write(path, document)
    return path, len(document)


def _write(path: Path, document: bytes) -> None:
    try:
        path.write_bytes(document)
    except OSError as fault:
        raise StorageFault(f"{path} cannot be written ({fault.strerror}). Choose another place with --out.") from None
