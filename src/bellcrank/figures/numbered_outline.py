"""The outline of a machine from one side, with a number at every place where a fastener sits."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bellcrank.figures.clear_of import Line, Point, Room, Taken, around, ring
from bellcrank.figures.cut_parts import closed
from bellcrank.figures.theme import (
    BOLD_LETTER,
    LETTER,
    LINE,
    MARGIN,
    TEXT_SIZE,
    WIDTH,
    Finding,
    framed,
    stroke,
    text_at,
    wrapped,
)

BORDERS = (16, 52)  # [px] round the outline; the wide one when numbers find no room inside
TALLEST = 460  # [px] of the outline
DOT = 4  # [px] radius
HIGH = 1.2 * TEXT_SIZE  # [px] of a word
FIRST_REACH, REACH_STEP = 26, 14  # [px] from a dot to the first try of its number, and from try to try
REACHES, WAYS = 24, 16  # [-] tries outward, and round about
TENTHS = (5, 4, 6, 3, 7, 2, 8)  # of a part, across and down, where its name is tried
ROUND = 24  # [-] corners a circle is taken to have when labels keep clear of it


@dataclass(frozen=True, slots=True)
class Part:
    """A shape of the outline."""

    words: str
    points: tuple[Point, ...]  # of a circle its middle [mm]
    radius: float  # 0 for a shape with corners [mm]


@dataclass(frozen=True, slots=True)
class Mark:
    """A place with the number that stands at it."""

    words: str  # "3a"
    place: Point  # [mm]


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a machine."""

    id: str
    words: str  # "from above, handle below"
    width: float  # [mm]
    height: float  # [mm]
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class _Sheet:
    """How a side is put on the drawing."""

    side: Side
    border: float  # [px]

    @property
    def scale(self) -> float:
        """Pixels to the millimetre."""
        return min((WIDTH - 2 * self.border) / self.side.width, TALLEST / self.side.height)

    @property
    def height(self) -> float:
        """Of the drawing. [px]"""
        return 2 * self.border + self.scale * self.side.height

    def put(self, point: Point) -> Point:
        """Give where a point of the machine [mm] lies on the drawing. [px]"""
        left = (WIDTH - self.scale * self.side.width) / 2
        return left + self.scale * point[0], self.border + self.scale * point[1]

    def corners(self, part: Part) -> list[Point]:
        """Give the corners of a shape, of a circle many. [px]"""
        if not part.radius:
            return [self.put(one) for one in part.points]
        (x, y), radius = self.put(part.points[0]), self.scale * part.radius
        turns = [2 * math.pi * one / ROUND for one in range(ROUND)]
        return [(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]

    def empty(self, dots: Iterable[Point]) -> Taken:
        """Give what is on the drawing before any word: outline and dots."""
        lines = [line for part in self.side.parts for line in ring(self.corners(part))]
        edge = Room(MARGIN / 2, MARGIN / 2, WIDTH - MARGIN / 2, self.height - MARGIN / 2)
        return Taken(edge, [_dot_room(dot) for dot in dots], lines)


@dataclass(frozen=True, slots=True)
class _Label:
    """A number where it found room."""

    words: str
    room: Room
    lead: Line  # from its dot
    clear: bool  # of everything else


def numbered_outline(side: Side, marks: Sequence[Mark]) -> str:
    """Draw the outline with its numbers; no number lies over another, over a dot or over a line of the outline."""
    for border in BORDERS:
        sheet = _Sheet(side, border)
        taken = sheet.empty(sheet.put(one.place) for one in marks)
        labels = [_label(mark, sheet.put(mark.place), taken.rooms[at], taken) for at, mark in enumerate(marks)]
        if all(one.clear for one in labels):
            break
    drawn = [*(_part(part, sheet) for part in side.parts), *map(_marked, labels), *_names(sheet, taken)]
    told = f"Numbered places: {', '.join(one.words for one in marks) or 'none'}."
    return framed(Finding(f"side-{side.id}", f"Where they sit, {side.words}", told), "figure", sheet.height, *drawn)


def _dot_room(dot: Point) -> Room:
    return Room(dot[0] - DOT - 1, dot[1] - DOT - 1, dot[0] + DOT + 1, dot[1] + DOT + 1)


def _part(part: Part, sheet: _Sheet) -> str:
    if not part.radius:
        return stroke("drawn-line", closed(sheet.corners(part)))
    x, y = sheet.put(part.points[0])
    return (
        f'<circle class="drawn-line" cx="{x:.1f}" cy="{y:.1f}" r="{sheet.scale * part.radius:.1f}" fill="none" '
        'stroke="currentColor" stroke-width="2"/>'
    )


def _marked(label: _Label) -> str:
    (x1, y1), (x2, y2) = label.lead
    return (
        stroke("drawn-lead", f"M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}", 1)
        + f'<circle class="drawn-lead" cx="{x1:.1f}" cy="{y1:.1f}" r="{DOT}" fill="currentColor"/>'
        + text_at(label.words, (label.room.left + label.room.right) / 2, label.room.foot - 6, strong=True)
    )


def _label(mark: Mark, dot: Point, own: Room, taken: Taken) -> _Label:
    """Put a number near its dot, where there is room, nearest first; over a line of the outline before over words."""
    tries = [
        _try(mark.words, dot, FIRST_REACH + REACH_STEP * far, way) for far in range(REACHES) for way in range(WAYS)
    ]
    found = next((one for one in tries if taken.lets_in(*one, own=own)), None)
    over = found or next((one for one in tries if taken.lets_in(*one, own=own, over_lines=True)), None)
    room, lead = over or next((one for one in tries if taken.lets_in(one[0], None, over_lines=True)), tries[0])
    taken.rooms.append(room)
    taken.leads.append(lead)
    return _Label(mark.words, room, lead, found is not None)


def _try(words: str, dot: Point, reach: float, way: int) -> tuple[Room, Line]:
    """Give a label out from its dot in one of the ways, and its lead from the dot to the label's edge."""
    turn = 2 * math.pi * way / WAYS
    across, down = math.cos(turn), math.sin(turn)
    x, y = dot[0] + reach * across, dot[1] + reach * down
    wide, high = BOLD_LETTER * TEXT_SIZE * len(words) + 4, HIGH
    to_edge = min(half / abs(run) for half, run in ((wide / 2, across), (high / 2, down)) if abs(run) > 1e-9)
    return around(x, y, wide, high), (dot, (x - to_edge * across, y - to_edge * down))


def _names(sheet: _Sheet, taken: Taken) -> Iterable[str]:
    """Write what a part is inside it, the smallest first, where no smaller part is and room is left."""
    smaller: list[Room] = []
    inside = [(_extent(sheet.corners(part)), part.words) for part in sheet.side.parts]
    for room, words in sorted(inside, key=lambda one: (one[0].right - one[0].left) * (one[0].foot - one[0].top)):
        yield _name(words, room, taken, smaller) if words else ""
        smaller.append(room)


def _extent(corners: Sequence[Point]) -> Room:
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return Room(min(across), min(down), max(across), max(down))


def _name(words: str, inside: Room, taken: Taken, smaller: Iterable[Room]) -> str:
    lines = wrapped(words, width=inside.right - inside.left - 8)
    wide, high = LETTER * TEXT_SIZE * max(map(len, lines)) + 4, LINE * len(lines)
    for down in TENTHS:
        for across in TENTHS:
            x = inside.left + (inside.right - inside.left) * across / 10
            room = around(x, inside.top + (inside.foot - inside.top) * down / 10, wide, high)
            if room.within(inside) and taken.lets_in(room, None) and not any(room.meets(one) for one in smaller):
                taken.rooms.append(room)
                feet = (room.top + LINE * (number + 0.78) for number in range(len(lines)))
                return "".join(text_at(line, x, foot) for line, foot in zip(lines, feet, strict=True))
    return ""
