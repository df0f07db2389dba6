"""The view of what was found at a step, and of what can be kept there with one thumb."""

from dataclasses import dataclass

from bellcrank.shop.captured_sheet import CaptureSheet, FoundLine, StepPhoto
from bellcrank.shop.work_sheet import StepLine

MOST_BUTTONS = 4  # how many missing ones have a button each
CONDITIONS = (("seized", "Seized"), ("corroded", "Corroded"), ("rounded", "Head rounded"), ("free", "It came loose"))


@dataclass(frozen=True, slots=True)
class GroupView:
    """A group of fasteners that may be unlike the drawing."""

    id: str
    words: str  # "2 × long shroud bolts"
    length: str  # as known, "28", or ""
    numbers: tuple[str, ...]  # of a group of several, to name one of them
    missing: tuple[str, ...]  # how many may be missing
    others: tuple[tuple[str, str], ...]  # groups it may have been swapped with


@dataclass(frozen=True, slots=True)
class CaptureView:
    """What was found at a step and what can be kept."""

    found: tuple[FoundLine, ...]
    photos: tuple[StepPhoto, ...]
    groups: tuple[GroupView, ...]
    conditions: tuple[tuple[str, str], ...]
    like: str


def capture_view(step: StepLine, captured: CaptureSheet) -> CaptureView:
    """Lay out what was found at a step; what is missing stands at its fastener already."""
    groups = [line.fastener for line in step.fasteners]
    return CaptureView(
        found=tuple(one for one in captured.found if one.operation == step.operation),
        photos=tuple(one for one in captured.photos if one.operation == step.operation),
        groups=tuple(
            GroupView(
                id=one.id,
                words=f"{one.count} × {one.words}",
                length="" if one.length_mm is None else f"{one.length_mm:g}",
                numbers=tuple(map(str, captured.numbers.get(one.id, ()))) if one.count > 1 else (),
                missing=tuple(str(many) for many in range(1, min(one.count, MOST_BUTTONS) + 1)),
                others=tuple((each.id, each.words) for each in groups if each is not one),
            )
            for one in groups
        ),
        conditions=CONDITIONS,
        like=captured.like,
    )
