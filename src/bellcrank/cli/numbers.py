"""``bellcrank numbers``: answers of the numbers bench put into a job's step, listed, and taken back."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from bellcrank.cli.desk import Desk, by_option, every_command, pass_desk
from bellcrank.cli.job_number import number_argument
from bellcrank.cli.recorded import who
from bellcrank.cli.refusals import closest
from bellcrank.cli.show_job import head
from bellcrank.cli.terminal import heading, wrap
from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.knowledge.assembly import Operation
from bellcrank.shop.fill_sheet import job_sheet
from bellcrank.shop.machine_model import assemblies_for
from bellcrank.shop.premises import Shop
from bellcrank.shop.reckoned import (
    StandingAnswer,
    keep_reckoned,
    operation_of,
    standing_answers,
    take_back_reckoned,
    told_by_machine,
    with_machine,
)
from bellcrank.shop.records import read_record
from bellcrank.shop.room import Room
from bellcrank.shop.rooms import ROOMS, room_named
from bellcrank.shop.sheet import JobSheet

ALIASES = {"leakdown": "leak-down"}  # the command's own name
TYPE_IT = (
    "Type it like: bellcrank numbers NUMBER flywheel-off key --tell key=606 --tell “shaft=20 mm” --tell "
    "key-material=key-steel."
)


class Typed(TypedDict):
    """What may be typed about the answers in a job."""

    step: str
    room: str
    told: tuple[str, ...]
    undo: bool
    by: str


@dataclass(frozen=True, slots=True)
class AskedLine:
    """Something an answer is worked out from."""

    name: str
    label: str
    example: str
    needed: bool
    known: str  # what the machine tells by itself


@dataclass(frozen=True, slots=True)
class NumbersOfJob:
    """The answers that stand in a job's steps, and what was just done about them."""

    number: int
    answers: tuple[StandingAnswer, ...]
    recorded: int | None  # entry of the answer that was just put in
    taken_back: int | None  # entry of the one that was just taken back
    asks: tuple[AskedLine, ...]  # what may be told, where a question was named and nothing was told


@click.command("numbers")
@number_argument
@click.argument("step", required=False, default="", metavar="[STEP")
@click.argument("room", required=False, default="", metavar="QUESTION]")
@click.option("--tell", "told", multiple=True, metavar="NAME=VALUE", help="What it is worked out from; repeatable.")
@click.option("--take-back", "undo", is_flag=True, help="Take back the answer to QUESTION that stands in STEP.")
@by_option
@every_command
@pass_desk
def command(desk: Desk, /, number: int, **typed: Unpack[Typed]) -> None:
    """List what was worked out for the steps of job NUMBER, or put the answer to QUESTION into STEP.

    QUESTION is strip, taper, key, pull-off, strike, timing, leak-down, compression or jet; without --tell it says what
    it asks.
    """
    told = told_from(typed["told"])
    if (told or typed["undo"] or typed["step"]) and not typed["room"]:
        raise NotUnderstood(f"Which question, for which step? It must be one of {', '.join(ROOMS)}. {TYPE_IT}", "room")
    if told and typed["undo"]:
        raise NotUnderstood("--take-back goes without --tell. Take the answer back first, then work it out again.")
    with desk.shop() as shop:
        done = _do(shop, number, typed, told) if typed["room"] else NumbersOfJob(number, (), None, None, ())
        sheet = job_sheet(shop, number)
        answers = standing_answers(shop, number)
    answer = NumbersOfJob(number, answers, done.recorded, done.taken_back, done.asks)
    desk.tell(answer, lambda: _lines(sheet, answer, typed["room"]))


def told_from(typed: Iterable[str]) -> dict[str, str]:
    """Read what was typed as NAME=VALUE; a name may be written like an option, ``key-material``.

    >>> told_from(["shaft=20 mm", "key-material=zinc-3"])
    {'shaft': '20 mm', 'key_material': 'zinc-3'}
    """
    told = {}
    for text in typed:
        name, _, value = (part.strip() for part in text.partition("="))
        if not name or not value:
            raise NotUnderstood(f"“{text}” does not say what is told. Write it like “shaft=20 mm”.", "told")
        told[name.replace("-", "_")] = value
    return told


