"""``bellcrank models``: what this shop keeps of how machines come apart."""

from pathlib import Path

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.recorded import who
from bellcrank.cli.terminal import wrap
from bellcrank.shop.own_models import OwnModelLine, model_files, own_model_lines, take_back_model
from bellcrank.shop.premises import Shop


@click.group("models")
def command() -> None:
    """Look after what this shop keeps of how machines come apart: recorded, or found unlike the drawing."""


@command.command("list")
@every_command
@pass_desk
def list_(desk: Desk) -> None:
    """List what is kept for every machine like one, also what was taken back."""
    with desk.shop() as shop:
        _answer(desk, shop)


@command.command("take-back")
@click.argument("number", type=int)
@by_option
@every_command
@pass_desk
def take_back(desk: Desk, number: int, by: str) -> None:
    """Take back what is kept under NUMBER; the machine it was found on keeps it."""
    with desk.shop() as shop:
        take_back_model(shop, number, who(shop, by))
        _answer(desk, shop)


@command.command("export")
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), default="own-models", show_default=True)
@every_command
@pass_desk
def export(desk: Desk, out: Path) -> None:
    """Write the recorded models in the format of packs, to be moved into one."""
    with desk.shop() as shop:
        texts = model_files(shop)
    for name, text in texts.items():
        (out / name).parent.mkdir(parents=True, exist_ok=True)
        (out / name).write_text(text, encoding="utf-8")
    desk.tell({"files": [str(out / name) for name in texts]}, lambda: [f"Written: {out / name}" for name in texts])


def _answer(desk: Desk, shop: Shop) -> None:
    lines = own_model_lines(shop)
    desk.tell({"models": lines}, lambda: [_told(one) for one in lines] or ["Nothing is kept yet."])


def _told(one: OwnModelLine) -> str:
    parts = f": {', '.join(one.parts)}" if one.parts else ""
    gone = "" if one.stands else " (taken back)"
    where = f"{one.maker} {one.model}".strip() or one.kind
    return wrap(f"{one.words}{parts}{gone}; {where}; from job {one.job}", first=f"{one.id:>3}  ", indent="     ")
