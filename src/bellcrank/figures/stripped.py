"""A screw pulled out of a tapped part, to scale, with the thread that gives way first in full ink."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.both_systems import both_forces
from bellcrank.fastening.pull_out import StripAnswer
from bellcrank.fastening.threads import Thread, minor_diameter
from bellcrank.figures.arrows import arrow
from bellcrank.figures.cut_parts import HALF, MIDDLE, box, broken_edge, cut_shape, ink, mirrored, open_path, teeth
from bellcrank.figures.names import Name, names_beside
from bellcrank.figures.said import force_said, length_said
from bellcrank.figures.theme import MARGIN, Finding, framed, stroke, title_height, title_lines

DIAMETER, LEAST_DIAMETER = 74, 34  # [px] the thread is drawn this wide where there is room, and at least
LONGEST = 170  # [px] of engaged thread; a longer one is drawn shortened
FINEST = 5.0  # [px] from tooth to tooth; finer ones would run into each other
ARROW, SHANK = 46, 34  # [px] length of the arrow, and of the screw above the part
BELOW, WALL = 8, 16  # [px] hole below the screw, and metal below the hole
DRILL_POINT = 0.6  # [-] depth of the drill's point over the hole's radius: 118°
BAND = 10  # [px] metal inked behind the teeth that tear


@dataclass(frozen=True, slots=True)
class _Hole:
    """Where hole and screw stand, half widths from the axis and heights from the top. [px]"""

    thread: Thread
    engaged: float  # [m]
    top: float

    @property
    def scale(self) -> float:
        """Pixels to the metre."""
        fits = min(DIAMETER / self.thread.diameter, LONGEST / self.engaged)
        return max(fits, LEAST_DIAMETER / self.thread.diameter)

    @property
    def shortened(self) -> bool:
        """Whether the thread is longer than it is drawn."""
        return self.scale * self.engaged > LONGEST + 1

    @property
    def bolt(self) -> float:
        """Half the thread's diameter."""
        return self.scale * self.thread.diameter / 2

    @property
    def core(self) -> float:
        """Half the diameter inside the thread."""
        return self.scale * minor_diameter(self.thread) / 2

    @property
    def part_top(self) -> float:
        """Where the tapped part begins."""
        return self.top + ARROW + SHANK

    @property
    def thread_foot(self) -> float:
        """Where the screw ends."""
        return self.part_top + min(self.scale * self.engaged, LONGEST)

    @property
    def drill_tip(self) -> float:
        """Where the hole ends."""
        return self.thread_foot + BELOW + DRILL_POINT * self.core

    @property
    def foot(self) -> float:
        """Where the part ends."""
        return self.drill_tip + WALL

    def at(self, share: float) -> float:
        """Give a height along the engaged thread."""
        return self.part_top + share * (self.thread_foot - self.part_top)


def strip_figure(thread: Thread, engaged: float, into_words: str, answer: StripAnswer, name: str = "strip") -> str:
    """Draw a screw that is pulled out of a part; what gives way first is inked.

    Where nobody said what the screw is made of, its own thread is not looked at, and the title does not say "first".
    """
    counted = force_said(answer.strip_force_low)
    gives_way = f"the {answer.gives_way}'s thread"
    if answer.bolt is None:
        title = f"Count on {counted} before {gives_way} tears out"
    else:
        title = f"T{gives_way[1:]} tears out first: count on {counted}"
    hole = _Hole(thread, engaged, title_height(title) + 14)
    names = names_beside(_names(hole, into_words, answer), hole.top - 8)
    finding = Finding(name, title, _told(thread, engaged, into_words, answer))
    parts = (_part(hole), _screw(hole), _inked(hole, answer.gives_way), arrow(MIDDLE, hole.top + ARROW - 4, hole.top))
    return framed(finding, "figure-strip", max(hole.foot, names.foot) + MARGIN, title_lines(title), *parts, names.marks)


