"""What a job shows of what was found at its steps."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bellcrank.knowledge.assembly import Fastener


@dataclass(frozen=True, slots=True)
class FoundLine:
    """Something found at a step of this machine, or of one like it."""

    operation: str
    what: str  # length, condition, missing, note
    fastener: str  # as drawn, "" for a note
    words: str
    entry: int  # of the job's history, by which it is taken back; 0 when it is from another job


@dataclass(frozen=True, slots=True)
class StepPhoto:
    """A photo taken at a step."""

    operation: str
    id: int
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class CaptureSheet:
    """What was found at the steps of a way, and for which machines it can be kept."""

    found: tuple[FoundLine, ...] = ()
    photos: tuple[StepPhoto, ...] = ()
    like: str = ""  # "every Ternwick Kittiwake 46"
    numbers: Mapping[str, tuple[int, ...]] = field(default_factory=dict)  # of each group, in the order of tightening


def missing_words(fastener: Fastener, direction: str) -> str:
    """Say how many of a group are missing, and on the way back what goes in; "" when all are there."""
    if not fastener.missing:
        return ""
    are = f"{fastener.missing} of {fastener.count} {'is' if fastener.missing == 1 else 'are'} missing"
    if direction == "in":
        return f"{are}."
    new = ", ".join(part for part in (fastener.thread, _long(fastener)) if part) or fastener.words
    return f"{are}: put {'a new one' if fastener.missing == 1 else f'{fastener.missing} new ones'} in, {new}."


def _long(fastener: Fastener) -> str:
    return f"{fastener.length_mm:g} mm long" if fastener.length_mm is not None else ""
