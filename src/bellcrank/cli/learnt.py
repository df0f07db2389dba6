"""``bellcrank learnt``: what closed jobs taught, how right the tool was, and counts for other shops and from them."""

from collections.abc import Iterable, Sequence
from pathlib import Path

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.recorded import who
from bellcrank.cli.terminal import heading, wrap
from bellcrank.errors import NotFound, StorageFault
from bellcrank.shop.fill_learnt import learnt_sheet
from bellcrank.shop.learnt_sheet import LearntSheet, MovedRow, MovedShare, Rightness
from bellcrank.shop.learnt_words import head_line, minutes_said, moved_said, rightness_said
from bellcrank.shop.pooling import (
    Brought,
    export_counts,
    import_counts,
    look_at,
    read_counts,
    take_back_counts,
)
from bellcrank.shop.premises import Shop

MOST_SHOWN = 8  # [-] lines of each list; --json has them all
kind_option = click.option("--kind", default="", metavar="KIND", help="Kind of machine; else the first there is.")
file_argument = click.argument("file", type=click.Path(path_type=Path, dir_okay=False))


@click.group("learnt", invoke_without_command=True)
@kind_option
@every_command
@pass_desk
@click.pass_context
def command(context: click.Context, desk: Desk, kind: str) -> None:
    """Show what closed jobs taught and how right the tool was; or give counts to other shops and take theirs."""
    if context.invoked_subcommand is None:
        with desk.shop() as shop:
            sheet = learnt_sheet(shop, kind)
        desk.tell(sheet, lambda: _lines(sheet))


@command.command("export")
@file_argument
@kind_option
@every_command
@pass_desk
def export(desk: Desk, file: Path, kind: str) -> None:
    """Write anonymous counts of your own closed jobs to FILE, for other shops."""
    with desk.shop() as shop:
        text = export_counts(shop, _kind(shop, kind))
    try:
        file.write_text(text, encoding="utf-8")
    except OSError as fault:
        raise StorageFault(f"{file} cannot be written ({fault.strerror}). Choose another place.") from None
    desk.tell({"file": file, "size_bytes": len(text.encode())}, lambda: [wrap(f"Written: {file}")])


@command.command("import")
@file_argument
@click.option("--look", is_flag=True, help="Only say what it would bring.")
@by_option
@every_command
@pass_desk
def take_in(desk: Desk, file: Path, look: bool, by: str) -> None:
    """Take the counts of another shop in from FILE."""
    try:
        data = file.read_bytes()
    except OSError as fault:
        raise NotFound(f"{file} cannot be read ({fault.strerror}). Choose a file another shop gave you.") from None
    with desk.shop() as shop:
        if look:
            number, brought = None, look_at(shop, read_counts(shop, data))
        else:
            number, brought = import_counts(shop, data, file.name, who(shop, by))
    desk.tell({"number": number, "brought": brought}, lambda: _brought(brought, number))


@command.command("take-back")
@click.argument("number", type=int, required=False)
@kind_option
@by_option
@every_command
@pass_desk
def take_back(desk: Desk, number: int | None, kind: str, by: str) -> None:
    """Take the counts NUMBER of another shop back, the last ones without a number."""
    with desk.shop() as shop:
        taken = take_back_counts(shop, _kind(shop, kind), number, who(shop, by))
    desk.tell({"taken_back": taken}, lambda: [wrap(f"taken back: the counts of {taken}")])


def _kind(shop: Shop, kind: str) -> str:
    if kind and kind not in shop.library.packs:
        raise NotFound(f"There is no kind of machine “{kind}”. It must be one of {', '.join(shop.library.packs)}.")
    return kind or next(iter(shop.library.packs))


def _brought(brought: Brought, number: int | None) -> Iterable[str]:
    yield wrap(f"{brought.words}.", first="would bring: " if number is None else f"taken in ({number}): ", indent="  ")
    if brought.unknown:
        yield wrap(f"Not known here and left out: {', '.join(brought.unknown)}.", first="  ", indent="  ")
    if brought.doubt:
        yield wrap(brought.doubt, first="! ", indent="  ")


def _lines(sheet: LearntSheet) -> Iterable[str]:
    yield head_line(sheet)
    yield wrap(sheet.says, first="  ", indent="  ")
    if sheet.rightness:
        yield heading("how right it was")
        yield from (wrap(line, first="  ", indent="    ") for line in _right(sheet.rightness))
    for title, moved in (
        ("causes that moved", sheet.shares),
        ("checks that moved", sheet.rows),
        ("not changed by itself", sheet.held),
    ):
        yield from _moved(title, moved)
    if sheet.minutes:
        yield heading("minutes that moved")
        yield from (wrap(minutes_said(one), first="  ", indent="    ") for one in sheet.minutes[:MOST_SHOWN])
    if sheet.imports:
        yield heading("from other shops")
        for one in sheet.imports:
            gone = ", taken back" if one.taken_back else ""
            yield wrap(f"{one.id}  {one.file_name}: {one.words}{gone}", first="  ", indent="    ")


def _right(every: tuple[Rightness, ...]) -> Iterable[str]:
    yield from dict.fromkeys(one.says for one in every)
    for one in every:
        yield f"{one.moment}, {rightness_said(one)}"


def _moved(title: str, moved: Sequence[MovedShare | MovedRow]) -> Iterable[str]:
    if moved:
        yield heading(title)
        yield from (wrap(f"{one.words}: {moved_said(one)}", first="  ", indent="    ") for one in moved[:MOST_SHOWN])
        if len(moved) > MOST_SHOWN:
            yield f"  and {len(moved) - MOST_SHOWN} more: --json shows them all"
