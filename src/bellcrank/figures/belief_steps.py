"""Belief over the steps of a job: how likely the leading causes were after each step, each named at its end."""

from collections.abc import Sequence
from dataclasses import dataclass

from bellcrank.figures.names import GAP, WORDS_FROM
from bellcrank.figures.said import capital, kept, share_said
from bellcrank.figures.theme import (
    LINE,
    MARGIN,
    WIDTH,
    Finding,
    framed,
    stroke,
    text_at,
    title_height,
    title_lines,
    wrapped,
)

LEFT, RIGHT, HIGH = MARGIN + 46, WORDS_FROM - 56, 320  # [px] of the plot
KEY = WORDS_FROM - 13  # [px] middle of the mark before a name
MARK = 6  # [px] from the middle of a mark to its edge
TICKS = (0.0, 0.25, 0.5, 0.75, 1.0)
LABEL = 26  # [px] a step's number needs
# What tells one line from the others without colour: its dashes and its mark.
DASHES = ("", "14 5", "3 4", "14 5 3 5", "8 8", "1 7")
REST = "the likeliest of all others"


@dataclass(frozen=True, slots=True)
class Path:
    """A cause and its probability after each step."""

    words: str
    probabilities: Sequence[float]  # [-]


@dataclass(frozen=True, slots=True)
class _Plot:
    """Steps across, probability up."""

    steps: int
    top: float

    def across(self, step: int) -> float:
        """Give the place of a step. [px]"""
        return LEFT + (RIGHT - LEFT) * step / max(self.steps - 1, 1)

    def down(self, probability: float) -> float:
        """Give the place of a probability. [px]"""
        return self.top + HIGH * (1 - min(max(probability, 0.0), 1.0))


def belief_steps(paths: Sequence[Path], rest: Sequence[float], name: str = "belief") -> str:
    """Draw the leading causes and the likeliest of the others over the steps.

    At most five causes; step 0 is what was told at the door, and the list beside says what the other numbers stand for.
    """
    drawn = [*paths, Path(REST, rest)]
    title = _title(paths)
    plot = _Plot(len(rest), title_height(title) + LINE)
    lines = "".join(_line(plot, path, number) for number, path in enumerate(drawn))
    names, names_foot = _names(plot, drawn)
    foot = max(names_foot, plot.top + HIGH + 2 * LINE + 8) + 4
    finding = Finding(name, title, _told(drawn))
    return framed(finding, "figure-belief", foot, title_lines(title), _axes(plot), lines, names)


def _names(plot: _Plot, drawn: Sequence[Path]) -> tuple[str, float]:
    """Name every line at its end, with its mark, and give where the last name ends. [px]"""
    ends = sorted(enumerate(drawn), key=lambda pair: (-pair[1].probabilities[-1], pair[0]))
    lines = [wrapped(_named(path), width=WIDTH - MARGIN - WORDS_FROM, strong=not number) for number, path in ends]
    heights = [LINE * len(one) + GAP for one in lines]
    tops = _tops([plot.down(path.probabilities[-1]) - LINE / 2 for _, path in ends], heights, plot)
    marks, x = "", plot.across(plot.steps - 1) + MARK + 2
    for (number, path), words, top in zip(ends, lines, tops, strict=True):
        marks += stroke(
            "drawn-lead", f"M{x:.1f} {plot.down(path.probabilities[-1]):.1f}L{KEY - 10} {top + LINE / 2:.1f}", 1
        )
        marks += _mark(KEY, top + LINE / 2, number)
        for row, line in enumerate(words):
            y = top + LINE * (row + 0.78)
            marks += text_at(line, WORDS_FROM, y, strong=not number, anchor="start")
    return marks, tops[-1] + heights[-1] - GAP


def _tops(wanted: Sequence[float], heights: Sequence[float], plot: _Plot) -> list[float]:
    """Set names beside their ends, pushed up from the foot of the drawing where they crowd, then down from its top."""
    tops, free_to = [0.0] * len(wanted), plot.top + HIGH + 2 * LINE + 8 + GAP
    for at in reversed(range(len(wanted))):
        tops[at] = min(wanted[at], free_to - heights[at])
        free_to = tops[at]
    free_from = plot.top - LINE / 2
    for at, high in enumerate(heights):
        tops[at] = max(tops[at], free_from)
        free_from = tops[at] + high
    return tops


