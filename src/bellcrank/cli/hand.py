"""``bellcrank hand``: what somebody's tightening by feel is worth, from readings with a torque wrench."""

from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk
from bellcrank.cli.terminal import heading, wrap
from bellcrank.errors import NotUnderstood
from bellcrank.fastening.hand import HandOnThread
from bellcrank.fastening.hand_against import HandAgainst, hand_against
from bellcrank.fastening.threads import parse_thread
from bellcrank.shop.hand import HandLine, PersonHand, hand_of, record_readings, take_back_reading
from bellcrank.shop.premises import Shop
from bellcrank.teardown.torques import WRENCH_SHARE
from bellcrank.units import read_positive

HOW = (
    "Tighten five or more screws of one thread by feel, as you always do.",
    "Set a torque wrench low, pull each screw on slowly, and read the wrench at the moment it moves.",
    "Type every reading as it is, also the odd one: bellcrank hand --thread M6 --reading “7 N·m” --reading ...",
)


class Typed(TypedDict):
    """What may be typed about a hand."""

    thread: str
    readings: tuple[str, ...]
    person: str
    wrench: str
    wanted: str
    undo: bool


@click.command("hand")
@click.option("--thread", default="", metavar="M6|1/4-20", help="The thread that was tightened by feel.")
@click.option("--reading", "readings", multiple=True, metavar="“7 N·m”", help="What the wrench showed; one for each.")
@click.option("--person", default="", metavar="NAME", help="Whose hand; else the shop's mechanic's.")
@click.option("--wrench", default="", metavar="WORDS", help="A note on the wrench.")
@click.option("--wanted", default="", metavar="“9 N·m”", help="With --thread: hold the hand against this torque.")
@click.option("--undo", is_flag=True, help="Take the last reading back.")
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Keep readings of what was tightened by feel, and say what that hand is worth."""
    if (typed["readings"] or typed["wanted"]) and not typed["thread"]:
        raise NotUnderstood("On which thread? Type --thread M6 with it.")
    with desk.shop() as shop:
        _record(shop, typed)
        known = hand_of(shop, typed["person"])
    against = _against(known, typed)
    record = {"person": known.person, "threads": [_figures(line) for line in known.lines], "against": against}
    desk.tell(record, lambda: _lines(known, against))


def _record(shop: Shop, typed: Typed) -> None:
    if typed["undo"]:
        take_back_reading(shop, person=typed["person"])
    if typed["readings"]:
        record_readings(shop, typed["thread"], typed["readings"], person=typed["person"], wrench=typed["wrench"])


def _against(known: PersonHand, typed: Typed) -> HandAgainst | None:
    if not typed["wanted"]:
        return None
    wanted = read_positive(typed["wanted"], "torque", what="The torque it should be").si
    hand = _measured(known, typed["thread"])
    return hand_against(hand, wanted, low=(1 - WRENCH_SHARE) * wanted, high=(1 + WRENCH_SHARE) * wanted)


def _measured(known: PersonHand, thread: str) -> HandOnThread:
    name = parse_thread(thread).name
    line = next((one for one in known.lines if one.thread == name), None)
    if line is None or line.hand is None:
        raise NotUnderstood(line.says if line else f"No reading of {name} by {known.person} is kept yet. {HOW[0]}")
    return line.hand


def _figures(line: HandLine) -> dict[str, object]:
    hand = line.hand
    return {
        "thread": line.thread,
        "readings_nm": [one.torque_nm for one in line.readings],
        "mean_nm": hand.mean if hand else None,
        "deviation_nm": hand.deviation if hand else None,
        "torque_low_nm": hand.low if hand else None,
        "torque_high_nm": hand.high if hand else None,
        "spread": hand.spread if hand else None,
        "scatter": hand.scatter if hand else None,
        "words": line.says,
    }


def _lines(known: PersonHand, against: HandAgainst | None) -> list[str]:
    lines = [f"the hand of {known.person}"]
    for line in known.lines:
        typed = ", ".join(one.typed for one in line.readings)
        lines += [
            heading(line.thread),
            wrap(line.says, indent="  ", first="  "),
            wrap(typed, first="  read: ", indent="  "),
        ]
    if against:
        lines += ["", wrap(against.words, first="  ", indent="  ")]
    if not known.lines:
        lines.append("  Nothing was read yet.")
    if known.hands:
        return lines
    return [*lines, "", *(wrap(one, first="  - ", indent="    ") for one in HOW)]
