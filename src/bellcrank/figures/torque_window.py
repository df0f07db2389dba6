"""A torque window drawn on a scale with the limits of bolt, thread and head face."""

from html import escape

from bellcrank.fastening.window import Limit, TorqueWindow
from bellcrank.units import convert, show

WIDTH = 640
LEFT, RIGHT = 20, 620
ROW = 34
SCALE_SHARE = 1.12  # [-] room to the right of the highest limit drawn
CLIPPED_AT = 3.0  # [-] limits beyond this many times the window's end are named, not drawn to scale


def torque_window_figure(window: TorqueWindow, unit: str) -> str:
    """Draw the window; limits far beyond it are drawn at the edge and say so."""
    end = SCALE_SHARE * min(max(limit.torque for limit in window.limits), CLIPPED_AT * window.high)
    title = f"{window.governs[:1].upper()}{window.governs[1:]} limits this joint to {_shown(window.high, unit)}"
    told = ", ".join(f"{limit.words} at {_shown(limit.torque, unit)}" for limit in window.limits)
    height = 96 + ROW * len(window.limits)
    rows = "".join(_limit_row(limit, place, end, unit) for place, limit in enumerate(window.limits))
    return (
        f'<svg class="figure-torque" viewBox="0 0 {WIDTH} {height}" role="img" aria-labelledby="torque-t torque-d">'
        f'<title id="torque-t">{escape(title)}</title>'
        f'<desc id="torque-d">Window {_shown(window.low, unit)} to {_shown(window.high, unit)}; limits: {escape(told)}.</desc>'
        f"{_window_bar(window, end, unit)}{rows}</svg>"
    )


def _window_bar(window: TorqueWindow, end: float, unit: str) -> str:
    low, target, high = (_at(value, end) for value in (window.low, window.target, window.high))
    return (
        f'<text class="drawn-strong" x="{LEFT}" y="24">Set the wrench to {_shown(window.target, unit)}</text>'
        f'<line class="drawn-line" x1="{LEFT}" y1="56" x2="{RIGHT}" y2="56"/>'
        f'<rect class="drawn-window" x="{low:.1f}" y="44" width="{high - low:.1f}" height="24"/>'
        f'<path class="drawn-mark" d="M{target:.1f} 38v36"/>'
    )


def _limit_row(limit: Limit, place: int, end: float, unit: str) -> str:
    beyond = limit.torque > end
    x = RIGHT if beyond else _at(limit.torque, end)
    y = 92 + ROW * place
    words = f"{limit.words}: {_shown(limit.torque, unit)}{' (off the scale)' if beyond else ''}"
    anchor = "end" if x > WIDTH / 2 else "start"
    name = "drawn-strong" if place == 0 else "drawn-text"
    offset = -8 if anchor == "end" else 8
    return (
        f'<path class="drawn-limit" d="M{x:.1f} 44V{y + 8}"/>'
        f'<text class="{name}" x="{x + offset:.1f}" y="{y + 8}" text-anchor="{anchor}">{escape(words)}</text>'
    )


def _at(torque: float, end: float) -> float:
    return LEFT + (RIGHT - LEFT) * torque / end


def _shown(torque: float, unit: str) -> str:
    return show(torque, unit, "torque", 0 if convert(torque, unit, "torque") >= 20 else 1)
