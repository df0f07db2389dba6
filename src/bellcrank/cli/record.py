"""``bellcrank record``: a machine nobody drew up, step by step while it comes apart."""

from pathlib import Path
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_work import work_lines
from bellcrank.errors import NotUnderstood
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.premises import Shop
from bellcrank.shop.recording import begin_recording, keep_as_model, record_step_with, take_back_last_step
from bellcrank.shop.recording_typed import StepTyped, fasteners_in_words

BOLTS_HELP = "Like “2 x M6 x 25, 10 mm socket, 8.8, into cast-aluminium, front”; may be repeated."


class Options(TypedDict):
    """What may be typed of a step."""

    lead_off: bool
    part: str
    do: str
    tool: str
    bolts: tuple[str, ...]
    aside: bool
    lies: str
    after: tuple[str, ...]
    note: str
    photo: tuple[Path, ...]
    take_back: bool
    keep: bool
    keep_for_kind: bool
    words: str
    by: str


@click.command("record")
@number_argument
@click.option("--lead-off", is_flag=True, help="The plug lead is off and tied back: every recording begins so.")
@click.option("--part", default="", metavar="WORDS", help="What came off.")
@click.option("--do", default="", metavar="WORDS", help="What was done; else “Take the PART off”.")
@click.option("--tool", default="", metavar="WORDS", help="Else what turns the bolts, or bare hands.")
@click.option("--bolts", multiple=True, metavar="WORDS", help=BOLTS_HELP)
@click.option("--aside", is_flag=True, help="Swung aside, not taken off.")
@click.option(
    "--lies", default="", metavar="WORDS", help="How the machine lies now, like “on its side”; else as before."
)
@click.option("--after", multiple=True, metavar="STEP", help="Had to be done first; “nothing”: the lead alone.")
@click.option("--note", default="", metavar="WORDS")
@click.option("--photo", multiple=True, metavar="FILE", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--take-back", is_flag=True, help="Take the last recorded step back.")
@click.option("--keep", is_flag=True, help="Keep it as the model of that maker and model, or of the kind.")
@click.option("--keep-for-kind", is_flag=True, help="Keep it as the model of every machine of the kind.")
@click.option("--words", default="", metavar="WORDS", help="What the kept model is called.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, **typed: Unpack[Options]) -> None:
    """Record a step that was just done on job NUMBER; without an option, show what was recorded."""
    photos = [(path.name, path.read_bytes()) for path in typed["photo"]]
    if not typed["part"] and (typed["do"] or typed["bolts"] or photos or typed["note"]):
        raise NotUnderstood("Which part came off or was swung aside? Say it with --part.", "part")
    with desk.shop() as shop:
        by = who(shop, typed["by"])
        if typed["take_back"]:
            take_back_last_step(shop, number, by)
        if typed["lead_off"]:
            begin_recording(shop, number, by)
        if typed["part"]:
            record_step_with(shop, number, _step(shop, typed), note=typed["note"], photos=photos, by=by)
        if typed["keep"] or typed["keep_for_kind"]:
            keep_as_model(shop, number, typed["words"], every_kind=typed["keep_for_kind"], by=by)
        sheet = job_sheet(shop, number)
    record = {"number": number, "work": sheet.work, "recorded": sheet.events[-1] if sheet.events else None}
    desk.tell(record, lambda: [*head(sheet), "", *work_lines(number, sheet.work)])


def _step(shop: Shop, typed: Options) -> StepTyped:
    return StepTyped(
        part=typed["part"],
        do=typed["do"],
        tool=typed["tool"],
        aside=typed["aside"],
        lies=typed["lies"],
        needs=typed["after"],
        fasteners=tuple(fasteners_in_words(one, shop.library) for one in typed["bolts"]),
    )
