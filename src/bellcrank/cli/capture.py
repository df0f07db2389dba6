"""``bellcrank capture``: what was found at a step, kept for this machine or for every one like it."""

from collections.abc import Iterator
from pathlib import Path
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.terminal import wrap
from bellcrank.shop.captured import capture, capture_photo
from bellcrank.shop.captured_sheet import FoundLine
from bellcrank.shop.captured_typed import FREE, LONGER, SHORTER, SWAP, Typed
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.machine_model import found_of
from bellcrank.shop.photos import check_photo
from bellcrank.shop.records import read_record
from bellcrank.teardown.as_found import CONDITION, LENGTH, MISSING, NOTE


class Options(TypedDict):
    """What may be typed."""

    at: str
    longer: tuple[str, str] | None
    shorter: tuple[str, str] | None
    length: tuple[str, str] | None
    which: str
    swap: tuple[str, str] | None
    seized: str
    corroded: str
    rounded: str
    free: str
    missing: tuple[str, str] | None
    note: str
    photo: tuple[Path, ...]
    for_all: bool
    by: str


@click.command("capture")
@number_argument
@click.option("--at", default="", metavar="STEP", help="Else that of the fastener, or the step that is next.")
@click.option("--longer", nargs=2, metavar="FASTENER LENGTH", help="In mm, or with its unit.")
@click.option("--shorter", nargs=2, metavar="FASTENER LENGTH")
@click.option("--length", nargs=2, metavar="FASTENER LENGTH", help="Whichever it is.")
@click.option("--which", default="", metavar="N", help="Only number N of them, in the order of tightening.")
@click.option("--swap", nargs=2, metavar="FASTENER OTHER", help="They sat in each other's place.")
@click.option("--seized", default="", metavar="FASTENER")
@click.option("--corroded", default="", metavar="FASTENER")
@click.option("--rounded", default="", metavar="FASTENER", help="Its head.")
@click.option("--free", default="", metavar="FASTENER", help="It came loose after all.")
@click.option("--missing", nargs=2, metavar="FASTENER N", help="So many of them are not there.")
@click.option("--note", default="", metavar="WORDS")
@click.option("--photo", multiple=True, metavar="FILE", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--for-all", is_flag=True, help="Keep it for every machine like this.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, **typed: Unpack[Options]) -> None:
    """Keep what was found at a step of job NUMBER; without an option, show what is known of its machine."""
    photos = [(path.name, path.read_bytes()) for path in typed["photo"]]
    for name, data in photos:
        check_photo(name, data)
    with desk.shop() as shop:
        by = who(shop, typed["by"])
        for one in _captures(typed):
            capture(shop, number, one, by)
        for name, data in photos:
            capture_photo(shop, number, typed["at"], name, data, by)
        found, sheet = found_of(shop, read_record(shop, number)), job_sheet(shop, number)
    record = {"number": number, "found": found, "photos": [one for one in sheet.photos if one.operation]}
    desk.tell(record, lambda: [*head(sheet), "", *_told(found)])


def _captures(typed: Options) -> Iterator[Typed]:
    at, for_all = typed["at"], typed["for_all"]
    lengths = {LONGER: typed["longer"], SHORTER: typed["shorter"], "": typed["length"]}
    for than, said in lengths.items():
        if said:
            yield Typed(LENGTH, at, said[0], which=typed["which"], length=said[1], than=than, for_all=for_all)
    if typed["swap"]:
        yield Typed(SWAP, at, typed["swap"][0], other=typed["swap"][1], for_all=for_all)
    conditions = {"seized": typed["seized"], "corroded": typed["corroded"], "rounded": typed["rounded"]}
    for condition, fastener in (conditions | {FREE: typed["free"]}).items():
        if fastener:
            yield Typed(CONDITION, at, fastener, condition=condition, for_all=for_all)
    if typed["missing"]:
        yield Typed(MISSING, at, typed["missing"][0], missing=typed["missing"][1], for_all=for_all)
    if typed["note"]:
        yield Typed(NOTE, at, words=typed["note"], for_all=for_all)


def _told(found: tuple[FoundLine, ...]) -> list[str]:
    if not found:
        return ["Nothing was found on this machine that is not as drawn."]
    return [_one(one) for one in found]


def _one(one: FoundLine) -> str:
    entry = f"entry {one.entry}" if one.entry else "from another job"
    return wrap(f"{one.words} ({entry})", first=f"at {one.operation}: ", indent="  ")
