"""``bellcrank torque``: the torques of a job, one set for a fastener, or one computed from a joint."""

from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import JobNumber
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_torque import answer_lines, fasteners_of, job_torque_lines
from bellcrank.cli.torque_answer import torque_answer
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.heads import HEADS
from bellcrank.fastening.ways import SCATTER
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.numbers import joint_from_words
from bellcrank.shop.premises import Shop
from bellcrank.shop.work import record_torque
from bellcrank.sources import Basis

BY = " or ".join(f"“{way}”" for way in SCATTER)
TWO_USES = (
    "Type a job, like “bellcrank torque 214”, or a joint, like “bellcrank torque --thread 1/4-20 --class G5 "
    "--into \"die-cast aluminium\" --engaged 10mm”."
)  # fmt: skip


class Typed(TypedDict):
    """What may be typed about torques."""

    number: int | None
    fastener: str
    torque: str
    published: str
    own: bool
    thread: str
    strength: str
    into: str
    engaged: str
    under: str
    head: str
    friction: str
    by: str


@click.command("torque")
@click.argument("number", type=JobNumber(), required=False)
@click.option("--fastener", default="", metavar="ID", help="With --set: the fastener, as the list names it.")
@click.option("--set", "torque", default="", metavar="“80 in·lb”", help="Keep this torque for the fastener.")
@click.option("--published", default="", metavar="WHERE", help="With --set: it is the maker's, and stands there.")
@click.option("--own", is_flag=True, help="With --set: it is this shop's own number.")
@click.option("--thread", default="", metavar="M8|1/4-20", help="Compute: the thread.")
@click.option("--class", "strength", default="", metavar="8.8|G5", help="Mark on the head; else 8.8.")
@click.option("--into", default="", metavar="MATERIAL", help="What it screws into, or “nut”; else die-cast aluminium.")
@click.option("--engaged", default="", metavar="“10 mm”", help="Length of full thread engaged; else assumed.")
@click.option("--under", default="", metavar="MATERIAL", help="What lies under the head; else the same.")
@click.option("--head", default="", metavar="|".join(HEADS), help="Kind of head; else hex.")
@click.option("--friction", default="", metavar="0.14", help="In thread and under head.")
@click.option("--by", default="", metavar="HOW|NAME", help=f"Compute: {BY}, else the first. With --set: who set it.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """List the torques of job NUMBER, keep one for a fastener, or compute one from a joint."""
    if (typed["number"] is None) == (not typed["thread"]):
        raise NotUnderstood(f"It is not clear which torque is meant. {TWO_USES}")
    if typed["number"] is None:
        _compute(desk, typed)
        return
    with desk.shop() as shop:
        if typed["torque"] or typed["fastener"]:
            _keep(shop, typed["number"], typed)
        sheet = job_sheet(shop, typed["number"])
    record = {"number": sheet.number, "fasteners": fasteners_of(sheet)}
    desk.tell(record, lambda: [*head(sheet), *job_torque_lines(sheet)])


def _keep(shop: Shop, number: int, typed: Typed) -> None:
    if not (typed["torque"] and typed["fastener"]):
        raise NotUnderstood("A torque is kept with both --fastener ID and --set TORQUE. Type both.")
    if bool(typed["published"]) == typed["own"]:
        raise NotUnderstood(
            "Whose torque is it? Type --published with the place where it stands, or --own for the shop's own number."
        )
    record_torque(
        shop,
        number,
        typed["fastener"],
        typed["torque"],
        basis=Basis.OWN_SHOP if typed["own"] else Basis.PUBLISHED,
        source=typed["published"],
        by=who(shop, typed["by"]),
    )


def _compute(desk: Desk, typed: Typed) -> None:
    words = {
        "thread": typed["thread"],
        "strength": typed["strength"],
        "into": typed["into"],
        "engaged": typed["engaged"],
        "under": typed["under"],
        "head": typed["head"],
        "friction": typed["friction"],
        "tightened_by": typed["by"],
    }
    joint = joint_from_words(open_library(), words)
    answer = torque_answer(joint)
    desk.tell(answer, lambda: answer_lines(joint, answer))
