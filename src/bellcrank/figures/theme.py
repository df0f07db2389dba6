"""The look all figures share: sizes, class names, and the few SVG marks they are drawn with.

Class names carry the page's colours; the attributes beside them make a figure readable and printable in black
when no style is loaded. There are no style attributes and no scripts: the page's security policy forbids both.
"""

import math
from dataclasses import dataclass
from html import escape

WIDTH = 420  # [px] of the drawing, near a phone's width so that letters keep their size there
MARGIN = 12  # [px]
TITLE_SIZE, TEXT_SIZE = 20, 18  # [px]
# [-] mean width of a letter over its size in the widest of the fonts a browser falls back to
LETTER, BOLD_LETTER = 0.61, 0.69
LINE = 1.25 * TEXT_SIZE  # [px] from line to line
BAR = 18  # [px] height of a bar
ROW_GAP = 14  # [px] under a bar


@dataclass(frozen=True, slots=True)
class Finding:
    """What a figure says: the name its ids start with, its title, and the text twin for a screen reader."""

    name: str  # "torque", lower-case, unique on its page
    title: str
    told: str


def wrapped(
    words: str, size: int = TEXT_SIZE, width: float = WIDTH - 2 * MARGIN, *, strong: bool = False
) -> tuple[str, ...]:
    """Break a sentence into lines that fit a width, at plain spaces only."""
    most = max(8, int(width / ((BOLD_LETTER if strong else LETTER) * size)))
    lines = [""]
    for word in words.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) > most and lines[-1]:
            lines.append(word)
        else:
            lines[-1] = longer
    return tuple(lines)


def text(words: str, y: float, *, strong: bool = False, size: int = TEXT_SIZE, at_end: bool = False) -> str:
    """Write one line of text from the left margin, or up to the right one."""
    x, anchor = (WIDTH - MARGIN, ' text-anchor="end"') if at_end else (MARGIN, "")
    name, weight = ("drawn-said", ' font-weight="bold"') if strong else ("drawn-words", "")
    return (
        f'<text class="{name}" x="{x}" y="{y:.1f}" font-size="{size}"{weight}{anchor} fill="currentColor">'
        f"{escape(words)}</text>"
    )


def text_at(
    words: str, x: float, y: float, *, strong: bool = False, size: int = TEXT_SIZE, anchor: str = "middle"
) -> str:
    """Write one line of text anywhere, by its middle, its start or its end."""
    name, weight = ("drawn-said", ' font-weight="bold"') if strong else ("drawn-words", "")
    return (
        f'<text class="{name}" x="{x:.1f}" y="{y:.1f}" font-size="{size}"{weight} text-anchor="{anchor}" '
        f'fill="currentColor">{escape(words)}</text>'
    )


def title_lines(words: str) -> str:
    """Write the finding over the drawing."""
    lines = wrapped(words, TITLE_SIZE, strong=True)
    return "".join(
        text(line, MARGIN + TITLE_SIZE + number * 1.25 * TITLE_SIZE, strong=True, size=TITLE_SIZE)
        for number, line in enumerate(lines)
    )


def title_height(words: str) -> float:
    """Height the finding takes. [px]"""
    return MARGIN + 1.25 * TITLE_SIZE * len(wrapped(words, TITLE_SIZE, strong=True))


@dataclass(frozen=True, slots=True)
class RowHead:
    """Words at the left and their value at the right, over the bar of a row."""

    marks: str
    bar_top: float  # where the bar begins [px]
    bottom: float  # where the next row begins [px]


def row_head(words: str, value: str, y: float, *, strong: bool = False) -> RowHead:
    """Write the words over a bar, on as many lines as they need beside the value."""
    letter = BOLD_LETTER if strong else LETTER
    room = WIDTH - 2 * MARGIN - letter * TEXT_SIZE * (len(value) + 1)
    lines = wrapped(words, width=room, strong=strong)
    written = "".join(text(line, y + LINE * (n + 1), strong=strong) for n, line in enumerate(lines))
    bar_top = y + LINE * len(lines) + 8
    marks = written + text(value, y + LINE, strong=strong, at_end=True)
    return RowHead(marks, bar_top, bar_top + BAR + ROW_GAP)


def bar(name: str, left: float, right: float, y: float, *, filled: bool) -> str:
    """Draw a bar: full ink, or an outline."""
    fill = ' fill="currentColor"' if filled else ' fill="none"'
    return (
        f'<rect class="{name}" x="{left:.1f}" y="{y:.1f}" width="{max(right - left, 2):.1f}" height="{BAR}"{fill} '
        'stroke="currentColor" stroke-width="2"/>'
    )


def stroke(name: str, path: str, width: int = 2) -> str:
    """Draw a line along a path."""
    return f'<path class="{name}" d="{path}" fill="none" stroke="currentColor" stroke-width="{width}"/>'


def along(value: float, end: float) -> float:
    """Give the place of a value on a scale from zero to ``end`` that fills the drawing. [px]"""
    share = min(max(value / end, 0.0), 1.0) if end > 0 and math.isfinite(value) else 0.0
    return MARGIN + (WIDTH - 2 * MARGIN) * share


def framed(finding: Finding, class_name: str, height: float, *marks: str) -> str:
    """Put marks into a drawing with the title and the text twin a screen reader reads out."""
    name = escape(finding.name, quote=True)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{class_name}" viewBox="0 0 {WIDTH} {math.ceil(height)}" '
        f'role="img" aria-labelledby="{name}-t {name}-d"><title id="{name}-t">{escape(finding.title)}</title>'
        f'<desc id="{name}-d">{escape(finding.told)}</desc>{"".join(marks)}</svg>'
    )
