"""What a compression gauge should read over the height above the sea: a band, with a mark for her height."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bellcrank.figures.cut_parts import box, cut_shape, ink, open_path
from bellcrank.figures.legend import Meaning, hatched, legend
from bellcrank.figures.said import NO_BREAK, kept
from bellcrank.figures.theme import LINE, MARGIN, WIDTH, Finding, framed, stroke, text_at, title_height, title_lines
from bellcrank.units import convert, show, to_si

LEFT, RIGHT, HIGH = MARGIN + 52, WIDTH - MARGIN - 44, 230  # [px] of the plot
ROOM = 1.06  # [-] over the highest reading
MOST_TICKS = 5
MARK = 4  # [px] half of the mark across the band
BESIDE = 6  # [px] from the line at her height to its words
WIDE = 70  # [px] a height's words need
KPA, PSI = "kPa", "psi"


@dataclass(frozen=True, slots=True)
class _Plot:
    """Heights [m] across, readings [Pa] up, from zero."""

    lowest: float
    highest: float
    most: float
    top: float

    def across(self, height: float) -> float:
        """Give the place of a height. [px]"""
        span = self.highest - self.lowest or 1.0
        return LEFT + (RIGHT - LEFT) * min(max((height - self.lowest) / span, 0.0), 1.0)

    def down(self, reading: float) -> float:
        """Give the place of a reading. [px]"""
        return self.top + HIGH * (1 - reading / (ROOM * self.most))


def compression_altitude(
    heights: Sequence[float],
    low: Sequence[float],
    high: Sequence[float],
    name: str = "altitude",
    here: float | None = None,
) -> str:
    """Draw the least and the most a gauge should read [Pa] over rising heights [m], and a mark ``here``."""
    title = "The higher up, the less the gauge reads"
    if here is not None:
        title = f"At {_metres(here)}: {_both(_there(here, heights, low), _there(here, heights, high))}"
    plot = _Plot(heights[0], heights[-1], max(high), title_height(title) + 2 * LINE + 10)
    band = [(plot.across(at), plot.down(one)) for at, one in zip(heights, low, strict=True)]
    over = [(plot.across(at), plot.down(one)) for at, one in zip(heights, high, strict=True)]
    parts = [title_lines(title), cut_shape([*band, *reversed(over)], leans=1), _readings(plot), _heights(plot)]
    if here is not None:
        parts.append(_here(plot, here, _there(here, heights, low), _there(here, heights, high)))
    meanings = legend(_meanings(), plot.top + HIGH + 3 * LINE)
    finding = Finding(name, title, _told(heights, low, high, here))
    return framed(finding, "figure-altitude", meanings.bottom, *parts, meanings.marks)


def _metres(height: float) -> str:
    """Say a height, below the sea in words."""
    words = kept(show(abs(height), "m", "length", 0))
    return words if height > -0.5 else f"{words} under the sea"


def _range(low: float, high: float, unit: str) -> str:
    """Say a range of readings; kPa, the finer unit, in tens."""
    digits = -1 if unit == KPA else 0
    first, last = (f"{round(convert(one, unit, 'pressure'), digits):.0f}" for one in (low, high))
    return kept(f"{last} {unit}" if first == last else f"{first} to {last} {unit}")


def _both(low: float, high: float) -> str:
    return f"{_range(low, high, KPA)} ({_range(low, high, PSI)})"


def _there(here: float, heights: Sequence[float], readings: Sequence[float]) -> float:
    """Read a line at a height, straight between the heights given.

    >>> _there(250.0, (0.0, 1000.0), (8.0, 4.0))
    7.0
    """
    for (x1, y1), (x2, y2) in pairwise(zip(heights, readings, strict=True)):
        if here <= x2:
            return y1 + (y2 - y1) * min(max((here - x1) / (x2 - x1), 0.0), 1.0)
    return readings[-1]


def _told(heights: Sequence[float], low: Sequence[float], high: Sequence[float], here: float | None) -> str:
    ends = " and ".join(f"{_both(low[one], high[one])} at {_metres(heights[one])}" for one in (0, len(heights) - 1))
    said = ""
    if here is not None:
        said = f" A mark at {_metres(here)}: {_both(_there(here, heights, low), _there(here, heights, high))}."
    return f"What a compression gauge should read over the height above the sea, a band: {ends}.{said}"


def _readings(plot: _Plot) -> str:
    """Draw both scales, kPa at the left and psi at the right."""
    foot = plot.top + HIGH
    marks = stroke("drawn-line", f"M{LEFT} {plot.top:.1f}V{foot:.1f}H{RIGHT}V{plot.top:.1f}")
    for unit, x, side, anchor in ((KPA, LEFT, -1, "end"), (PSI, RIGHT, 1, "start")):
        marks += text_at(unit, x + 8 * side, plot.top - 14, strong=True, anchor=anchor)
        step = _step(ROOM * convert(plot.most, unit, "pressure") / MOST_TICKS)
        for number in range(MOST_TICKS + 1):
            y = plot.down(to_si(number * step, unit, "pressure"))
            if y >= plot.top:
                marks += stroke("drawn-mark", f"M{x} {y:.1f}H{x + 6 * side}")
                marks += text_at(f"{number * step:g}", x + 9 * side, y + 6, anchor=anchor)
    return marks


def _step(least: float) -> float:
    """Give the next round step from some size on: 1, 2, 2.5 or 5 times a power of ten."""
    power = 10.0 ** math.floor(math.log10(least))
    return next(times * power for times in (1, 2, 2.5, 5, 10) if times * power >= least * (1 - 1e-9))


def _heights(plot: _Plot) -> str:
    foot, step = plot.top + HIGH, _step(max(plot.highest - plot.lowest, 1.0) / MOST_TICKS)
    marks, free_from = "", 0.0
    for number in range(math.ceil(plot.lowest / step), math.floor(plot.highest / step) + 1):
        x = plot.across(number * step)
        marks += stroke("drawn-mark", f"M{x:.1f} {foot:.1f}V{foot + 6:.1f}")
        if number >= 0 and x - WIDE / 2 >= free_from:
            marks += text_at(f"{number * step:g}", x, foot + LINE + 6)
            free_from = x + WIDE / 2
    return marks + text_at(f"height above the sea,{NO_BREAK}m", (LEFT + RIGHT) / 2, foot + 2 * LINE + 6)


def _here(plot: _Plot, here: float, low: float, high: float) -> str:
    """Draw the mark across the band at her height, and say the height over it."""
    x, top = plot.across(here), plot.top - 2 * LINE
    to_the_right = x < WIDTH / 2
    words = text_at(
        f"here, {_metres(here)}" if here > -0.5 else _metres(here),
        x + (BESIDE if to_the_right else -BESIDE),
        top + 0.7 * LINE,
        strong=True,
        anchor="start" if to_the_right else "end",
    )
    line = stroke("drawn-here", open_path([(x, top), (x, plot.top + HIGH)]))
    return words + line + ink(box(x - MARK, x + MARK, plot.down(high), plot.down(low)))


def _meanings() -> Iterable[Meaning]:
    yield Meaning(hatched(1), "from a slow pull, a cold wall or small leaks up to a quick pull in a tight cylinder")
