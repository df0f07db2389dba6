"""Catching a slip of the unit: ft·lb and in·lb lie twelve-fold apart, and a bolt does not forgive that."""

from bellcrank.errors import OutOfRange
from bellcrank.knowledge.assembly import Fastener
from bellcrank.knowledge.model import Library
from bellcrank.shop.storage.things import KeptTorque
from bellcrank.sources import Basis
from bellcrank.teardown.torques import KnownTorque, NoTorque, StepTorque, torque_for
from bellcrank.units import Reading, show

FAR_OFF = 2.5  # [-] times outside its window at which a torque is taken for a slip of the unit: guess


def expected_torque(fastener: Fastener, library: Library, kept: KeptTorque | None) -> StepTorque | NoTorque:
    """Give what a fastener takes, by what is known of it on this machine or by what it computes to."""
    known = KnownTorque(kept.torque_nm, kept.typed, Basis(kept.basis), kept.source) if kept else None
    return torque_for(fastener, library.materials, library.strength_classes, known)


def refuse_a_slip(fastener: Fastener, reading: Reading, library: Library, kept: KeptTorque | None = None) -> None:
    """Refuse a torque far outside what a fastener takes, by what is known of it or by what it computes to."""
    expected = expected_torque(fastener, library, kept)
    if isinstance(expected, NoTorque) or expected.low / FAR_OFF <= reading.si <= expected.high * FAR_OFF:
        return
    in_newton_metres = show(reading.si, "N·m", "torque")
    that_is = "" if reading.unit.symbol == "N·m" else f", that is {in_newton_metres}"
    raise OutOfRange(
        f"Torque of the {fastener.words} is {reading.typed}{that_is}; it takes about "
        f"{show(expected.low, 'N·m', 'torque', 0)} to {show(expected.high, 'N·m', 'torque', 0)} ({expected.basis}). "
        "Were ft·lb, in·lb and N·m mixed up? Read the number and its unit again.",
        "torque",
    )
