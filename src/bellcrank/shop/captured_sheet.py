"""What a job shows of what was found at its steps."""

from dataclasses import dataclass

from bellcrank.knowledge.assembly import Fastener


@dataclass(frozen=True, slots=True)
class FoundLine:
    """Something found at a step of this machine, or of one like it."""

    operation: str
    what: str  # length, condition, missing, note
    fastener: str  # as drawn, "" for a note
    words: str
    entry: int  # of the job's history, by which it is taken back; 0 when it is from another job


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
