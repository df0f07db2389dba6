"""Checking a published torque against the joint it is for: it fits, or it asks what was meant.

A published value wins over anything computed here; this only says when it does not sit with the joint, and which other
unit the same number would sit with.
"""

from dataclasses import dataclass
from enum import StrEnum

from bellcrank.both_systems import both_windows, show_torque, torque_beside, torque_window
from bellcrank.fastening.clamp_limits import PROOF_SHARE, STRIP_MARGIN, Part
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.widening import Limit
from bellcrank.fastening.window import TorqueWindow, recommend_torque
from bellcrank.units import Reading, Unit, convert, to_si

SETTLING = (
    1.5  # [-] clamp over the pressure limit at which a face or gasket settles badly; guess: it creeps, not breaks
)
# [-] what each part bears over what the window lets it: the margins of the window taken off again
BEARS_OVER = {
    Part.BOLT: 1 / PROOF_SHARE,  # the proof load itself: beyond it the bolt stays longer
    Part.NECK: 1 / PROOF_SHARE,
    Part.HOLE: STRIP_MARGIN,  # the low strip force itself
    Part.OWN_THREAD: STRIP_MARGIN,
    Part.FACE: SETTLING,
    Part.WASHER: SETTLING,
    Part.GASKET: SETTLING,
}
# [-] of the window's lower end below which a joint is far from clamped: guess. Tables for one and the same screw differ
# by 1.4 and a soft cover takes half; the wrong unit (in·lb for ft·lb, N·m for kgf·m) is ten-fold off.
FAR_BELOW = 0.4
# Units that get mixed up, the likeliest first: one wrench has both scales, or one page gives both columns
MIXED_UP = {
    "ft·lb": ("in·lb", "N·m"),
    "in·lb": ("ft·lb", "N·m"),
    "N·m": ("ft·lb", "in·lb", "kgf·m", "kgf·cm"),
    "kgf·m": ("N·m", "kgf·cm"),
    "kgf·cm": ("kgf·m", "N·m"),
}


class Fit(StrEnum):
    """How a published torque sits with the joint."""

    FITS = "fits"
    ABOVE = "above what the joint bears"
    BELOW = "far below what the joint needs"


@dataclass(frozen=True, slots=True)
class Meant:
    """The same number in another unit."""

    typed: str
    torque: float  # [N·m]


@dataclass(frozen=True, slots=True)
class SpecCheck:
    """A published torque held against a joint; torques in N·m."""

    fit: Fit
    torque: float
    least: float  # below it the joint is far from clamped
    bears: float  # the most the joint takes, its margins used up
    weakest: str  # what gives way there
    meant: Meant | None  # another reading that would fit
    doubt: str  # the question to ask, "" when it fits


def check_spec(spec: Reading, joint: Joint) -> SpecCheck:
    """Hold a published torque against what its joint bears and needs, and ask when another unit would fit.

    >>> from bellcrank.fastening.strength import Material, StrengthClass, StrengthRange
    >>> from bellcrank.fastening.threads import parse_thread
    >>> from bellcrank.sources import Basis
    >>> from bellcrank.units import read
    >>> steel = StrengthRange(0.0016, 0.016, 800e6, 640e6, 580e6, Basis.TABLE, "iso-898-1")
    >>> cast = Material("cast", "die-cast aluminium", 324e6, 190e6, 290e6, 0.7, Basis.TABLE, "nadca")
    >>> joint = Joint(parse_thread("M6"), StrengthClass("8.8", "class 8.8", (steel,)), cast, cast, "hex", 0.012, 0.12)
    >>> check_spec(read("80 ft·lb", "torque"), joint).meant.typed
    '80 in·lb'
    """
    return check_against(spec, recommend_torque(joint), joint.prevailing_torque)


def check_against(spec: Reading, window: TorqueWindow, prevailing_torque: float = 0.0) -> SpecCheck:
    """Hold a published torque against a window that was computed already."""
    weakest = min(window.limits, key=lambda limit: _bears(limit, window, prevailing_torque))
    bears = _bears(weakest, window, prevailing_torque)
    least = FAR_BELOW * window.low
    if least <= spec.si <= bears:
        return SpecCheck(Fit.FITS, spec.si, least, bears, weakest.words, None, "")
    meant = _meant(spec, least, bears)
    if spec.si > bears:
        what = f"more than the {torque_beside(bears, spec.unit.symbol)} {weakest.words} bears"
        return SpecCheck(Fit.ABOVE, spec.si, least, bears, weakest.words, meant, _question(spec, what, meant))
    what = f"far below the {_window_in(window, spec.unit)} such a joint is clamped with"
    return SpecCheck(Fit.BELOW, spec.si, least, bears, weakest.words, meant, _question(spec, what, meant))


def _bears(limit: Limit, window: TorqueWindow, prevailing_torque: float) -> float:
    """Give the torque whose mean clamp uses up a part's margins; the window keeps the scatter clear of them as well."""
    clamping = (limit.torque - prevailing_torque) * (1 + window.scatter)
    return prevailing_torque + BEARS_OVER[limit.part] * clamping


def _meant(spec: Reading, least: float, bears: float) -> Meant | None:
    number = convert(spec.si, spec.unit.symbol, "torque")
    for symbol in MIXED_UP[spec.unit.symbol]:
        torque = to_si(number, symbol, "torque")
        if least <= torque <= bears:
            return Meant(f"{number:g} {symbol}", torque)
    return None


def _question(spec: Reading, what: str, meant: Meant | None) -> str:
    told = f"{spec.typed} is {_with_newton_metres(spec.si, spec.unit)}{what}."
    if meant is None:
        return f"{told} Read the number, its unit and the fastener it stands for again."
    in_newton_metres = "" if meant.typed.endswith(" N·m") else f" ({show_torque(meant.torque)})"
    return f"{told} Was {meant.typed}{in_newton_metres} meant?"


def _window_in(window: TorqueWindow, unit: Unit) -> str:
    """Say the window in the unit the published torque was typed in, the SI beside it."""
    said = torque_window if unit.symbol == "N·m" else both_windows
    return said(window.low, window.high, unit.symbol)


def _with_newton_metres(torque: float, unit: Unit) -> str:
    return "" if unit.symbol == "N·m" else f"{show_torque(torque)}, "