def _do(shop: Shop, number: int, typed: Typed, told: dict[str, str]) -> NumbersOfJob:
    room, step = room_named(ALIASES.get(typed["room"], typed["room"])), _step(shop, number, typed["step"])
    if typed["undo"]:
        gone = take_back_reckoned(shop, number, step.id, room.key, who(shop, typed["by"]))
        return NumbersOfJob(number, (), None, gone, ())
    if not told:
        return NumbersOfJob(number, (), None, None, _asks(room, told_by_machine(shop, number, step.id, room.key)))
    _refuse_unknown(room, told)
    known = with_machine(shop, number, step.id, room.key, told)
    if not room.ready(known):
        missing = [one.label for one in room.fields if _needed(room, known, one.name) and not known.get(one.name)]
        raise NotUnderstood(
            f"“{room.title}” needs more: {'; '.join(missing)}. “bellcrank numbers {number} {step.id} {room.key}” lists "
            "what to tell."
        )
    return NumbersOfJob(
        number, (), keep_reckoned(shop, number, step.id, room.key, known, who(shop, typed["by"])), None, ()
    )


def _step(shop: Shop, number: int, typed: str) -> Operation:
    try:
        return operation_of(shop, number, typed)
    except NotFound as refusal:
        if refusal.field != "operation":
            raise
        known = assemblies_for(shop, read_record(shop, number))
        names = [step.id for assembly in known for step in assembly.operations]
        listed = f" “bellcrank steps {number} --to PART” lists them."
        raise NotFound(f"{refusal.sentence}{closest(typed, names)}{listed}", refusal.field) from refusal


def _refuse_unknown(room: Room, told: dict[str, str]) -> None:
    names = [one.name for one in room.fields]
    for name in told:
        if name not in names:
            raise NotUnderstood(
                f"“{room.title}” does not ask for “{name}”. It must be one of {', '.join(names)}.", "told"
            )


def _needed(room: Room, told: dict[str, str], name: str) -> bool:
    return name in room.needs and name not in room.replaced(told)


def _asks(room: Room, known: dict[str, str]) -> tuple[AskedLine, ...]:
    return tuple(
        AskedLine(one.name, one.label, one.example, one.name in room.needs, known.get(one.name, ""))
        for one in room.fields
    )


def _lines(sheet: JobSheet, answer: NumbersOfJob, room: str) -> list[str]:
    lines = head(sheet)
    done = {answer.recorded: "recorded", answer.taken_back: "taken back"}
    for event in sheet.events:
        if event.id in done:
            lines.append(wrap(f"{event.words} (entry {event.id})", first=f"{done[event.id]}: ", indent="  "))
    if answer.asks:
        lines += [heading(room_named(ALIASES.get(room, room)).title), *(_asked(one) for one in answer.asks)]
        return [*lines, "", wrap(TYPE_IT, first="  - ", indent="    ")]
    for one in answer.answers:
        lines += [heading(one.operation), wrap(one.do, first="  ", indent="  "), *_standing(one)]
    if not answer.answers:
        lines += ["", "  No answer stands in a step of this job.", wrap(TYPE_IT, first="  - ", indent="    ")]
    return lines


def _asked(one: AskedLine) -> str:
    needed = ", needed" if one.needed and not one.known else ""
    known = f"; the machine tells {one.known}" if one.known else ""
    return wrap(f"{one.name}  {one.label}, like {one.example}{needed}{known}", first="  ", indent="      ")


def _standing(one: StandingAnswer) -> list[str]:
    found = one.answer
    lines = [
        wrap(f"{found.title}: {found.said}, {found.basis}", first="  ", indent="    "),
        *(wrap(words, first="    ", indent="      ") for words in found.sentences),
        wrap(f"worked out from {found.told}", first="    - ", indent="      "),
    ]
    if found.assumed:
        lines.append(wrap(f"not told, so taken: {found.assumed}", first="    - ", indent="      "))
    return [*lines, f"    - {found.room}, entry {one.entry}"]
