"""How a figure says its numbers: short where it is drawn, in both systems where it is read out."""

from bellcrank.units import convert, show

NO_BREAK = "\N{NO-BREAK SPACE}"  # keeps a number and its unit on one line
WHOLE_FROM, WHOLE_KILO_FROM = 20.0, 100.0  # [-] torques and kilonewtons are said without a decimal from here on
SMALL_TORQUE = 20.0  # [N·m] below it small bolts, which the trade gives in in·lb; above, ft·lb
KILO = 1000.0  # [N] from here on a force is said in kN


def torque_said(torque: float, unit: str = "N·m") -> str:
    """Say a torque in one unit.

    >>> torque_said(81.3).replace(NO_BREAK, " ")
    '81 N·m'
    """
    return _kept(show(torque, unit, "torque", 0 if convert(torque, unit, "torque") >= WHOLE_FROM else 1))


def torques_said(low: float, high: float, unit: str = "N·m") -> str:
    """Say a range of torques in one unit, or one torque where both are said alike."""
    least, most = torque_said(low, unit), torque_said(high, unit)
    return most if least == most else f"{least.split(NO_BREAK)[0]} to {most}"


def both_torques_said(torque: float, unit: str = "N·m") -> str:
    """Say a torque in both systems."""
    small = "in·lb" if torque < SMALL_TORQUE else "ft·lb"
    return f"{torque_said(torque, unit)} ({torque_said(torque, small if unit == 'N·m' else 'N·m')})"


def force_said(force: float) -> str:
    """Say a force.

    >>> force_said(9024.0).replace(NO_BREAK, " "), force_said(640.0).replace(NO_BREAK, " ")
    ('9.0 kN', '640 N')
    """
    if force < KILO:
        return _kept(show(force, "N", "force"))
    return _kept(show(force, "kN", "force", 0 if force >= WHOLE_KILO_FROM * KILO else 1))


def both_forces_said(force: float) -> str:
    """Say a force in both systems."""
    return f"{force_said(force)} ({_kept(show(force, 'lbf', 'force'))})"


def length_said(length: float, digits: int = 1) -> str:
    """Say a length in millimetres."""
    return _kept(show(length, "mm", "length", digits))


def capital(words: str) -> str:
    """Begin with a capital letter, and leave the others as they are."""
    return words[:1].upper() + words[1:]


def _kept(words: str) -> str:
    return words.replace(" ", NO_BREAK)
