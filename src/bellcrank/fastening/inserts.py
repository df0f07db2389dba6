"""Thread inserts: what a repaired hole holds."""

import math
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.fastening.threads import Thread
from bellcrank.measuring.refusals import refuse_unless_positive
from bellcrank.sources import Basis

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

LOST_PITCHES = 1.125  # the insert's tang and first coil carry nothing; a project note on a NASA course (secondary)


@dataclass(frozen=True, slots=True)
class KeyedInsert:
    """A keyed insert and the pull it holds in 6061-T6."""

    thread: Thread
    pull_out: float  # [N]
    basis: Basis
    source: str  # key in the list of sources


def wire_insert_area(thread: Thread, insert_length: Quantity) -> Quantity:
    """Area of parent metal that shears when a wire thread insert pulls out.

    Parameters
    ----------
    thread : Thread
        The thread of the screw in the insert. [-]
    insert_length : float or array, shape (n,)
        Length of the fitted insert. [m]

    Returns
    -------
    float or array, shape (n,)
        Shear area in the tapped part; its shear strength counts, not the insert's. [m²]

    Raises
    ------
    OutOfRange
        When the insert is no longer than 1.125 pitches.

    Notes
    -----
    ¾ π D2 (LE − 1.125 P), D2 = d + 0.6495 P, the basic pitch diameter of the insert's own tap.

    References
    ----------
    Project note on a NASA course on bolted joints (secondary): 1.6 to 10 % below 135 makers' points; pitch diameter of
    the insert's tap from memory.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(wire_insert_area(parse_thread("M6"), 0.009) * 1e6, 0)
    123.0
    """
    refuse_unless_positive("Length of the insert", insert_length, "mm", "length")
    usable = insert_length - LOST_PITCHES * thread.pitch
    refuse_unless_positive("Insert left after tang and first coil", usable, "mm", "length")
    middle = thread.diameter + 0.75 * math.sqrt(3) / 2 * thread.pitch
    return 0.75 * math.pi * middle * usable
