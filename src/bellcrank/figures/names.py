"""Names beside the parts of a drawing, each with a lead to the part it belongs to."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from bellcrank.figures.theme import LINE, MARGIN, TEXT_SIZE, WIDTH, stroke, wrapped

WORDS_FROM = 238  # [px] left edge of the names
LEADS_TO = WORDS_FROM - 6  # [px]
GAP = 8  # [px] between names
DOT = 3  # [px] radius of the dot a thin lead begins with: it is seen among hatching


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
    """Write names beside their parts from the top down, each below the one before, so that no leads cross."""
    ordered = sorted(names, key=lambda one: one.y)
    for _ in range(len(ordered) ** 2):
        tops = _tops(ordered, top)
        at = next((one for one in range(len(ordered) - 1) if _leads_cross(ordered[one : one + 2], tops[one:])), None)
        if at is None:
            break
        ordered[at : at + 2] = reversed(ordered[at : at + 2])
    tops = _tops(ordered, top)
    marks = "".join(_written(name, start) for name, start in zip(ordered, tops, strict=False))
    return Names(marks, tops[-1] - GAP)


def _tops(ordered: Iterable[Name], top: float) -> list[float]:
    """Give where each name begins, and at last where a next one could."""
    tops, free_from = [], top
    for name in ordered:
        tops.append(max(name.y - LINE / 2, free_from))
        free_from = tops[-1] + LINE * len(name.lines) + GAP
    return [*tops, free_from]


def _leads_cross(pair: Sequence[Name], tops: Sequence[float]) -> bool:
    """Say whether the lead that ends lower runs above the other where the second of the two begins."""
    left, right = sorted((0, 1), key=lambda one: pair[one].x)
    start, end = pair[left], tops[left] + LINE / 2
    there = start.y + (end - start.y) * (pair[right].x - start.x) / (LEADS_TO - start.x)
    return there > pair[right].y if left < right else there < pair[right].y


def _written(name: Name, top: float) -> str:
    lead = f"M{name.x:.1f} {name.y:.1f}L{LEADS_TO} {top + LINE / 2:.1f}"
    if name.strong:
        return _lines(name.lines, top, 'class="drawn-said" font-weight="bold"') + stroke("drawn-lead", lead, 3)
    begins = f'<circle class="drawn-lead" cx="{name.x:.1f}" cy="{name.y:.1f}" r="{DOT}" fill="currentColor"/>'
    return _lines(name.lines, top, 'class="drawn-words"') + stroke("drawn-lead", lead, 1) + begins


def _lines(lines: Sequence[str], top: float, style: str) -> str:
    return "".join(
        f'<text {style} x="{WORDS_FROM}" y="{top + LINE * (number + 0.78):.1f}" font-size="{TEXT_SIZE}" '
        f'fill="currentColor">{escape(line)}</text>'
        for number, line in enumerate(lines)
    )
