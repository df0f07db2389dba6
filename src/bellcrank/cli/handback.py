"""``bellcrank handback``: the release list, and handing the machine back."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import who
from bellcrank.cli.refusals import closest
from bellcrank.cli.show_job import head
from bellcrank.cli.show_release import release_lines
from bellcrank.cli.terminal import wrap
from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.handback.proofs import FRAMES, MADE_BEFORE, STOPWATCH, ProofResult
from bellcrank.knowledge.model import ReleaseItem
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.premises import Shop
from bellcrank.shop.release import hand_back, items_of, judge_answer, picked_up, record_proof

# answer of an item -> the one thing that is typed for it after ITEM=
TYPED_FOR = {"yes-no": "answer", "yes-no-none": "answer", "plug-lead-last": "answer", "blade-bolt-torque": "torque"}
OPTIONS_FOR = {"stop-time": "--stop-times", "tip-speed": "--top-speed and --blade"}


@dataclass(frozen=True, slots=True)
class Judged:
    """An answer to an item, and what it amounts to."""

    item: ReleaseItem
    answer: dict[str, str]
    result: ProofResult


class Typed(TypedDict):
    """What may be typed at the hand-back."""

    answer: tuple[str, ...]
    stop_times: str
    timing: str
    old: bool
    top_speed: str
    blade: str
    ready: bool
    not_ready: bool
    because: str
    fetched: bool
    by: str


@click.command("handback")
@number_argument
@click.option("--answer", multiple=True, metavar="ITEM=yes|no|none", help="Answer an item of the list; repeatable.")
@click.option("--stop-times", default="", metavar="“2.4 2.5 2.6”", help="Seconds the blade took to stop, three tries.")
@click.option("--timing", default=STOPWATCH, type=click.Choice([*FRAMES, STOPWATCH]), help="How they were taken.")
@click.option("--made-before-july-1982", "old", is_flag=True, help="The mower is that old: other limits hold.")
@click.option("--top-speed", default="", metavar="“3000 rpm”", help="Of the engine, no load; with --blade.")
@click.option("--blade", default="", metavar="“530 mm”", help="Length of the blade from tip to tip.")
@click.option("--ready", is_flag=True, help="Mark the machine ready.")
@click.option("--not-ready", is_flag=True, help="It goes back as it is; recorded so, with --because.")
@click.option("--because", default="", metavar="TEXT", help="What was declined and by whom.")
@click.option("--fetched", is_flag=True, help="The customer has fetched it.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, number: int, **typed: Unpack[Typed]) -> None:
    """Show the release list of job NUMBER, answer its items, and hand the machine back."""
    _refuse_contradictions(typed)
    with desk.shop() as shop:
        by = who(shop, typed["by"])
        judged = _answers(shop, number, typed)
        for one in judged:
            record_proof(shop, number, one.item.id, one.answer, by)
        if typed["ready"] or typed["not_ready"]:
            hand_back(shop, number, ready=typed["ready"], reason=typed["because"], by=by)
        if typed["fetched"]:
            picked_up(shop, number, by)
        sheet = job_sheet(shop, number)
    recorded = [{"item": one.item.id, "status": one.result.status, "detail": one.result.detail} for one in judged]
    record = {"number": number, "state": sheet.state, "recorded": recorded, "release": sheet.release}
    told = [_in_words(one) for one in judged]
    desk.tell(record, lambda: [*head(sheet), *told, *release_lines(number, sheet.release)])


def _in_words(one: Judged) -> str:
    detail = f", {one.result.detail}" if one.result.detail not in ("", "yes", "no") else ""
    return wrap(f"{one.item.id} {one.result.status}{detail}", first="recorded: ", indent="  ")


def _refuse_contradictions(typed: Typed) -> None:
    if typed["ready"] and typed["not_ready"]:
        raise NotUnderstood("Both --ready and --not-ready were typed. Type the one that is meant.")
    if typed["because"] and not typed["not_ready"]:
        raise NotUnderstood("--because goes with --not-ready. Type both, or leave it out.")
    if bool(typed["top_speed"]) != bool(typed["blade"]):
        raise NotUnderstood("The tip speed needs both --top-speed and --blade. Measure the other one and type both.")


def _answers(shop: Shop, number: int, typed: Typed) -> list[Judged]:
    """Judge every answer typed before the first is recorded: one that cannot be read records none."""
    items = items_of(shop, number)
    answers = [_one_answer(items, text) for text in typed["answer"]]
    if typed["stop_times"]:
        times = {"times": typed["stop_times"], "timing": typed["timing"], "made": MADE_BEFORE if typed["old"] else ""}
        answers += _of_answer(items, "stop-time", times)
    if typed["top_speed"]:
        speed = {"speed": typed["top_speed"], "blade": typed["blade"]}
        answers += _of_answer(items, "tip-speed", speed)
    return [Judged(item, answer, judge_answer(shop, number, item.id, answer)) for item, answer in answers]


def _of_answer(
    items: Sequence[ReleaseItem], answer: str, values: dict[str, str]
) -> list[tuple[ReleaseItem, dict[str, str]]]:
    """Give a measured answer to the items it answers; a machine that has none of them is told so."""
    found = [(item, values) for item in items if item.answer == answer]
    if not found:
        raise NotUnderstood(f"The release list of this machine has no item for {OPTIONS_FOR[answer]}. Leave it out.")
    return found


def _one_answer(items: Sequence[ReleaseItem], text: str) -> tuple[ReleaseItem, dict[str, str]]:
    name, equals, value = (part.strip() for part in text.partition("="))
    item = next((one for one in items if one.id == name), None)
    if item is None:
        close = closest(name, [one.id for one in items])
        raise NotFound(f"There is no item “{name}” on its release list.{close} “bellcrank handback” lists them.")
    if item.answer in OPTIONS_FOR:
        raise NotUnderstood(f"“{name}” is answered with {OPTIONS_FOR[item.answer]}. Type that instead of --answer.")
    if not equals:
        raise NotUnderstood(f"--answer {name} does not say what was found. Write it like {name}=yes.")
    return item, {TYPED_FOR[item.answer]: value}
