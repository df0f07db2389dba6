"""Numbers of the sheet in the words of the bench."""

from datetime import datetime
from decimal import Decimal

from bellcrank.shop.sheet import TorqueLine
from bellcrank.units import convert, show

IMPERIAL_TURNOVER_NM = 20.0  # [N·m] below it inch-pounds read better than foot-pounds


def percent(probability: float) -> str:
    """Show a probability: whole percents, and honest ends."""
    if probability < 0.005:
        return "under 1 %"
    if probability > 0.995:
        return "over 99 %"
    return f"{probability * 100:.0f} %"


def bar_width(probability: float) -> str:
    """Give the width of a bar of 100 for a probability."""
    return f"{max(1.0, probability * 100):.0f}"


def minutes(value: float) -> str:
    """Show minutes, whole.

    >>> minutes(0.3), minutes(12.4)
    ('under 1 min', '12 min')
    """
    return f"{round(value)} min" if value >= 0.5 else "under 1 min"


def money(amount: Decimal, currency: str) -> str:
    """Show an amount with its currency."""
    return f"{amount:.2f} {currency}"


def torque(newton_metres: float, unit: str) -> str:
    """Show a torque in the shop's unit; the digits follow what a wrench can hold."""
    value = convert(newton_metres, unit, "torque")
    return show(newton_metres, unit, "torque", 0 if value >= 20 else 1)


def other_torque(newton_metres: float, unit: str) -> str:
    """Show the same torque in the other system's unit."""
    if unit == "N·m":
        return torque(newton_metres, "ft·lb" if newton_metres >= IMPERIAL_TURNOVER_NM else "in·lb")
    return torque(newton_metres, "N·m")


def torque_window(line: TorqueLine, unit: str) -> str:
    """Show the window as one range with its unit."""
    low, high = (convert(value, unit, "torque") for value in (line.low_nm, line.high_nm))
    digits = 0 if high >= 20 else 1
    return f"{low:.{digits}f} to {high:.{digits}f} {unit}"


def when(moment: str) -> str:
    """Show a stored time as day and time of this computer."""
    return datetime.fromisoformat(moment).astimezone().strftime("%d %b %H:%M")


def counted(number: int, singular: str, plural: str) -> str:
    """Say how many of something there are."""
    return f"{number} {singular if number == 1 else plural}"
