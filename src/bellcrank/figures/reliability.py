"""How often came what was said: a row for each size of forecast, what came as a bar, what was said as a mark."""

from collections.abc import Sequence

from bellcrank.figures.legend import Meaning, legend
from bellcrank.figures.said import share_said
from bellcrank.figures.theme import (
    BAR,
    Finding,
    along,
    bar,
    framed,
    row_head,
    stroke,
    title_height,
    title_lines,
)
from bellcrank.stats.scores import Bin
from bellcrank.stats.share import share_of

OVER = 5  # [px] that the mark of what was said stands out of the bar
TAIL = 5  # [px] half of an end of the range


def reliability_figure(bins: Sequence[Bin], title: str, name: str = "reliability") -> str:
    """Draw forecasts by their size: how many there were, what they said, how many came true."""
    rows, y = [], title_height(title) + 6
    for one in bins:
        head = row_head(_said(one), f"came {share_said(one.share)}", y)
        rows.append(head.marks + _row(one, head.bar_top))
        y = head.bottom
    meanings = legend(_meanings(), y + 4)
    told = " ".join(f"{_said(one).capitalize()}: {one.came} came." for one in bins)
    return framed(
        Finding(name, title, told), "figure-reliability", meanings.bottom, title_lines(title), *rows, meanings.marks
    )


def _said(one: Bin) -> str:
    return f"said {share_said(one.said)}, {one.count} {'time' if one.count == 1 else 'times'}"


def _row(one: Bin, top: float) -> str:
    foot, range_ = top + BAR, share_of(one.came, one.count)
    return (
        stroke("drawn-faint", f"M{along(0, 1.0):.1f} {foot:.1f}H{along(1.0, 1.0):.1f}")
        + bar("drawn-came", along(0, 1.0), along(one.share, 1.0), top, filled=True)
        + _range(along(range_.low, 1.0), along(range_.high, 1.0), foot)
        + _mark(along(one.said, 1.0), top)
    )


def _range(low: float, high: float, y: float) -> str:
    ends = "".join(f"M{x:.1f} {y - TAIL:.1f}V{y + TAIL:.1f}" for x in (low, high))
    return stroke("drawn-range", f"M{low:.1f} {y:.1f}H{high:.1f}{ends}", 3)


def _mark(x: float, top: float) -> str:
    return stroke("drawn-told", f"M{x:.1f} {top - OVER:.1f}V{top + BAR + OVER:.1f}", 4)


def _meanings() -> tuple[Meaning, ...]:
    return (
        Meaning(
            lambda at: bar("drawn-came", at[0] - 17, at[0] + 17, at[1] - BAR / 2, filled=True), "how many came true"
        ),
        Meaning(
            lambda at: _range(at[0] - 17, at[0] + 17, at[1]),
            "where that may lie by chance",
        ),
        Meaning(lambda at: _mark(at[0], at[1] - BAR / 2), "what was said"),
    )
