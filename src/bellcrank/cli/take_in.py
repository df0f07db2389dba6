"""``bellcrank take-in``: half a story makes a numbered job."""

from collections.abc import Iterable
from pathlib import Path
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_next import next_lines
from bellcrank.errors import NotUnderstood
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.intake import Story, take_in
from bellcrank.shop.photos import add_photo, check_photo
from bellcrank.shop.premises import Shop


class Typed(TypedDict):
    """What may be typed at the door."""

    words: str
    complaint: tuple[str, ...]
    fact: tuple[str, ...]
    name: str
    phone: str
    email: str
    address: str
    kind: str
    maker: str
    model: str
    serial: str
    engine: str
    agreed: str
    photo: tuple[Path, ...]


@click.command("take-in")
@click.argument("words", default="", metavar="[“THE CUSTOMER'S WORDS”]")
@click.option("--complaint", multiple=True, metavar="ID", help="A known complaint, like wont-start; may be repeated.")
@click.option("--fact", multiple=True, metavar="ID=ANSWER", help="A fact told, like hit-something=yes; repeatable.")
@click.option("--name", default="", help="Of the customer.")
@click.option("--phone", default="")
@click.option("--email", default="")
@click.option("--address", default="")
@click.option("--kind", default="", help="Of machine, like two-stroke-handheld; else a walk-behind mower.")
@click.option("--maker", default="", help="As on the machine.")
@click.option("--model", default="", help="As on the machine.")
@click.option("--serial", default="", help="As on the plate.")
@click.option("--engine", default="", metavar="CARD", help="Engine card.")
@click.option("--agreed", default="", metavar="AMOUNT", help="What may be spent before asking, tax included.")
@click.option("--photo", multiple=True, metavar="FILE", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Take a machine in. Only the complaint is needed: the customer's words, or --complaint."""
    photos = [(path.name, path.read_bytes()) for path in typed["photo"]]
    for name, data in photos:
        check_photo(name, data)
    with desk.shop() as shop:
        number = _take_in(shop, typed)
        for name, data in photos:
            add_photo(shop, number, name, data, who(shop, ""))
        sheet = job_sheet(shop, number)
    desk.tell(sheet, lambda: [*head(sheet), *next_lines(sheet, 3, 1)])


def facts_from(typed: Iterable[str]) -> dict[str, str]:
    """Read facts typed as ID=ANSWER; a bare ID means yes.

    >>> facts_from(["hit-something=yes", "tipped-over"])
    {'hit-something': 'yes', 'tipped-over': 'yes'}
    """
    facts = {}
    for text in typed:
        name, _, answer = text.partition("=")
        if not name.strip():
            raise NotUnderstood(f"The fact “{text}” has no name. Write it like hit-something=yes.", "fact")
        facts[name.strip()] = answer.strip() or "yes"
    return facts


def _take_in(shop: Shop, typed: Typed) -> int:
    story = Story(
        complaint_words=typed["words"],
        complaints=typed["complaint"],
        facts=facts_from(typed["fact"]),
        name=typed["name"],
        phone=typed["phone"],
        email=typed["email"],
        address=typed["address"],
        kind=typed["kind"],
        maker=typed["maker"],
        model=typed["model"],
        serial=typed["serial"],
        engine_card=typed["engine"],
        agreed_limit=typed["agreed"],
    )
    return take_in(shop, story)
