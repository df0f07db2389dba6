"""What the marks of a drawing mean: a small piece of each, and its words beside it."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from bellcrank.figures.cut_parts import Outline, Point, cut_shape, rectangle
from bellcrank.figures.theme import LINE, MARGIN, WIDTH, text_at, wrapped

SWATCH, HIGH = 34, 18  # [px] width and height of a piece
WORDS_FROM = MARGIN + SWATCH + 10  # [px]
GAP = 6  # [px] between rows


@dataclass(frozen=True, slots=True)
class Meaning:
    """A piece of the drawing, drawn about a point, and what it means."""

    piece: Callable[[Point], str]
    words: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Drawn:
    """Marks, and where they end. [px]"""

    marks: str
    bottom: float


def legend(meanings: Iterable[Meaning], top: float) -> Drawn:
    """Write what pieces of a drawing mean, one under the other."""
    marks = ""
    for one in meanings:
        lines = wrapped(one.words, width=WIDTH - MARGIN - WORDS_FROM, strong=one.strong)
        marks += one.piece((MARGIN + SWATCH / 2, top + LINE / 2))
        marks += "".join(
            text_at(line, WORDS_FROM, top + LINE * (number + 0.78), strong=one.strong, anchor="start")
            for number, line in enumerate(lines)
        )
        top += LINE * len(lines) + GAP
    return Drawn(marks, top)


def swatch(middle: Point) -> Outline:
    """Give the outline of a piece of an area."""
    x, y = middle
    return rectangle(x - SWATCH / 2, x + SWATCH / 2, y - HIGH / 2, y + HIGH / 2)


def hatched(leans: int) -> Callable[[Point], str]:
    """Give a piece of an area hatched one way."""
    return lambda middle: cut_shape(swatch(middle), leans=leans)
