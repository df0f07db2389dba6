"""A torque for every fastener: published before the shop's own before computed, each with its basis."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.errors import BellcrankError, KnowledgeFault
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.spec_check import check_against
from bellcrank.fastening.strength import Material, StrengthClass
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.widening import wider
from bellcrank.fastening.window import TorqueWindow, recommend_torque
from bellcrank.knowledge.assembly import Fastener
from bellcrank.sources import Basis
from bellcrank.units import Reading, read, show, to_si, unit_named

WRENCH_SHARE = 0.10  # [-] how far a set torque may be off and still be that torque: common practice, no source
SAFETY_NOTE = "Computed for a safety joint: use the maker's number when you have it, and check it again."


@dataclass(frozen=True, slots=True)
class KnownTorque:
    """A torque somebody typed for this machine's fastener."""

    torque: float  # [N·m]
    typed: str
    basis: Basis  # published or own shop
    source: str


@dataclass(frozen=True, slots=True)
class StepTorque:
    """The torque of a fastener; torques in N·m."""

    low: float
    target: float
    high: float
    basis: Basis
    source: str
    governs: str
    widen: str
    typed: str
    window: TorqueWindow | None  # what was computed, when it could be
    doubt: str  # what to ask of a known torque that does not sit with the joint, "" when it does


@dataclass(frozen=True, slots=True)
class NoTorque:
    """Why a fastener has no torque, and what to do instead."""

    words: str


def torque_for(
    fastener: Fastener,
    materials: Mapping[str, Material],
    classes: Mapping[str, StrengthClass],
    known: KnownTorque | None = None,
    unit: str = "N·m",
) -> StepTorque | NoTorque:
    """Give the torque of a fastener, or say why there is none; what would widen it is said in ``unit``.

    A published number typed for this machine beats the pack's published one, that the shop's own, that a computed one.
    A known number is held against the joint where the joint can be computed; it wins all the same, with its doubt.
    """
    best = _best_known(fastener, known)
    window = _computed(fastener, materials, classes)
    if best is not None:
        return _as_known(best, None if isinstance(window, NoTorque) else window)
    if isinstance(window, NoTorque):
        return window
    return StepTorque(
        low=window.low,
        target=window.target,
        high=window.high,
        basis=window.basis,
        source=f"from {parse_thread(fastener.thread).name}, {classes[fastener.strength].words}",
        governs=window.governs,
        widen=SAFETY_NOTE
        if fastener.safety_joint
        else wider(joint_of(fastener, materials, classes), window.limits, unit).words,
        typed="",
        window=window,
        doubt="",
    )


def joint_of(fastener: Fastener, materials: Mapping[str, Material], classes: Mapping[str, StrengthClass]) -> Joint:
    """Give the joint a fastener makes."""
    if not (fastener.into or fastener.under_head):
        raise KnowledgeFault(f"The assembly does not say what the {fastener.words} screw into. Add it to its file.")
    return Joint(
        thread=parse_thread(fastener.thread),
        strength=classes[fastener.strength],
        into=materials[fastener.into] if fastener.into else None,
        under_head=materials[fastener.under_head or fastener.into],
        head=fastener.head,
        engaged=to_si(fastener.engaged_mm, "mm", "length") if fastener.engaged_mm is not None else None,
    )


def _best_known(fastener: Fastener, known: KnownTorque | None) -> KnownTorque | None:
    if known is not None and (known.basis is Basis.PUBLISHED or fastener.published_torque_nm is None):
        return known
    if fastener.published_torque_nm is not None:
        value = to_si(fastener.published_torque_nm, "N·m", "torque")
        return KnownTorque(value, "", Basis.PUBLISHED, fastener.source)
    return None


def _computed(
    fastener: Fastener, materials: Mapping[str, Material], classes: Mapping[str, StrengthClass]
) -> TorqueWindow | NoTorque:
    if not fastener.thread or not fastener.strength:
        return NoTorque(fastener.thread_care or "Seat it by hand.")
    try:
        return recommend_torque(joint_of(fastener, materials, classes))
    except BellcrankError as refusal:
        return NoTorque(refusal.sentence)


def _as_known(known: KnownTorque, window: TorqueWindow | None) -> StepTorque:
    return StepTorque(
        low=known.torque * (1 - WRENCH_SHARE),
        target=known.torque,
        high=known.torque * (1 + WRENCH_SHARE),
        basis=known.basis,
        source=known.source,
        governs="",
        widen="",
        typed=known.typed,
        window=window,
        doubt=check_against(_reading(known), window).doubt if window is not None else "",
    )


def _reading(known: KnownTorque) -> Reading:
    """Give a known torque as it was typed; one out of a pack is in N·m."""
    if known.typed:
        return read(known.typed, "torque")
    return Reading(known.torque, show(known.torque, "N·m", "torque"), unit_named("N·m", "torque"))
