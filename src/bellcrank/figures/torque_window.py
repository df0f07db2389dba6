"""A torque window drawn on a scale with the limits of bolt, thread and head face."""

from bellcrank.fastening.widening import Limit
from bellcrank.fastening.window import TorqueWindow
from bellcrank.figures.said import capital, torque_said, torques_said
from bellcrank.figures.theme import (
    BAR,
    Finding,
    RowHead,
    along,
    bar,
    framed,
    row_head,
    stroke,
    title_height,
    title_lines,
)

SCALE_SHARE = 1.05  # [-] room to the right of the highest limit drawn
CLIPPED_AT = 3.0  # [-] limits beyond this many times the window's end are drawn to the edge, with an arrow


def torque_window_figure(window: TorqueWindow, unit: str, name: str = "torque") -> str:
    """Draw the window over the limits, the governing one in full ink; all limit bars begin at zero.

    Every bar has its words on lines of their own, so that nothing overlaps however narrow the window is.
    """
    title = f"{capital(window.governs)} limits this joint to {torque_said(window.high, unit)}"
    span = torques_said(window.low, window.high, unit)
    limits = "; ".join(f"{limit.words} {torque_said(limit.torque, unit)}" for limit in window.limits)
    finding = Finding(name, title, f"Aim for {torque_said(window.target, unit)}, window {span}. Limits: {limits}.")
    end = SCALE_SHARE * min(max(limit.torque for limit in window.limits), CLIPPED_AT * window.high)
    head = row_head(f"Aim for {torque_said(window.target, unit)}", span, title_height(title), strong=True)
    marks = [title_lines(title), head.marks, _window_marks(window, head, end)]
    for limit in window.limits:
        head = row_head(
            capital(limit.words), torque_said(limit.torque, unit), head.bottom, strong=limit is window.limits[0]
        )
        marks += [head.marks, _limit_marks(limit, head, end, governs=limit is window.limits[0])]
    return framed(finding, "figure-torque", head.bottom, *marks)


def _window_marks(window: TorqueWindow, head: RowHead, end: float) -> str:
    top, foot, target = head.bar_top, head.bar_top + BAR, along(window.target, end)
    return (
        bar("drawn-span", along(window.low, end), along(window.high, end), top, filled=False)
        + stroke("drawn-line", f"M{along(0, end):.1f} {foot:.1f}H{along(end, end):.1f}")
        + stroke("drawn-mark", f"M{target:.1f} {top - 4:.1f}V{foot + 4:.1f}", 4)
    )


def _limit_marks(limit: Limit, head: RowHead, end: float, *, governs: bool) -> str:
    name = "drawn-governs" if governs else "drawn-limit"
    drawn = bar(name, along(0, end), along(limit.torque, end), head.bar_top, filled=governs)
    if limit.torque <= end:
        return drawn
    return drawn + stroke("drawn-arrow", f"M{along(end, end) - 14:.1f} {head.bar_top + 2:.1f}l10 7l-10 7")
