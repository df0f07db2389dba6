"""What was found at a step as typed, read into what is kept of it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from bellcrank.errors import NotAllowedNow, NotFound, NotUnderstood, OutOfRange
from bellcrank.knowledge.assembly import CONDITIONS, Fastener, Operation
from bellcrank.shop.texts import LONG, clean
from bellcrank.teardown.as_found import (
    CONDITION,
    LENGTH,
    MISSING,
    NOTE,
    Alike,
    Captured,
    NewLength,
    alike,
    has_length,
)
from bellcrank.units import convert, read_positive

SWAP = "swap"
FREE = "free"  # of a fastener that was seized: it came loose
LONGER, SHORTER = "longer", "shorter"
LONGEST_MM = 500.0  # [mm] no screw of a hand-carried machine is longer


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed or tapped at a step; only ``what`` is always needed."""

    what: str  # length, swap, condition, missing, note
    at: str = ""  # the step; "" for the one that is next
    fastener: str = ""  # "" where the step has one group alone
    which: str = ""  # its number in the order of tightening; "" for all of them
    length: str = ""
    than: str = ""  # longer, shorter, or "" when nobody says
    other: str = ""  # the fastener it was swapped with
    condition: str = ""
    missing: str = ""  # how many; "" for one
    words: str = ""
    for_all: bool = False  # keep it for every machine like this


@dataclass(frozen=True, slots=True)
class Told:
    """What was found, and how it is said."""

    captured: Captured
    said: str


def read_typed(typed: Typed, step: Operation, before: Sequence[Captured]) -> Told:
    """Read what was typed at a step; ``step`` as it is drawn, ``before`` what was found on the machine already."""
    if typed.what not in READERS:
        known = ", ".join(READERS)
        raise NotUnderstood(f"“{typed.what}” does not say what was found. It must be one of {known}.", "what")
    return READERS[typed.what](typed, step, alike(step.fasteners, before))


def _length(typed: Typed, step: Operation, parts: Sequence[Alike]) -> Told:
    part = _chosen(typed.fastener, step, parts)
    numbers = _numbers(typed.which, part)
    length, drawn = _millimetres(typed.length, part), part.fastener.length_mm
    if not has_length(part.drawn):
        raise NotAllowedNow(f"The {part.drawn.words} are nuts; no length is kept for them. Write a note.", "length")
    if typed.than and drawn is not None and (length > drawn) != (typed.than == LONGER):
        raise OutOfRange(
            f"{length:g} mm is not {typed.than}: the {part.drawn.words} are known as {drawn:g} mm. Check the number.",
            "length",
        )
    of = "" if len(numbers) == part.drawn.count else f", number {', '.join(map(str, numbers))} of {part.drawn.count}"
    was = "" if part.drawn.length_mm in (None, length) else f", not {part.drawn.length_mm:g} mm"
    new = (NewLength(part.drawn.id, numbers, length),)
    said = f"{part.drawn.words}{of}: {length:g} mm long{was}"
    return Told(Captured(LENGTH, step.id, part.drawn.id, lengths=new), said)


def _swap(typed: Typed, step: Operation, parts: Sequence[Alike]) -> Told:
    one, other = _chosen(typed.fastener, step, parts), _chosen(typed.other, step, parts, field="other")
    if one.drawn is other.drawn:
        raise NotUnderstood("Swapped with itself changes nothing. Pick the other group of this step.", "other")
    first, second = one.drawn.length_mm, other.drawn.length_mm  # as drawn: tapped twice, it is one swap
    if first is None or second is None:
        raise NotAllowedNow("The length of one of them is not known. Type the lengths one by one instead.", "other")
    new = (NewLength(one.drawn.id, _all(one.drawn), second), NewLength(other.drawn.id, _all(other.drawn), first))
    said = f"swapped: {one.drawn.words} are {second:g} mm long, {other.drawn.words} {first:g} mm"
    return Told(Captured(LENGTH, step.id, one.drawn.id, lengths=new), said)


def _condition(typed: Typed, step: Operation, parts: Sequence[Alike]) -> Told:
    part = _chosen(typed.fastener, step, parts)
    if typed.condition not in (*CONDITIONS, FREE):
        known = ", ".join((*CONDITIONS, FREE))
        raise NotUnderstood(f"“{typed.condition}” is no condition known here. It must be one of {known}.", "condition")
    condition = "" if typed.condition == FREE else typed.condition
    said = f"{part.drawn.words}: {condition or 'came loose after all'}"
    return Told(Captured(CONDITION, step.id, part.drawn.id, condition=condition), said)


def _missing(typed: Typed, step: Operation, parts: Sequence[Alike]) -> Told:
    part = _chosen(typed.fastener, step, parts)
    count = part.fastener.count
    many = typed.missing.strip() or "1"
    if not (many.isascii() and many.isdigit()) or len(many) > len(str(count)) or int(many) > count:
        raise OutOfRange(
            f"“{many}” of the {part.fastener.words} cannot be missing; there are {count}. Type 0 to {count}.", "missing"
        )
    said = f"{many} of {count} {part.fastener.words} missing"
    return Told(Captured(MISSING, step.id, part.drawn.id, numbers=part.numbers, missing=int(many)), said)


def _note(typed: Typed, step: Operation, parts: Sequence[Alike]) -> Told:
    words = clean(typed.words, "The note", longest=LONG, field="words")
    if not words:
        raise NotUnderstood("The note is empty. Write what to remember at this step.", "words")
    return Told(Captured(NOTE, step.id, words=words), words)


READERS: Mapping[str, Callable[[Typed, Operation, Sequence[Alike]], Told]] = {
    LENGTH: _length,
    SWAP: _swap,
    CONDITION: _condition,
    MISSING: _missing,
    NOTE: _note,
}


def _chosen(name: str, step: Operation, parts: Sequence[Alike], *, field: str = "fastener") -> Alike:
    if not parts:
        raise NotAllowedNow(f"“{step.do}” has no fasteners in the model. Write a note instead.", field)
    known = ", ".join(part.fastener.id for part in parts)
    if not name:
        if len(parts) == 1:
            return parts[0]
        raise NotUnderstood(f"Which fasteners of “{step.do}”? It must be one of {known}.", field)
    found = next((part for part in parts if part.fastener.id == name), None)
    if found is None:
        raise NotFound(f"“{step.do}” has no fastener “{name}”. It must be one of {known}.", field)
    return found


def _all(drawn: Fastener) -> tuple[int, ...]:
    return tuple(range(1, drawn.count + 1))


def _numbers(typed: str, part: Alike) -> tuple[int, ...]:
    which = typed.strip()
    if not which:
        return part.numbers
    known = [str(number) for number in range(1, part.drawn.count + 1)]
    if which not in known:
        raise OutOfRange(f"There is no number {which} of the {part.drawn.words}; they are 1 to {known[-1]}.", "which")
    return (int(which),)


def _millimetres(typed: str, part: Alike) -> float:
    if not typed.strip():
        raise NotUnderstood(f"How long are the {part.drawn.words}? Type it like 35, in mm, or 1 1/4 in.", "length")
    reading = read_positive(typed, "length", default="mm", what=f"Length of the {part.drawn.words}")
    length = round(convert(reading.si, "mm", "length"), 2)
    if not 0 < length <= LONGEST_MM:
        raise OutOfRange(
            f"Length of the {part.drawn.words} is {reading.typed}; that cannot be. Measure again.", "length"
        )
    return length
