"""``bellcrank own``: what this shop added to the packs, and "it was something else"."""

from pathlib import Path
from typing import Any, TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import answer_with_next, who
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotUnderstood
from bellcrank.shop.own_list import OwnLine, own_files, own_lines
from bellcrank.shop.own_pack import add_cause, add_check, change_entry, take_back_entry
from bellcrank.shop.own_typed import CauseTyped, CheckTyped, ShowsTyped
from bellcrank.shop.premises import Shop

SHOWS_HELP = "Cause it shows and how well: hardly, often, nearly-always; its result after a colon. May be repeated."


class CauseOptions(TypedDict):
    """What may be typed of a cause."""

    words: str
    system: str
    minutes: str
    access: tuple[str, ...]
    repair_words: str
    price: str


class CheckOptions(TypedDict):
    """What may be typed of a check."""

    words: str
    shows: tuple[str, ...]
    results: tuple[str, ...]
    minutes: str
    tools: str
    access: tuple[str, ...]
    runs_engine: bool
    hazards: tuple[str, ...]


class AnyTyped(TypedDict):
    """What may be typed of an entry; what was not typed is None or empty."""

    words: str | None
    system: str | None
    minutes: str | None
    access: tuple[str, ...]
    repair_words: str | None
    price: str | None
    results: tuple[str, ...]
    tools: str | None
    shows: tuple[str, ...]
    runs_engine: bool | None
    hazards: tuple[str, ...]


@click.group("own")
def command() -> None:
    """Look after what this shop added to the packs: causes it found, checks it makes."""


@command.command("list")
@click.option("--kind", default="", metavar="KIND", help="Only this kind of machine.")
@every_command
@pass_desk
def list_(desk: Desk, kind: str) -> None:
    """List what this shop added, also what was taken back."""
    with desk.shop() as shop:
        lines = own_lines(shop, kind)
    desk.tell({"entries": lines}, lambda: [row for one in lines for row in _told(one)] or ["Nothing was added yet."])


@command.command("cause")
@number_argument
@click.argument("words")
@click.option("--system", default="", metavar="SYSTEM", help="Fuel, ignition ...; else other.")
@click.option("--minutes", default="", metavar="MIN", help="The repair; else 15.")
@click.option("--explains", multiple=True, metavar="CHECK", help="Odd finding it explains; else all of the job's.")
@click.option("--explains-nothing", is_flag=True, help="It explains none of the job's findings.")
@click.option("--access", multiple=True, metavar="ID", help="What must be open to see it; may be repeated.")
@click.option("--repair", "repair_words", default="", metavar="WORDS", help="What is done; else “Put right: ...”.")
@click.option("--price", default="", metavar="AMOUNT", help="Of parts.")
@click.option(
    "--outcome",
    default="",
    metavar="cured|not-cured|not-tried|not-done",
    help="Else cured, or not-tried while nothing may be started.",
)
@by_option
@every_command
@pass_desk
def cause(
    desk: Desk,
    number: int,
    *,
    explains: tuple[str, ...],
    explains_nothing: bool,
    outcome: str,
    by: str,
    **typed: Unpack[CauseOptions],
) -> None:
    """It was something else on job NUMBER: put WORDS into the shop's own pack, found and put right."""
    if explains and explains_nothing:
        raise NotUnderstood("--explains and --explains-nothing do not go together. Leave one out.")
    chosen = () if explains_nothing else explains or None
    with desk.shop() as shop:
        add_cause(shop, number, CauseTyped(**typed), explains=chosen, outcome=outcome, by=who(shop, by))
        answer_with_next(desk, shop, number, 0)


@command.command("check")
@number_argument
@click.argument("words")
@click.option("--shows", multiple=True, metavar="CAUSE=HOW[:RESULT]", help=SHOWS_HELP)
@click.option("--result", "results", multiple=True, metavar="WORDS", help="From “nothing wrong” up; else no, yes.")
@click.option("--minutes", default="", metavar="MIN", help="Without opening; else 3.")
@click.option("--tools", default="", metavar="WORDS", help="Parted by commas.")
@click.option("--access", multiple=True, metavar="ID", help="What must be open; may be repeated.")
@click.option("--runs-engine", is_flag=True, help="The engine runs during it.")
@click.option("--caution", "hazards", multiple=True, metavar="ID", help="Beside those that go with what is open.")
@by_option
@every_command
@pass_desk
def check(desk: Desk, number: int, by: str, **typed: Unpack[CheckOptions]) -> None:
    """Put a check of your own into the pack of the machine of job NUMBER; WORDS say what is done."""
    with desk.shop() as shop:
        name = add_check(shop, number, _check_typed(typed), by=who(shop, by))
        _answer(desk, shop, name)