def _told(thread: Thread, engaged: float, into_words: str, answer: StripAnswer) -> str:
    first, own = "", "Its own thread is not looked at, because its strength is not known."
    if answer.bolt is not None:
        first = " first"
        own = f"Hole alone {both_forces(answer.hole.low)}, bolt alone {both_forces(answer.bolt.low)}."
    return (
        f"A section through {thread.name} pulled out of {into_words}, {length_said(engaged)} of thread engaged. In "
        f"full ink, because it gives way{first}: the {answer.gives_way}'s thread. Count on "
        f"{both_forces(answer.strip_force_low)}; new and full it takes {both_forces(answer.strip_force)}, "
        f"worn and loose {both_forces(answer.worn_bound)} at the least. {own}"
    )


def _part(hole: _Hole) -> str:
    """Draw the tapped part cut through its blind hole."""
    right = [
        (MIDDLE + hole.core, hole.thread_foot + BELOW),
        (MIDDLE + hole.core, hole.thread_foot),
        (MIDDLE + hole.bolt, hole.thread_foot),
        (MIDDLE + hole.bolt, hole.part_top),
        (MIDDLE + HALF, hole.part_top),
        (MIDDLE + HALF, hole.foot),
    ]
    return cut_shape([*reversed(mirrored(right)), (MIDDLE, hole.drill_tip), *right], leans=-1)


def _screw(hole: _Hole) -> str:
    """Draw the screw from where it goes on above the part down to its end."""
    shank_top = hole.top + ARROW
    left, right = MIDDLE - hole.bolt, MIDDLE + hole.bolt
    sides = [(left, shank_top), (left, hole.part_top), (right, hole.part_top), (right, shank_top)]
    core = box(MIDDLE - hole.core, MIDDLE + hole.core, hole.part_top, hole.thread_foot)
    return (
        broken_edge(left, right, shank_top)
        + stroke("drawn-line", open_path(sides))
        + stroke("drawn-line", core)
        + "".join(stroke("drawn-line", _teeth(hole, side)) for side in (-1, 1))
    )


def _inked(hole: _Hole, gives_way: str) -> str:
    edge = hole.bolt + BAND if gives_way == "hole" else max(hole.core - BAND, 0)
    return "".join(ink(_teeth(hole, side, closed_at=MIDDLE + side * edge)) for side in (-1, 1))


def _teeth(hole: _Hole, side: int, *, closed_at: float | None = None) -> str:
    inside, outside = MIDDLE + side * hole.core, MIDDLE + side * hole.bolt
    step = max(hole.scale * hole.thread.pitch, FINEST)
    return teeth(inside, outside, hole.part_top, hole.thread_foot, step, closed_at=closed_at)


def _names(hole: _Hole, into_words: str, answer: StripAnswer) -> Iterable[Name]:
    engaged = f"{length_said(hole.engaged)} of thread{', drawn shorter' if hole.shortened else ''}"
    yield Name(f"count on {force_said(answer.strip_force_low)}", MIDDLE + 8, hole.top + 24)
    yield Name(hole.thread.name, MIDDLE + hole.bolt, hole.top + ARROW + 14)
    yield Name(f"{into_words}, {engaged}", MIDDLE + HALF - 8, hole.part_top + 6)
    places = {"hole": MIDDLE + hole.bolt + BAND / 2, "bolt": MIDDLE + max(hole.core - BAND / 2, 4)}
    governs, below_part = answer.gives_way, max(hole.at(0.4), hole.part_top + 7)
    yield Name(f"Limit: {governs}'s thread", places[governs], below_part, strong=True)
    if answer.bolt is None:
        yield Name("bolt's thread not looked at", places["bolt"], max(hole.at(0.8), below_part))
        return
    other, holds = ("bolt", answer.bolt.low) if governs == "hole" else ("hole", answer.hole.low)
    yield Name(f"{other}'s thread {force_said(holds)}", places[other], max(hole.at(0.8), below_part))