def _named(path: Path) -> str:
    return f"{capital(path.words)}: {share_said(path.probabilities[-1])}"


def _title(paths: Sequence[Path]) -> str:
    """State the finding: what leads at the end, and since when."""
    at = len(paths[0].probabilities) - 1
    leader = _leader(paths, at)
    since = at
    while since and _leader(paths, since - 1) is leader:
        since -= 1
    begun = "from the door on" if not since else kept(f"since step {since}")
    return f"“{capital(leader.words)}” leads {begun}: {share_said(leader.probabilities[at])}"


def _leader(paths: Sequence[Path], step: int) -> Path:
    return max(paths, key=lambda path: path.probabilities[step])


def _told(drawn: Sequence[Path]) -> str:
    """Tell every line step by step, for those who cannot see it."""
    each = "; ".join(f"{path.words}: {', '.join(share_said(one) for one in path.probabilities)}" for path in drawn)
    return f"How likely the leading causes were, step by step from step 0, at the door. {capital(each)}."


def _axes(plot: _Plot) -> str:
    foot = plot.top + HIGH
    marks = stroke("drawn-line", f"M{LEFT} {plot.top:.1f}V{foot:.1f}H{RIGHT}")
    for share in TICKS:
        y = plot.down(share)
        marks += stroke("drawn-mark", f"M{LEFT - 6} {y:.1f}H{LEFT}")
        marks += text_at(f"{100 * share:.0f}", LEFT - 10, y + 6, anchor="end")
    every = -(-plot.steps * LABEL // int(RIGHT - LEFT)) if plot.steps > 1 else 1
    for step in range(0, plot.steps, every):
        x = plot.across(step)
        marks += stroke("drawn-mark", f"M{x:.1f} {foot:.1f}V{foot + 6:.1f}")
        marks += text_at(str(step), x, foot + LINE + 4)
    return marks + text_at("step", (LEFT + RIGHT) / 2, foot + 2 * LINE + 4, strong=True)


def _line(plot: _Plot, path: Path, number: int) -> str:
    places = [(plot.across(step), plot.down(one)) for step, one in enumerate(path.probabilities)]
    way = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in places)
    dashes = f' stroke-dasharray="{DASHES[number]}"' if DASHES[number] else ""
    width = 2 if number else 4
    line = f'<path class="drawn-path" d="{way}" fill="none" stroke="currentColor" stroke-width="{width}"{dashes}/>'
    return line + "".join(_mark(x, y, number) for x, y in places)


def _mark(x: float, y: float, number: int) -> str:
    """Draw the mark of a line: a full diamond, and then an open one, a square, a triangle, a cross, a bar."""
    a = MARK
    shapes = (
        f"M{x:.1f} {y - a:.1f}L{x + a:.1f} {y:.1f}L{x:.1f} {y + a:.1f}L{x - a:.1f} {y:.1f}Z",
        f"M{x:.1f} {y - a:.1f}L{x + a:.1f} {y:.1f}L{x:.1f} {y + a:.1f}L{x - a:.1f} {y:.1f}Z",
        f"M{x - 5:.1f} {y - 5:.1f}H{x + 5:.1f}V{y + 5:.1f}H{x - 5:.1f}Z",
        f"M{x:.1f} {y - a:.1f}L{x + a:.1f} {y + 5:.1f}H{x - a:.1f}Z",
        f"M{x - 5:.1f} {y - 5:.1f}L{x + 5:.1f} {y + 5:.1f}M{x - 5:.1f} {y + 5:.1f}L{x + 5:.1f} {y - 5:.1f}",
        f"M{x:.1f} {y - a:.1f}V{y + a:.1f}",
    )
    if number:
        return f'<path class="drawn-spot" d="{shapes[number]}" fill="none" stroke="currentColor" stroke-width="2"/>'
    return f'<path class="drawn-governs" d="{shapes[number]}" fill="currentColor" stroke="currentColor"/>'
