"""``bellcrank torque``: the torques of a job, one set for a fastener, or one computed from a joint."""

from dataclasses import replace
from typing import TypedDict, Unpack

import click

from bellcrank.bootstrap import open_library
from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.job_number import JobNumber
from bellcrank.cli.recorded import who
from bellcrank.cli.show_job import head
from bellcrank.cli.show_torque import answer_lines, fasteners_of, job_torque_lines, yield_lines
from bellcrank.cli.torque_answer import torque_answer, yield_answer
from bellcrank.errors import NotAllowedNow, NotUnderstood
from bellcrank.fastening.hand_against import CarriedHand
from bellcrank.fastening.heads import HEADS
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.ways import SCATTER
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.hand import hand_for
from bellcrank.shop.numbers import joint_from_words, left_out, read_share
from bellcrank.shop.premises import Shop
from bellcrank.shop.work import record_torque
from bellcrank.sources import Basis
from bellcrank.units import read_positive

BY = " or ".join(f"“{way}”" for way in SCATTER)
JOINT_WORDS = ("thread", "strength", "into", "engaged", "under", "head", "hole", "friction", "head_friction")
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
    hole: str
    friction: str
    head_friction: str
    to_yield: str
    hand: str
    check: str
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
@click.option("--head", default="", metavar="|".join((*HEADS, "“11 mm”")), help="Its kind, else hex, or its face.")
@click.option("--hole", default="", metavar="“9 mm”", help="Under the head; else as drilled for the screw.")
@click.option("--friction", default="", metavar="0.14", help="In the thread, and under the head unless that is given.")
@click.option("--head-friction", default="", metavar="0.12", help="Under the head.")
@click.option("--to-yield", default="", metavar="0.9", help="The torque to this share of the screw's yield instead.")
@click.option("--hand", default="", metavar="NAME", help="Tightened by feel: by the hand of this person, as measured.")
@click.option("--check", default="", metavar="“80 in·lb”", help="A printed torque to be held against the joint.")
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
    words = {name: str(typed[name]) for name in JOINT_WORDS}  # type: ignore[literal-required]
    library = open_library()
    joint = joint_from_words(library, {**words, "tightened_by": typed["by"]})
    if typed["to_yield"]:
        share = yield_answer(joint, read_share(typed["to_yield"]))
        desk.tell(share, lambda: yield_lines(joint, share))
        return
    told = left_out(joint, words)
    if typed["hand"]:
        joint, by_hand = _by_hand(desk, joint, typed["hand"])
        told = (by_hand, *told)
    published = read_positive(typed["check"], "torque", what="The printed torque") if typed["check"] else None
    answer = torque_answer(joint, told, published)
    desk.tell(answer, lambda: answer_lines(joint, answer))


def _by_hand(desk: Desk, joint: Joint, person: str) -> tuple[Joint, str]:
    """Give the joint tightened by a person's own hand, and what that hand does on its thread."""
    with desk.shop() as shop:
        hand = hand_for(shop, joint.thread.name, person)
    if isinstance(hand, CarriedHand):
        raise NotAllowedNow(f"{hand.words} Take them first: “bellcrank hand --help” says how.")
    return replace(joint, tightened_by="hand feel", scatter=hand.scatter), hand.words
