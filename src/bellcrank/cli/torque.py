"""``bellcrank torque``: the torques of a job, one set for a fastener, or one computed from a joint."""

from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.job_number import JobNumber
from bellcrank.cli.torque_of_joint import tell_computed
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.heads import HEADS
from bellcrank.fastening.ways import SCATTER

BY = " or ".join(f"“{way}”" for way in SCATTER)
COMPUTED = (
    "thread", "strength", "into", "engaged", "under", "head", "hole", "friction", "head_friction", "to_yield", "hand",
    "check", "galvanised", "unit", "by",
)  # fmt: skip
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
    galvanised: bool
    unit: str
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
@click.option("--galvanised", is_flag=True, help="Compute: the screw is hot-dip galvanised.")
@unit_option
@click.option("--by", default="", metavar="HOW|NAME", help=f"Compute: {BY}, else the first. With --set: who set it.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """List the torques of job NUMBER, keep one for a fastener, or compute one from a joint."""
    if (typed["number"] is None) == (not typed["thread"]):
        raise NotUnderstood(f"It is not clear which torque is meant. {TWO_USES}")
    if typed["number"] is None:
        tell_computed(desk, {name: str(typed[name] or "") for name in COMPUTED})  # type: ignore[literal-required]
        return
    from bellcrank.cli.torque_of_job import tell_of_job  # noqa: PLC0415  storage imports slowly, a joint needs none

    kept = {"fastener": typed["fastener"], "torque": typed["torque"], "published": typed["published"]}
    tell_of_job(desk, typed["number"], **kept, own=typed["own"], by=typed["by"])
