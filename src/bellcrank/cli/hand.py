"""``bellcrank hand``: what somebody's tightening by feel is worth, from readings with a torque wrench."""

from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, every_command, pass_desk, unit_option
from bellcrank.cli.terminal import heading, wrap
from bellcrank.errors import NotAllowedNow, NotUnderstood
from bellcrank.fastening.hand import FEWEST_READINGS
from bellcrank.fastening.hand_against import HandAgainst
from bellcrank.fastening.threads import parse_thread
from bellcrank.shop.hand import HOW, HandLine, PersonHand, against_wanted, hand_of, record_readings, take_back_reading
from bellcrank.shop.premises import Shop
from bellcrank.shop.words import counted
from bellcrank.units import read_positive

TYPE_IT = "Type it like: bellcrank hand --thread M6 --reading “7 N·m” --reading ..."


class Typed(TypedDict):
    """What may be typed about a hand."""

    thread: str
    readings: tuple[str, ...]
    person: str
    wrench: str
    wanted: str
    undo: bool
    unit: str


@dataclass(frozen=True, slots=True)
class ThreadAnswer:
    """A hand on one size of thread, every figure named with its unit; without a window the figures are missing."""

    thread: str
    readings_nm: tuple[float, ...]
    still_needed: int  # readings, until they can say something
    mean_nm: float | None
    deviation_nm: float | None
    torque_low_nm: float | None
    torque_high_nm: float | None
    spread: float | None
    scatter: float | None
    words: str


@dataclass(frozen=True, slots=True)
class HandAnswer:
    """All that is known of a hand, and what was just done about it."""

    person: str
    threads: tuple[ThreadAnswer, ...]
    against: HandAgainst | None  # the torque that is wanted; none wanted, or too few readings yet
    taken_back: str  # the reading, in the words it was typed in


@click.command("hand")
@click.option("--thread", default="", metavar="M6|1/4-20", help="The thread that was tightened by feel.")
@click.option("--reading", "readings", multiple=True, metavar="“7 N·m”", help="What the wrench showed; one for each.")
@click.option("--person", default="", metavar="NAME", help="Whose hand; else the shop's mechanic's.")
@click.option("--wrench", default="", metavar="WORDS", help="A note on the wrench.")
@click.option("--wanted", default="", metavar="“9 N·m”", help="With --thread: hold the hand against this torque.")
@click.option("--undo", is_flag=True, help="Take the last reading back; with --thread, the last of that.")
@unit_option
@every_command
@pass_desk
def command(desk: Desk, /, **typed: Unpack[Typed]) -> None:
    """Keep readings of what was tightened by feel, and say what that hand is worth."""
    _refuse_unclear(typed)
    wanted = read_positive(typed["wanted"], "torque", what="The torque it should be").si if typed["wanted"] else None
    with desk.shop() as shop:
        taken_back = _take_back(shop, typed) if typed["undo"] else ""
        if typed["readings"]:
            record_readings(shop, typed["thread"], typed["readings"], person=typed["person"], wrench=typed["wrench"])
        known = hand_of(shop, typed["person"])
    against = None if wanted is None else _against(known, typed, wanted)
    answer = HandAnswer(known.person, tuple(_figures(line, typed["unit"]) for line in known.lines), against, taken_back)
    desk.tell(answer, lambda: _lines(known, answer, waits=wanted is not None and against is None))


def _refuse_unclear(typed: Typed) -> None:
    """Refuse what does not go together before anything is kept."""
    if typed["undo"] and (typed["readings"] or typed["wanted"] or typed["wrench"]):
        raise NotUnderstood("--undo goes alone, or with --person and --thread. Take the reading back first.")
    if typed["wrench"] and not typed["readings"]:
        raise NotUnderstood("The note on the wrench belongs to readings. Type --reading “7 N·m” with it.")
    if (typed["readings"] or typed["wanted"]) and not typed["thread"]:
        raise NotUnderstood("On which thread? Type --thread M6 with it.")


def _take_back(shop: Shop, typed: Typed) -> str:
    """Take back the last reading, of a thread where one is named, and say which."""
    if not typed["thread"]:
        return take_back_reading(shop, person=typed["person"])
    known, name = hand_of(shop, typed["person"]), parse_thread(typed["thread"]).name
    line = next((one for one in known.lines if one.thread == name), None)
    if line is None:
        raise NotAllowedNow(f"There is no reading of {name} to take back for {known.person}. Look with --person.")
    return take_back_reading(shop, line.readings[-1].id, person=typed["person"])


def _against(known: PersonHand, typed: Typed, wanted: float) -> HandAgainst | None:
    """Hold the hand against a torque; None when readings were just kept, and they are still too few."""
    name = parse_thread(typed["thread"]).name
    if typed["readings"] and not any(hand.thread.name == name for hand in known.hands):
        return None
    return against_wanted(known, typed["thread"], wanted, typed["unit"])


def _figures(line: HandLine, unit: str) -> ThreadAnswer:
    hand = line.hand
    return ThreadAnswer(
        thread=line.thread,
        readings_nm=tuple(one.torque_nm for one in line.readings),
        still_needed=max(0, FEWEST_READINGS - len(line.readings)),
        mean_nm=hand.mean if hand else None,
        deviation_nm=hand.deviation if hand else None,
        torque_low_nm=hand.low if hand else None,
        torque_high_nm=hand.high if hand else None,
        spread=hand.spread if hand else None,
        scatter=hand.scatter if hand else None,
        words=hand.said(unit) if hand else line.says,
    )


def _lines(known: PersonHand, answer: HandAnswer, *, waits: bool) -> list[str]:
    lines = [f"the hand of {known.person}"]
    if answer.taken_back:
        lines.append(wrap(answer.taken_back, first="taken back: ", indent="  "))
    for line, figures in zip(known.lines, answer.threads, strict=True):
        lines += [heading(line.thread), *_thread_lines(line, figures)]
    if not known.lines:
        lines.append("  No reading stands." if answer.taken_back else "  Nothing was read yet.")
    if answer.against:
        lines += ["", wrap(answer.against.words, first="  ", indent="  ")]
    if waits:
        lines += [
            "",
            wrap("The readings are kept; ask --wanted again when they give a window.", first="  ", indent="  "),
        ]
    if known.lines and len(known.hands) == len(known.lines):
        return lines
    return [*lines, "", *(wrap(one, first="  - ", indent="    ") for one in (*HOW, TYPE_IT))]


def _thread_lines(line: HandLine, figures: ThreadAnswer) -> list[str]:
    lines = [wrap(figures.words, indent="  ", first="  ")]
    if figures.still_needed:
        lines.append(f"  {counted(figures.still_needed, 'more reading', 'more readings')} to take")
    return [*lines, wrap(", ".join(one.typed for one in line.readings), first="  read: ", indent="  ")]
