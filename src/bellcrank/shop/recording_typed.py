"""A step recorded at the bench as typed, read into what is kept; what is left empty is filled in by a plain rule."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.shop.texts import clean_line
from bellcrank.teardown.changeover import HAND
from bellcrank.teardown.recorded import NUT, RecordedFastener, RecordedStep, is_thread, part_name, step_name
from bellcrank.teardown.safety import PLUG_LEAD
from bellcrank.units import convert, read_positive

ALONE = "nothing"  # said where a step needs no other but the plug lead off
GUESSED_MINUTES = 1.0  # [min] where the clock tells nothing; guess
LEAST_MINUTES, MOST_MINUTES = 0.1, 15.0  # [min] between two taps: shorter is a slip, longer was a break; guess
MOST_OF_A_KIND = 60  # [-] like screws in one step
TURNED_BY = re.compile(r"socket|spanner|bit\b|screwdriver|driver|pliers|allen|hex key|wrench|ring", re.IGNORECASE)
COUNTED = re.compile(r"(?P<count>[0-9]+)\s*[x×]\s*(?P<rest>.+)", re.IGNORECASE)
WITH_LENGTH = re.compile(r"(?P<thread>\S+)\s+[x×]\s+(?P<length>[0-9].*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class FastenersTyped:
    """What was typed of like fasteners."""

    count: str = ""  # "" for one
    words: str = ""
    thread: str = ""
    length: str = ""
    size: str = ""  # what turns it
    where: str = ""
    strength: str = ""
    into: str = ""  # material, or nut
    engaged: str = ""

    @property
    def said(self) -> bool:
        """Whether anything was typed."""
        return any((self.count, self.words, self.thread, self.length, self.size, self.where))


@dataclass(frozen=True, slots=True)
class StepTyped:
    """What was typed of a step; part or words are needed, all else is not."""

    part: str = ""
    do: str = ""
    tool: str = ""
    aside: bool = False  # swung aside and not taken off
    lies: str = ""  # how the machine lies now; "" as before
    needs: Sequence[str] = ()  # steps that had to be done first; () for the one before, "nothing" for the lead alone
    fasteners: Sequence[FastenersTyped] = ()


def read_step(
    typed: StepTyped, before: Sequence[RecordedStep], job: int, minutes: float, library: Library
) -> RecordedStep:
    """Read a step; ``before`` are those recorded already, the plug lead first."""
    do = clean_line(typed.do, "What was done", field="do")
    part = clean_line(typed.part, "The part", field="part")
    if not part:
        raise NotUnderstood("Which part came off or was swung aside? Name it, like belt cover.", "part")
    name = step_name(job, part, (step.id for step in before))
    if part_name(part, name) == PLUG_LEAD:
        raise NotUnderstood("The plug lead is off already; every recording begins with it. Name another part.", "part")
    fasteners = tuple(read_fasteners(one, library) for one in typed.fasteners if one.said)
    tool = clean_line(typed.tool, "The tool", field="tool")
    return RecordedStep(
        id=name,
        do=do or f"{'Swing' if typed.aside else 'Take'} the {part} {'aside' if typed.aside else 'off'}",
        part=part,
        tool=tool or next((one.size for one in fasteners if one.size), HAND),
        aside=typed.aside,
        lies=clean_line(typed.lies, "How it lies", field="lies") or before[-1].lies,
        minutes=minutes,
        needs=_needs(typed.needs, before),
        fasteners=fasteners,
    )


def plausible_minutes(since_last: float) -> tuple[float, bool]:
    """Give the minutes of a step by the time since the one before, and whether they are a guess."""
    if LEAST_MINUTES <= since_last <= MOST_MINUTES:
        return round(since_last, 1), False
    return GUESSED_MINUTES, True


def read_fasteners(typed: FastenersTyped, library: Library) -> RecordedFastener:
    """Read like fasteners; a thread must be one, a material and a strength class must be known."""
    count = typed.count.strip() or "1"
    if not (count.isascii() and count.isdigit() and len(count) < 4 and 1 <= int(count) <= MOST_OF_A_KIND):
        raise OutOfRange(f"“{count}” fasteners cannot be. Type 1 to {MOST_OF_A_KIND}.", "count")
    thread = parse_thread(typed.thread).name if typed.thread.strip() else ""
    into = typed.into.strip()
    if into and into != NUT and into not in library.materials:
        known = ", ".join((NUT, *library.materials))
        raise NotFound(f"There is no material “{into}”. It must be one of {known}.", "into")
    strength = typed.strength.strip()
    if strength and strength not in library.strength_classes:
        known = ", ".join(library.strength_classes)
        raise NotFound(f"There is no strength class “{strength}”. It must be one of {known}.", "strength")
    return RecordedFastener(
        words=clean_line(typed.words, "What they are", field="words"),
        count=int(count),
        thread=thread,
        length_mm=_millimetres(typed.length, "Length of the fasteners", "length"),
        size=clean_line(typed.size, "What turns them", field="size"),
        where=clean_line(typed.where, "Where they sit", field="where"),
        strength=strength,
        into=into,
        engaged_mm=_millimetres(typed.engaged, "Thread in the hole", "engaged"),
    )


def fasteners_in_words(text: str, library: Library) -> FastenersTyped:
    """Take apart “2 x M6 x 25, 10 mm socket, 8.8, into cast-aluminium, front”: count and thread first, then any order.

    What is no tool, no strength class and no material is where they sit.
    """
    first, *rest = (part.strip() for part in text.split(","))
    counted = COUNTED.fullmatch(first)
    count, what = (counted["count"], counted["rest"].strip()) if counted else ("", first)
    sized = WITH_LENGTH.fullmatch(what)
    length = ""
    if sized and is_thread(sized["thread"]):
        what, length = sized["thread"], sized["length"]
    threaded = is_thread(what)
    told = {"size": "", "strength": "", "into": "", "where": ""}
    for part in rest:
        kind = _kind_of(part, library)
        said = part.removeprefix("into ").removeprefix("class ") if kind in ("into", "strength") else part
        told[kind] = f"{told[kind]}, {said}" if told[kind] else said
    words = {"words": "" if threaded else what, "thread": what if threaded else ""}
    return FastenersTyped(count=count, length=length, **words, **told)


def _kind_of(part: str, library: Library) -> str:
    if part.startswith("into "):
        return "into"
    if part.removeprefix("class ") in library.strength_classes:
        return "strength"
    return "size" if TURNED_BY.search(part) else "where"


def _needs(typed: Iterable[str], before: Sequence[RecordedStep]) -> tuple[str, ...]:
    named = tuple(dict.fromkeys(one for one in typed if one))
    if not named:
        return (before[-1].id,)
    if named == (ALONE,):
        return (before[0].id,)
    known = [step.id for step in before]
    for name in named:
        if name not in known:
            listed = ", ".join((ALONE, *known))
            raise NotFound(f"No step “{name}” was recorded before. It must be one of {listed}.", "needs")
    return named


def _millimetres(typed: str, what: str, field: str) -> float | None:
    if not typed.strip():
        return None
    length = round(convert(read_positive(typed, "length", default="mm", what=what).si, "mm", "length"), 2)
    if not 0 < length <= 500:
        raise OutOfRange(f"{what} is {typed.strip()}; it must be 500 mm at most. Measure again.", field)
    return length
