"""One pull of the cord drawn against time: the crank's speed, the cylinder's pressure, the force in the cord.

The attributes called ``data-`` are for ``pull.js``, which reads values back at a place along the pull; without it the
figure stands as it is, its largest values said.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bellcrank.figures.event_marks import Event, Words, event_marks
from bellcrank.figures.said import kept
from bellcrank.figures.theme import (
    BOLD_LETTER,
    LETTER,
    LINE,
    MARGIN,
    ROW_GAP,
    TEXT_SIZE,
    WIDTH,
    Finding,
    framed,
    row_head,
    stroke,
    text_at,
    title_height,
    title_lines,
)
from bellcrank.units import show, to_si

HIGH = 84  # [px] of a trace
COLUMNS = 132  # a trace keeps its least and its greatest value in each of so many
MOST_TICKS = 5
LEAST_BACK = 0.5  # [rpm] turning back by less is not said
ROOM = 1.08  # [-] over the greatest value


@dataclass(frozen=True, slots=True)
class _Trace:
    """A quantity against time; ``told`` and ``under`` say a value from zero up and below zero."""

    words: str
    values: Sequence[float]
    unit: str
    told: str = "{}"
    under: str = "{}"

    @property
    def low(self) -> float:
        """The least value, or zero."""
        return min(0.0, *self.values)

    @property
    def span(self) -> float:
        """What the height stands for."""
        return ROOM * (max(0.0, *self.values) - self.low) or 1.0


@dataclass(frozen=True, slots=True)
class _Time:
    """The shared axis. [s]"""

    start: float
    end: float

    def across(self, second: float) -> float:
        """Give the place of a time. [px]"""
        span = self.end - self.start or 1.0
        return MARGIN + (WIDTH - 2 * MARGIN) * min(max((second - self.start) / span, 0.0), 1.0)


def pull_trace(
    seconds: Sequence[float],
    speed_rpm: Sequence[float],
    pressure_kpa: Sequence[float],
    cord_force_n: Sequence[float],
    events: Sequence[tuple[float, str]],
    name: str = "pull-trace",
) -> str:
    """Draw a pull: three traces over each other, and what happened, (seconds, words), as upright lines."""
    time = _Time(seconds[0], seconds[-1])
    traces = (
        _Trace("Crank", speed_rpm, "rpm", "{} rpm", "{} rpm back"),
        _Trace("Cylinder", pressure_kpa, "kPa", "{} kPa", "{} kPa under the air"),
        _Trace("Cord", cord_force_n, "N", "cord {} N", "cord {} N back"),
    )
    title = _title(seconds, traces)
    marked = [Event(time.across(second), f"{words}, {kept(f'{second:.2f} s')}") for second, words in sorted(events)]
    top = title_height(title) + 6
    labels_foot = top + LINE * sum(len(one.lines) for one in marked)
    heads, plots, foot = "", "", labels_foot
    words: list[Words] = []
    for trace in traces:
        said = _largest(trace, seconds)
        head = row_head(trace.words, said, foot, strong=True)
        heads += head.marks
        plots += _plot(trace, seconds, time, head.bar_top)
        words += _head_words(trace.words, said, foot, head.bar_top)
        foot = head.bar_top + HIGH + ROW_GAP / 2
    scale = (
        f'<g class="drawn-pull" data-left="{MARGIN}" data-right="{WIDTH - MARGIN}" data-start="{time.start:.4f}" '
        f'data-end="{time.end:.4f}" data-high="{HIGH}">{plots}</g>'
    )
    lines = event_marks(marked, top, foot, words)
    told = _told(seconds, traces, events)
    drawn = (title_lines(title), lines, heads, scale, _axis(time, foot))
    return framed(Finding(name, title, told), "figure-pull-trace", foot + 2 * LINE, *drawn)


def _head_words(words: str, value: str, top: float, bottom: float) -> tuple[Words, Words]:
    """Give where the words over a trace stand."""
    letter = BOLD_LETTER * TEXT_SIZE
    left, right = MARGIN + letter * (len(words) + 1), WIDTH - MARGIN - letter * (len(value) + 1)
    return Words(0, left, top, bottom), Words(right, WIDTH, top, bottom)


def _title(seconds: Sequence[float], traces: Sequence[_Trace]) -> str:
    speed, pressure, cord = traces
    if min(speed.values) < -LEAST_BACK:
        at = seconds[_where(speed.values, min(speed.values))]
        return f"Kicked back: {-min(speed.values):.0f} rpm backwards at {kept(f'{at:.2f} s')}"
    most = (f"{max(speed.values):.0f} rpm", f"{max(pressure.values):.0f} kPa", f"cord {max(cord.values):.0f} N")
    return f"Up to {', '.join(map(kept, most))}"


def _where(values: Sequence[float], value: float) -> int:
    return next(number for number, one in enumerate(values) if one == value)


def _largest(trace: _Trace, seconds: Sequence[float]) -> str:
    """Say the largest value, and where a crank turned back by how much."""
    most, least = max(trace.values), min(trace.values)
    if trace.unit == "rpm" and least < -LEAST_BACK:
        return f"{most:.0f} rpm on, {-least:.0f} rpm back"
    return f"most {most:.0f} {trace.unit} at {seconds[_where(trace.values, most)]:.2f} s"


def _told(seconds: Sequence[float], traces: Sequence[_Trace], events: Iterable[tuple[float, str]]) -> str:
    speed, pressure, cord = traces
    most, force = max(pressure.values), max(cord.values)
    happened = "; ".join(f"{words} at {second:.2f} s" for second, words in sorted(events))
    return (
        f"A pull of the cord over {seconds[-1] - seconds[0]:.2f} s. Crank: {_largest(speed, seconds)}. Cylinder, over "
        f"the air around: {_largest(pressure, seconds)} ({show(to_si(most, 'kPa', 'pressure'), 'psi', 'pressure')}). "
        f"Cord: {_largest(cord, seconds)} ({show(to_si(force, 'N', 'force'), 'lbf', 'force')})."
        f"{f' What happened: {happened}.' if happened else ''}"
    )


def _plot(trace: _Trace, seconds: Sequence[float], time: _Time, top: float) -> str:
    """Draw a trace over its line of zero."""
    per = HIGH / trace.span
    zero = top + HIGH + per * trace.low
    points = [
        (time.across(seconds[one]), zero - per * trace.values[one]) for one in _kept_points(trace.values, COLUMNS)
    ]
    path = "M" + "L".join(f"{x:.1f} {y:.2f}" for x, y in points)
    return stroke("drawn-mark", f"M{MARGIN} {zero:.1f}H{WIDTH - MARGIN}", 1) + (
        f'<path class="drawn-trace" d="{path}" fill="none" stroke="currentColor" stroke-width="3" '
        f'stroke-linejoin="round" data-top="{top:.1f}" data-zero="{zero:.2f}" data-per="{per:.6g}" '
        f'data-told="{trace.told}" data-under="{trace.under}"/>'
    )


def _kept_points(values: Sequence[float], columns: int) -> Sequence[int]:
    """Name the points that are drawn: all of a few, of many the least and the greatest in each column, and both ends.

    >>> _kept_points([0, 5, 1, 1, -3, 0, 2, 2], 2)
    [0, 1, 4, 6, 7]
    """
    number = len(values)
    if number <= 2 * columns:
        return range(number)
    kept = {0, number - 1}
    for column in range(columns):
        those = range(column * number // columns, (column + 1) * number // columns)
        kept |= {min(those, key=values.__getitem__), max(those, key=values.__getitem__)}
    return sorted(kept)


def _axis(time: _Time, top: float) -> str:
    """Draw the shared axis with its times."""
    step = _step((time.end - time.start) / MOST_TICKS)
    digits = max(0, -math.floor(math.log10(step)))
    marks, free_from = stroke("drawn-line", f"M{MARGIN} {top:.1f}H{WIDTH - MARGIN}"), 0.0
    for number in range(math.ceil(time.start / step - 1e-9), math.floor(time.end / step + 1e-9) + 1):
        x = time.across(number * step)
        words = f"{number * step:.{digits if number else 0}f} s"
        half = LETTER * TEXT_SIZE * (len(words) + 0.5) / 2
        marks += stroke("drawn-mark", f"M{x:.1f} {top:.1f}V{top + 6:.1f}")
        middle = min(max(x, MARGIN + half), WIDTH - MARGIN - half)
        if middle - half > free_from:
            marks += text_at(words, middle, top + LINE)
            free_from = middle + half
    return marks


def _step(least: float) -> float:
    """Give the next round step from some size on: 1, 2 or 5 times a power of ten.

    >>> [_step(one) for one in (0.12, 0.2, 0.3)]
    [0.2, 0.2, 0.5]
    """
    power = 10.0 ** math.floor(math.log10(least)) if least > 0 else 1.0
    return next(times * power for times in (1, 2, 5, 10) if times * power >= least - 1e-12)
