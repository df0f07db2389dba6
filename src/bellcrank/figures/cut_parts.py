"""How the parts of a section are drawn: outlines, the hatching of what is cut, full ink, teeth of a thread."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from bellcrank.figures.theme import stroke

MIDDLE, HALF = 116, 104  # [px] where the axis stands, and how far parts reach to either side of it
HATCH = 11  # [px] from line to line of a cut part, across the page

Point = tuple[float, float]  # across and down [px]
Outline = Sequence[Point]


def cut(inside: float, outside: float, top: float, foot: float, *, leans: int) -> str:
    """Draw a cut part on both sides of the axis, outlined and hatched."""
    left, right = (rectangle(*edges, top, foot) for edges in _sides(inside, outside))
    return cut_shape(left, leans=leans) + cut_shape(right, leans=leans)


def cut_shape(outline: Outline, *holes: Outline, leans: int) -> str:
    """Draw a cut part of any shape, its holes left free."""
    outlines = (outline, *holes)
    edges = "".join(closed(each) for each in outlines)
    return stroke("drawn-line", edges) + stroke("drawn-cut", _hatching(outlines, leans), 1)


def _hatching(outlines: Iterable[Outline], leans: int) -> str:
    """Give lines at 45° that end at the edges of a shape."""
    edges = [edge for outline in outlines for edge in pairwise((*outline, outline[0]))]
    reach = [y + leans * x for edge in edges for x, y in edge]
    path = ""
    for number in range(math.ceil(min(reach) / HATCH), math.ceil(max(reach) / HATCH)):
        line = number * HATCH
        met = sorted(_meets(edge, line, leans) for edge in edges if _crosses(edge, line, leans))
        for (x1, y1), (x2, y2) in zip(met[::2], met[1::2], strict=True):
            path += f"M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}"
    return path


def _crosses(edge: Outline, line: float, leans: int) -> bool:
    (x1, y1), (x2, y2) = edge
    return (y1 + leans * x1 <= line) is not (y2 + leans * x2 <= line)


def _meets(edge: Outline, line: float, leans: int) -> Point:
    (x1, y1), (x2, y2) = edge
    first, last = y1 + leans * x1, y2 + leans * x2
    share = (line - first) / (last - first)
    return x1 + share * (x2 - x1), y1 + share * (y2 - y1)


def both(inside: float, outside: float, top: float, foot: float) -> str:
    """Draw an outline on both sides of the axis."""
    return "".join(stroke("drawn-line", path) for path in _ring(inside, outside, top, foot))


def inked_ring(inside: float, outside: float, top: float, foot: float) -> str:
    """Draw a ring in full ink."""
    return "".join(ink(path) for path in _ring(inside, outside, top, foot))


def _ring(inside: float, outside: float, top: float, foot: float) -> Iterable[str]:
    """Give a ring cut along its axis: a rectangle on either side."""
    return (box(*edges, top, foot) for edges in _sides(inside, outside))


def _sides(inside: float, outside: float) -> tuple[Point, Point]:
    return (MIDDLE - outside, MIDDLE - inside), (MIDDLE + inside, MIDDLE + outside)


def rectangle(left: float, right: float, top: float, foot: float) -> Outline:
    """Give the corners of a rectangle."""
    return (left, top), (right, top), (right, foot), (left, foot)


def mirrored(outline: Outline) -> Outline:
    """Give a shape on the other side of the axis."""
    return [(2 * MIDDLE - x, y) for x, y in outline]


def box(left: float, right: float, top: float, foot: float) -> str:
    """Give the path of a rectangle."""
    return f"M{left:.1f} {top:.1f}H{right:.1f}V{foot:.1f}H{left:.1f}Z"


def closed(outline: Outline) -> str:
    """Give the path round a shape."""
    return f"{open_path(outline)}Z"


def open_path(points: Outline) -> str:
    """Give the path along points."""
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)


def ink(path: str) -> str:
    """Fill a shape in full ink."""
    return f'<path class="drawn-governs" d="{path}" fill="currentColor" stroke="currentColor" stroke-width="2"/>'


def shape(path: str, *, filled: bool) -> str:
    """Draw a shape as a line, or in full ink."""
    return ink(path) if filled else stroke("drawn-line", path)


def teeth(root: float, crest: float, top: float, foot: float, step: float, *, closed_at: float | None = None) -> str:
    """Give the zigzag of a thread from root to crest, teeth about a step apart.

    Closed at an edge beside it, it is the band of metal the teeth stand on.
    """
    number = max(2, round((foot - top) / step))
    step = (foot - top) / number
    path = f"M{root:.1f} {top:.1f}"
    for tooth in range(number):
        start = top + tooth * step
        path += f"L{crest:.1f} {start + step / 2:.1f}L{root:.1f} {start + step:.1f}"
    return path if closed_at is None else f"{path}L{closed_at:.1f} {foot:.1f}V{top:.1f}Z"


def broken_edge(left: float, right: float, y: float) -> str:
    """Draw the wavy edge where a part goes on beyond the drawing."""
    quarter = (right - left) / 4
    deep = min(6.0, quarter)
    return stroke(
        "drawn-line",
        f"M{left:.1f} {y:.1f}Q{left + quarter:.1f} {y - deep:.1f} {left + 2 * quarter:.1f} {y:.1f}"
        f"Q{left + 3 * quarter:.1f} {y + deep:.1f} {right:.1f} {y:.1f}",
    )
