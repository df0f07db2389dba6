"""Where a label finds room: boxes and lines it must keep clear of."""

from collections.abc import Sequence
from dataclasses import dataclass, field

Point = tuple[float, float]
Line = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Room:
    """What a label covers. [px]"""

    left: float
    top: float
    right: float
    foot: float

    def meets(self, other: "Room") -> bool:
        """Whether two of them lie over each other."""
        return self.left < other.right and other.left < self.right and self.top < other.foot and other.top < self.foot

    def within(self, other: "Room") -> bool:
        """Whether all of it lies in another."""
        return (
            other.left <= self.left and self.right <= other.right and other.top <= self.top and self.foot <= other.foot
        )

    def crossed_by(self, line: Line) -> bool:
        """Whether a line runs through it: the line is cut off at each edge in turn, and something is left."""
        (x1, y1), (x2, y2) = line
        first, last = 0.0, 1.0
        for start, run, low, high in ((x1, x2 - x1, self.left, self.right), (y1, y2 - y1, self.top, self.foot)):
            if run == 0:
                if not low < start < high:
                    return False
                continue
            ends = sorted(((low - start) / run, (high - start) / run))
            first, last = max(first, ends[0]), min(last, ends[1])
        return first < last


@dataclass(slots=True)
class Taken:
    """What is on a drawing already."""

    canvas: Room
    rooms: list[Room] = field(default_factory=list)  # words, and dots
    lines: list[Line] = field(default_factory=list)  # of the outline
    leads: list[Line] = field(default_factory=list)

    def lets_in(self, room: Room, lead: Line | None, *, own: Room | None = None, over_lines: bool = False) -> bool:
        """Whether a label fits there, its lead to its ``own`` dot included."""
        others = [one for one in self.rooms if one is not own]
        if not room.within(self.canvas) or any(room.meets(one) for one in self.rooms):
            return False
        if any(room.crossed_by(one) for one in self.leads):
            return False
        if lead and (any(one.crossed_by(lead) for one in others) or any(_cross(lead, one) for one in self.leads)):
            return False
        return over_lines or not any(room.crossed_by(one) for one in self.lines)


def _cross(one: Line, other: Line) -> bool:
    return _side(one, other[0]) * _side(one, other[1]) < 0 and _side(other, one[0]) * _side(other, one[1]) < 0


def _side(line: Line, point: Point) -> float:
    (x1, y1), (x2, y2) = line
    return (x2 - x1) * (point[1] - y1) - (y2 - y1) * (point[0] - x1)


def ring(points: Sequence[Point]) -> list[Line]:
    """Give the lines round a closed shape."""
    return list(zip(points, (*points[1:], points[0]), strict=True))


def around(x: float, y: float, wide: float, high: float) -> Room:
    """Give the room round a middle."""
    return Room(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
