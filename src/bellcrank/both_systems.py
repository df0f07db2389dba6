"""How torques, forces and lengths are said on the bench: as finely as a tool holds them, one system beside the other.

Figures, shop, pages and terminal all say them by these.
"""

from bellcrank.units import convert, show

INCH_UNITS = ("ft·lb", "in·lb")  # who says torques in them says forces in lbf and lengths in inches
WHOLE_FROM = 20.0  # [-] numbers on a torque wrench from here on are said without a decimal
SMALL_TORQUE = 20.0  # [N·m] below it small bolts, which the trade gives in in·lb; above, ft·lb
KILO = 1000.0  # [N] from here on a force is said in kN


def show_torque(newton_metres: float, symbol: str = "N·m") -> str:
    """Show a torque; the digits follow what a wrench can hold.

    >>> show_torque(9.04), show_torque(81.3), show_torque(9.04, "in·lb"), show_torque(0.066), show_torque(9.04, "kgf·m")
    ('9.0 N·m', '81 N·m', '80 in·lb', '0.07 N·m', '0.92 kgf·m')
    """
    return show(newton_metres, symbol, "torque", torque_digits(newton_metres, symbol))


def torque_digits(newton_metres: float, symbol: str = "N·m") -> int:
    """Give the decimals of a torque that a wrench can hold; a kgf·m is ten N·m, so it is said with one more."""
    value = newton_metres if symbol == "kgf·m" else convert(newton_metres, symbol, "torque")
    return bench_digits(value) + 1 if symbol == "kgf·m" else bench_digits(value)


def bench_digits(value: float) -> int:
    """Give the decimals of a number that a hand tool can hold."""
    return 0 if value >= WHOLE_FROM else 1 if value >= 1 else 2


def torque_beside(newton_metres: float, symbol: str) -> str:
    """Show a torque in a shop unit, with N·m beside any other.

    >>> torque_beside(9.04, "in·lb"), torque_beside(9.04, "N·m")
    ('80 in·lb (9.0 N·m)', '9.0 N·m')
    """
    metric = show_torque(newton_metres)
    return metric if symbol == "N·m" else f"{show_torque(newton_metres, symbol)} ({metric})"


def show_force(newtons: float) -> str:
    """Show a force.

    >>> show_force(9024.0), show_force(640.0)
    ('9.0 kN', '640 N')
    """
    return show(newtons, "kN" if abs(newtons) >= KILO else "N", "force")


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
    metric = show_force(newtons)
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
