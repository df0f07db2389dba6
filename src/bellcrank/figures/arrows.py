"""Arrows: a push or a pull along a line, a torque round an axis."""

import math

from bellcrank.figures.cut_parts import Outline, Point, open_path
from bellcrank.figures.theme import stroke

HEAD, SPREAD = 11, math.radians(32)  # [px], [rad] length of an arrow's barbs, and their angle to the shaft
STEP = 5  # [°] from point to point of an arc


def arrow(x: float, start: float, end: float) -> str:
    """Draw a force up or down."""
    return _arrow([(x, start), (x, end)])


def arrow_across(y: float, start: float, end: float) -> str:
    """Draw a force from left to right, or from right to left."""
    return _arrow([(start, y), (end, y)])


def turning_arrow(middle: Point, across: float, start: float, end: float, *, high: float | None = None) -> str:
    """Draw a torque along an arc; ``high`` makes an ellipse of it, a circle seen from the side.

    Angles in degrees, clockwise from the top.
    """
    return _arrow(arc(middle, across, start, end, high=high))


def arc(middle: Point, across: float, start: float, end: float, *, high: float | None = None) -> list[Point]:
    """Give points along an arc, angles in degrees, clockwise from the top."""
    number = max(2, math.ceil(abs(end - start) / STEP))
    turned = (math.radians(start + (end - start) * one / number) for one in range(number + 1))
    down = across if high is None else high
    return [(middle[0] + across * math.sin(angle), middle[1] - down * math.cos(angle)) for angle in turned]


def _arrow(points: Outline) -> str:
    (x1, y1), (x2, y2) = points[-2:]
    back = math.atan2(y1 - y2, x1 - x2)
    barbs = [(x2 + HEAD * math.cos(back + turn), y2 + HEAD * math.sin(back + turn)) for turn in (-SPREAD, SPREAD)]
    return stroke("drawn-arrow", open_path(points) + open_path([barbs[0], (x2, y2), barbs[1]]), 3)
