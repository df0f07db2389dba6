"""Names beside the parts of a drawing, each with a lead to the part it belongs to."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from bellcrank.figures.theme import LINE, MARGIN, TEXT_SIZE, WIDTH, stroke, wrapped

WORDS_FROM = 238  # [px] left edge of the names
GAP = 8  # [px] between names


@dataclass(frozen=True, slots=True)
class Name:
    """What stands beside a part, with the point of the part it belongs to."""

    words: str
    x: float
    y: float
    strong: bool = False

    @property
    def lines(self) -> tuple[str, ...]:
        """The words on the lines they need."""
        return wrapped(self.words, width=WIDTH - MARGIN - WORDS_FROM, strong=self.strong)


@dataclass(frozen=True, slots=True)
class Names:
    """Names written beside a drawing, and where the last of them ends. [px]"""

    marks: str
    foot: float


def names_beside(names: Iterable[Name], top: float) -> Names:
    """Write names beside their parts from the top down, each below the one before."""
    marks, free_from = "", top
    for name in sorted(names, key=lambda one: one.y):
        start = max(name.y - LINE / 2, free_from)
        marks += _written(name, start)
        free_from = start + LINE * len(name.lines) + GAP
    return Names(marks, free_from - GAP)


def _written(name: Name, top: float) -> str:
    lead = f"M{name.x:.1f} {name.y:.1f}L{WORDS_FROM - 6} {top + LINE / 2:.1f}"
    words = _lines(name.lines, top, 'class="drawn-said" font-weight="bold"' if name.strong else 'class="drawn-words"')
    return words + stroke("drawn-lead", lead, 3 if name.strong else 1)


def _lines(lines: Sequence[str], top: float, style: str) -> str:
    return "".join(
        f'<text {style} x="{WORDS_FROM}" y="{top + LINE * (number + 0.78):.1f}" font-size="{TEXT_SIZE}" '
        f'fill="currentColor">{escape(line)}</text>'
        for number, line in enumerate(lines)
    )
