"""Twisting off: the torque at which a screw breaks, and how near to it one may tighten."""

import math
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.threads import Thread, ThreadSystem
from bellcrank.measuring.refusals import refuse_outside, refuse_unless_positive
from bellcrank.sources import Basis
from bellcrank.units import show

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LEAST_DIAMETER, MOST_DIAMETER = 0.001, 0.010  # [m] ISO 898-7 covers M1 to M10
# [-] of the breaking torque a screw that cuts or forms its own thread may be tightened to; distributor's handbook
TIGHTENING_SHARES = {"thread-forming": 0.8, "sheet-metal": 0.5}


@dataclass(frozen=True, slots=True)
class TwistShare:
    """Shear strength in twist over tensile strength, by strength class."""

    strength: str  # key of the strength class
    share: float  # [-]
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class FormingScrew:
    """A screw that forms its own thread in metal (DIN 7500)."""

    thread: Thread
    breaking_torque: float  # [N·m]
    tensile_load: float | None  # [N]
    hole: float | None  # in steel of 4 mm [m]
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class SheetScrew:
    """A sheet-metal screw and the pilot holes it takes, thin to thick sheet."""

    size: str  # "ST4.2"
    least_hole: float  # [m]
    most_hole: float  # [m]
    basis: Basis
    source: str  # key in the list of sources


def twist_off_torque(thread: Thread, tensile_strength: Quantity, *, shear_share: float) -> Quantity:
    """Least torque that breaks a screw by twisting alone.

    Parameters
    ----------
    thread : Thread
        A metric thread up to M10. [-]
    tensile_strength : float or array, shape (n,)
        Least tensile strength of the screw. [Pa]
    shear_share : float
        Shear strength in twist over tensile strength: 0.84 for class 8.8. [-]

    Returns
    -------
    float or array, shape (n,)
        Least breaking torque, free of friction. [N·m]

    Raises
    ------
    OutOfRange
        When the thread is not metric M1 to M10, the strength not above zero or the share outside 0.5 to 1.

    Notes
    -----
    M_B = τ_B π/16 d3,min³, τ_B = X Rm, d3,min = d2,min − (H − P/4), with the 6g limit of d2.

    References
    ----------
    ISO 898-7:1992, definition of the breaking torque; the shares X are from memory.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(twist_off_torque(parse_thread("M6"), 800e6, shear_share=0.84), 0)
    13.0
    """
    refuse_unless_positive("Tensile strength of the screw", tensile_strength, "MPa", "pressure")
    refuse_outside("Share of shear in tensile strength", shear_share, 0.5, 1.0, "Class 8.8 has 0.84, 12.9 has 0.75.")
    if thread.system is not ThreadSystem.METRIC or not LEAST_DIAMETER <= thread.diameter <= MOST_DIAMETER:
        raise OutOfRange(
            f"{thread.name} is {show(thread.diameter, 'mm', 'length')} in the {thread.system} system; breaking torques "
            "are only set for metric threads up to M10. Twist a spare one off and write down the torque."
        )
    height = math.sqrt(3) / 2 * thread.pitch
    root = thread_limits(thread).bolt_pitch_min - (height - thread.pitch / 4)
    return math.pi / 16 * root**3 * shear_share * tensile_strength


def torque_cap(breaking_torque: Quantity, kind: str) -> Quantity:
    """Most torque for a screw that makes its own thread.

    Parameters
    ----------
    breaking_torque : float or array, shape (n,)
        Torque that twists the screw off. [N·m]
    kind : str
        "thread-forming" in metal, or "sheet-metal". [-]

    Returns
    -------
    float or array, shape (n,)
        Most torque to tighten it with. [N·m]

    Raises
    ------
    OutOfRange
        When the breaking torque is not above zero.
    NotUnderstood
        When the kind is another.

    References
    ----------
    A fastener distributor's handbook, DIN 7500 p. 697 (at most 80 %) and sheet metal p. 703 (at most 50 %).

    Examples
    --------
    >>> torque_cap(15.0, "thread-forming")
    12.0
    """
    refuse_unless_positive("Breaking torque", breaking_torque, "N·m", "torque")
    if kind not in TIGHTENING_SHARES:
        raise NotUnderstood(f"“{kind}” is no screw we have a rule for; it must be {' or '.join(TIGHTENING_SHARES)}.")
    return TIGHTENING_SHARES[kind] * breaking_torque
