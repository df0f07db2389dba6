"""How the numbers of a sheet are said: the same words on the page, in the terminal and on paper."""

from datetime import datetime
from decimal import Decimal

from bellcrank.quote.currency import places_of
from bellcrank.shop.sheet import TorqueLine
from bellcrank.units import INCH_UNITS, bench_digits, convert, show, show_torque, torque_digits

SMALL_TORQUE = 20.0  # [N·m] below it small bolts, which the trade gives in in·lb; above, ft·lb
KILO = 1000.0  # [N] from here on a force is said in kN
SURE = 0.995  # [-] above it (and below its counterpart) a probability is not said in whole percents


def percent(probability: float) -> str:
    """Say a probability; never 0 % or 100 %, because nothing is certain.

    >>> percent(0.914), percent(0.001), percent(0.999)
    ('91 %', 'under 1 %', 'over 99 %')
    """
    if probability < 1 - SURE:
        return "under 1 %"
    return "over 99 %" if probability > SURE else f"{100 * probability:.0f} %"


def minutes(value: float) -> str:
    """Say a time of work.

    >>> minutes(0.4), minutes(9.2), minutes(95)
    ('under 1 min', '9 min', '1 h 35 min')
    """
    whole = round(value)
    if whole < 1:
        return "under 1 min" if value > 0 else "no time"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def second_unit(newton_metres: float, unit: str = "N·m") -> str:
    """Give the other system's unit for a torque: in·lb for small bolts, ft·lb above, N·m beside either."""
    if unit != "N·m":
        return "N·m"
    return "in·lb" if newton_metres < SMALL_TORQUE else "ft·lb"


def both_torques(newton_metres: float, unit: str = "N·m") -> str:
    """Say a torque in both systems.

    >>> both_torques(9.04), both_torques(81.3, "ft·lb")
    ('9.0 N·m (80 in·lb)', '60 ft·lb (81 N·m)')
    """
    return f"{show_torque(newton_metres, unit)} ({show_torque(newton_metres, second_unit(newton_metres, unit))})"


def both_forces(newtons: float, unit: str = "N·m") -> str:
    """Say a force in both systems, first in the one of the unit torques are said in.

    >>> both_forces(9024), both_forces(640)
    ('9.0 kN (2029 lbf)', '640 N (144 lbf)')
    >>> both_forces(9024, "in·lb"), both_forces(640, "kgf·m")
    ('2029 lbf (9.0 kN)', '65 kgf (640 N)')
    """
    metric = show(newtons, "kN" if abs(newtons) >= KILO else "N", "force")
    if unit == "N·m":
        return f"{metric} ({show(newtons, 'lbf', 'force')})"
    first = "lbf" if unit in INCH_UNITS else "kgf"
    return f"{show(newtons, first, 'force', bench_digits(abs(convert(newtons, first, 'force'))))} ({metric})"


def both_lengths(metres: float, unit: str = "N·m", digits: int = 2) -> str:
    """Say a length in both systems, first in the one of the unit torques are said in; ``digits`` are those of the mm.

    >>> both_lengths(0.0047625), both_lengths(0.0079375, "ft·lb", 1), both_lengths(0.0079375, "kgf·m", 1)
    ('4.76 mm (0.1875 in)', '0.312 in (7.9 mm)', '7.9 mm (0.312 in)')
    """
    metric, inches = show(metres, "mm", "length", digits), show(metres, "in", "length", digits + 2)
    return f"{inches} ({metric})" if unit in INCH_UNITS else f"{metric} ({inches})"


def torque_window(low: float, high: float, unit: str = "N·m") -> str:
    """Say a window of torques [N·m] as one range.

    >>> torque_window(8.0, 10.0), torque_window(80.0, 107.0)
    ('8.0 to 10.0 N·m', '80 to 107 N·m')
    """
    first, last = convert(low, unit, "torque"), convert(high, unit, "torque")
    digits = torque_digits(high, unit)
    return f"{first:.{digits}f} to {last:.{digits}f} {unit}"


def both_windows(low: float, high: float, unit: str = "N·m") -> str:
    """Say a window of torques [N·m] in both systems.

    >>> both_windows(8.0, 10.0)
    '8.0 to 10.0 N·m (71 to 89 in·lb)'
    """
    return f"{torque_window(low, high, unit)} ({torque_window(low, high, second_unit(high, unit))})"


def torque_line(line: TorqueLine, unit: str = "N·m") -> str:
    """Say a torque with window, basis and source in one line, always in this order; ``unit`` is the shop's."""
    typed = f", typed “{line.typed}”" if line.typed else ""
    source = f": {line.source}" if line.source not in ("", line.basis) else ""
    window = both_windows(line.low_nm, line.high_nm, unit)
    return f"{both_torques(line.target_nm, unit)}, window {window}{typed}, {line.basis}{source}"


def money(amount: Decimal, currency: str) -> str:
    """Say an amount of money.

    >>> money(Decimal("1234.5"), "EUR"), money(Decimal("1234"), "JPY")
    ('1234.50 EUR', '1234 JPY')
    """
    return f"{coins(amount, currency)} {currency}"


def coins(amount: Decimal, currency: str) -> str:
    """Say an amount without its currency, with the digits the currency has."""
    return f"{amount:.{places_of(currency)}f}"


def money_range(low: Decimal, high: Decimal, currency: str) -> str:
    """Say a range of money, one amount when it is none.

    >>> money_range(Decimal("40"), Decimal("65.5"), "EUR"), money_range(Decimal("40"), Decimal("40"), "EUR")
    ('40.00 to 65.50 EUR', '40.00 EUR')
    """
    return money(high, currency) if low == high else f"{coins(low, currency)} to {money(high, currency)}"


def when(moment: str) -> str:
    """Say a kept moment as day and time of this computer."""
    return datetime.fromisoformat(moment).astimezone().strftime("%d %b %H:%M")


def day(moment: str) -> str:
    """Say the day of a kept moment."""
    return datetime.fromisoformat(moment).astimezone().strftime("%d %B %Y").lstrip("0")


def counted(number: int, one: str, many: str) -> str:
    """Say how many there are.

    >>> counted(1, "job", "jobs"), counted(3, "job", "jobs")
    ('1 job', '3 jobs')
    """
    return f"{number} {one if number == 1 else many}"
