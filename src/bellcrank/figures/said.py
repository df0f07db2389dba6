"""How a figure says its numbers where they are drawn: short, a number and its unit kept on one line."""

from bellcrank.both_systems import show_force, show_torque
from bellcrank.units import show

NO_BREAK = "\N{NO-BREAK SPACE}"
SURE = 0.005  # [-] a share nearer to none or all is not said in whole hundredths


def torque_said(torque: float, unit: str = "N·m") -> str:
    """Say a torque in one unit."""
    return kept(show_torque(torque, unit))


def torques_said(low: float, high: float, unit: str = "N·m") -> str:
    """Say a range of torques in one unit, or one torque where both are said alike."""
    least, most = torque_said(low, unit), torque_said(high, unit)
    return most if least == most else f"{least.split(NO_BREAK)[0]} to {most}"


def force_said(force: float) -> str:
    """Say a force."""
    return kept(show_force(force))


def length_said(length: float, digits: int = 1) -> str:
    """Say a length in millimetres."""
    return kept(show(length, "mm", "length", digits))


def share_said(share: float) -> str:
    """Say a share in whole hundredths; nearly none is not said to be none, nor nearly all to be all."""
    if 0 < share < SURE:
        return kept("under 1 %")
    return kept("over 99 %" if 1 - SURE < share < 1 else f"{100 * share:.0f} %")


def capital(words: str) -> str:
    """Begin with a capital letter, and leave the others as they are."""
    return words[:1].upper() + words[1:]


def kept(words: str) -> str:
    """Keep words on one line."""
    return words.replace(" ", NO_BREAK)
