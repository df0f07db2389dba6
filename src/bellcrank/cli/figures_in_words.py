"""Figures as the bench reads them: a percentage, minutes, a torque with its second unit, money."""

from datetime import datetime
from decimal import Decimal

from bellcrank import units
from bellcrank.shop.sheet import TorqueLine

SMALL_TORQUE = 20.0  # [N·m] up to here small bolts, which the trade gives in in·lb; above, ft·lb


def percentage(probability: float) -> str:
    """Show a probability; never 0 % or 100 %, because nothing is certain.

    >>> percentage(0.914), percentage(0.001), percentage(0.999)
    ('91 %', 'under 1 %', 'over 99 %')
    """
    if probability < 0.005:
        return "under 1 %"
    return "over 99 %" if probability > 0.995 else f"{100 * probability:.0f} %"


def minutes_in_words(minutes: float) -> str:
    """Show a time of work.

    >>> minutes_in_words(0.4), minutes_in_words(9.2), minutes_in_words(95)
    ('under 1 min', '9 min', '1 h 35 min')
    """
    whole = round(minutes)
    if whole < 1:
        return "under 1 min" if minutes > 0 else "no time"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def torque_in_words(torque_nm: float) -> str:
    """Show a torque in N·m and in the inch unit a bolt of that size is given in.

    >>> torque_in_words(9.04), torque_in_words(81.3)
    ('9.0 N·m (80 in·lb)', '81.3 N·m (60.0 ft·lb)')
    """
    return f"{units.show(torque_nm, 'N·m', 'torque')} ({units.show(torque_nm, second_unit(torque_nm), 'torque')})"


def second_unit(torque_nm: float) -> str:
    """Give the inch unit for a torque: in·lb for small bolts, ft·lb above."""
    return "in·lb" if torque_nm < SMALL_TORQUE else "ft·lb"


def window_in_words(low_nm: float, high_nm: float) -> str:
    """Show a torque window in both units.

    >>> window_in_words(8.0, 10.0)
    '8.0 to 10.0 N·m (71 to 89 in·lb)'
    """
    inch = second_unit(high_nm)
    return f"{_range(low_nm, high_nm, 'N·m')} ({_range(low_nm, high_nm, inch)})"


def torque_line(torque: TorqueLine) -> str:
    """Say a torque with window, basis and source in one line, always in this order."""
    window = "" if torque.low_nm == torque.high_nm else f", window {window_in_words(torque.low_nm, torque.high_nm)}"
    typed = f", typed “{torque.typed}”" if torque.typed else ""
    source = f": {torque.source}" if torque.source not in ("", torque.basis) else ""
    return f"{torque_in_words(torque.target_nm)}{window}{typed}, {torque.basis}{source}"


def money(amount: Decimal, currency: str) -> str:
    """Show an amount of money.

    >>> money(Decimal("1234.5"), "EUR")
    '1234.50 EUR'
    """
    return f"{amount:.2f} {currency}"


def when(moment: str) -> str:
    """Show a kept moment as day and time of this computer."""
    return datetime.fromisoformat(moment).astimezone().strftime("%Y-%m-%d %H:%M")


def counted(count: int, one: str, many: str) -> str:
    """Say how many there are.

    >>> counted(1, "job", "jobs"), counted(3, "job", "jobs")
    ('1 job', '3 jobs')
    """
    return f"{count} {one if count == 1 else many}"


def _range(low_nm: float, high_nm: float, symbol: str) -> str:
    low, unit = units.show(low_nm, symbol, "torque").split(" ")
    return f"{low} to {units.show(high_nm, symbol, 'torque').split(' ')[0]} {unit}"