@command.command("change")
@click.argument("name")
@click.option("--words", default=None, metavar="WORDS")
@click.option("--system", default=None, metavar="SYSTEM", help="Of a cause.")
@click.option("--minutes", default=None, metavar="MIN")
@click.option("--access", multiple=True, metavar="ID", help="All that must be open; may be repeated.")
@click.option("--repair", "repair_words", default=None, metavar="WORDS", help="Of a cause.")
@click.option("--price", default=None, metavar="AMOUNT", help="Of a cause's parts.")
@click.option("--result", "results", multiple=True, metavar="WORDS", help="Of a check: all of them.")
@click.option("--tools", default=None, metavar="WORDS", help="Of a check.")
@click.option("--shows", multiple=True, metavar="CAUSE=HOW[:RESULT]", help="Of a check: all of them.")
@click.option("--runs-engine/--no-engine", default=None, help="Of a check.")
@click.option("--caution", "hazards", multiple=True, metavar="ID", help="Of a check: all of them.")
@every_command
@pass_desk
def change(desk: Desk, name: str, **typed: Unpack[AnyTyped]) -> None:
    """Change an own entry; what is not typed stays as it is."""
    with desk.shop() as shop:
        _change(shop, name, typed)
        _answer(desk, shop, name)


@command.command("take-back")
@click.argument("name")
@by_option
@every_command
@pass_desk
def take_back(desk: Desk, name: str, by: str) -> None:
    """Take an own entry back; jobs that used it keep it."""
    with desk.shop() as shop:
        take_back_entry(shop, name, by=who(shop, by))
        _answer(desk, shop, name)


@command.command("export")
@click.option("--kind", default="", metavar="KIND", help="Only this kind of machine.")
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), default="own-pack", show_default=True)
@every_command
@pass_desk
def export(desk: Desk, kind: str, out: Path) -> None:
    """Write what this shop added as tables in the format of packs, to be moved into one."""
    with desk.shop() as shop:
        texts = own_files(shop, kind)
    for name, text in texts.items():
        (out / name).parent.mkdir(parents=True, exist_ok=True)
        (out / name).write_text(text, encoding="utf-8")
    desk.tell({"files": [str(out / name) for name in texts]}, lambda: [f"Written: {out / name}" for name in texts])


def _shows(typed: tuple[str, ...]) -> tuple[ShowsTyped, ...]:
    made = []
    for one in typed:
        cause, _, rest = one.partition("=")
        how_well, _, result = rest.partition(":")
        made.append(ShowsTyped(cause.strip(), how_well, result))
    return tuple(made)


def _check_typed(typed: CheckOptions) -> CheckTyped:
    return CheckTyped(
        words=typed["words"],
        minutes=typed["minutes"],
        results=typed["results"],
        tools=typed["tools"],
        access=typed["access"],
        shows=_shows(typed["shows"]),
        runs_engine=typed["runs_engine"],
        hazards=typed["hazards"],
    )


def _change(shop: Shop, name: str, typed: AnyTyped) -> None:
    given: dict[str, Any] = {key: value for key, value in typed.items() if value is not None and value != ()}
    if typed["shows"]:
        given["shows"] = _shows(typed["shows"])
    change_entry(shop, name, given)


def _answer(desk: Desk, shop: Shop, name: str) -> None:
    line = next(one for one in own_lines(shop) if one.name == name)
    desk.tell(line, lambda: _told(line))


def _told(one: OwnLine) -> list[str]:
    by = f" by {one.made_by}" if one.made_by else ""
    lines = [wrap(f"{one.words}{'' if one.stands else ' (taken back)'}", first=f"{one.what} ", indent="  ")]
    lines += [wrap(says, first="  ", indent="    ") for says in one.says]
    return [*lines, wrap(f"{one.name}; {one.kind_words}; from job {one.job}{by}", first="  ", indent="    ")]
