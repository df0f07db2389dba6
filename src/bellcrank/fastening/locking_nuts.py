"""Nuts that lock by their own drag: how much they may have, and when a used one is scrap."""

from collections.abc import Iterable
from dataclasses import dataclass

from bellcrank.errors import OutOfRange
from bellcrank.fastening.threads import Thread
from bellcrank.measuring.refusals import refuse_if_negative
from bellcrank.sources import Basis


@dataclass(frozen=True, slots=True)
class LockingNut:
    """Drag of a prevailing-torque nut by its standard. Torques in [N·m]."""

    thread: Thread
    first_on_most: float
    first_off_least: float
    fifth_off_least: float
    basis: Basis
    source: str  # key in the list of sources


@dataclass(frozen=True, slots=True)
class NutVerdict:
    """Whether a nut may be used again, and what to say of it."""

    reusable: bool
    words: str


def locking_nut(thread: Thread, table: Iterable[LockingNut]) -> LockingNut:
    """Give the table's row for a thread, or refuse with the threads it has."""
    rows = tuple(table)
    for row in rows:
        if row.thread == thread:
            return row
    known = ", ".join(row.thread.name for row in rows)
    raise OutOfRange(f"No drag is on record for a locking nut of {thread.name}; it must be {known}. Fit a new nut.")


def reuse_ok(nut: LockingNut, off_torque: float) -> NutVerdict:
    """Judge a used nut by the drag [N·m] felt while unscrewing it, unclamped.

    References
    ----------
    ISO 2320: a nut that drags less than the fifth removal must leave is scrap.
    """
    refuse_if_negative("Drag of the nut", off_torque, "N·m", "torque")
    if off_torque < nut.fifth_off_least:
        return NutVerdict(False, f"It drags less than the {nut.fifth_off_least:g} N·m a used one must have: new nut.")
    if off_torque > nut.first_on_most:
        return NutVerdict(
            False, f"It drags more than the {nut.first_on_most:g} N·m a new one may have: thread hurt, new nut."
        )
    return NutVerdict(True, "It still locks; use it again.")
