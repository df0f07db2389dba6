"""A torque for every fastener: published before the shop's own before computed, each with its basis."""

from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.errors import BellcrankError, KnowledgeFault
from bellcrank.fastening.strength import Material, StrengthClass
from bellcrank.fastening.threads import parse_thread
from bellcrank.fastening.window import Joint, TorqueWindow, recommend_torque
from bellcrank.knowledge.model import Fastener
from bellcrank.sources import Basis
from bellcrank.units import to_si

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
    window: TorqueWindow | None  # what was computed, when it was


@dataclass(frozen=True, slots=True)
class NoTorque:
    """Why a fastener has no torque, and what to do instead."""

    words: str


def torque_for(
    fastener: Fastener,
    materials: Mapping[str, Material],
    classes: Mapping[str, StrengthClass],
    known: KnownTorque | None = None,
) -> StepTorque | NoTorque:
    """Give the torque of a fastener, or say why there is none.

    A published number typed for this machine beats the pack's published one, that the shop's own, that a computed one.
    """
    if known is not None and (known.basis is Basis.PUBLISHED or fastener.published_torque_nm is None):
        return _as_known(known)
    if fastener.published_torque_nm is not None:
        value = to_si(fastener.published_torque_nm, "N·m", "torque")
        return _as_known(KnownTorque(value, "", Basis.PUBLISHED, fastener.source))
    if not fastener.thread or not fastener.strength:
        return NoTorque(fastener.thread_care or "Seat it by hand.")
    try:
        window = recommend_torque(joint_of(fastener, materials, classes))
    except BellcrankError as refusal:
        return NoTorque(refusal.sentence)
    return StepTorque(
        low=window.low,
        target=window.target,
        high=window.high,
        basis=window.basis,
        source=f"from {parse_thread(fastener.thread).name}, {classes[fastener.strength].words}",
        governs=window.governs,
        widen=SAFETY_NOTE if fastener.safety_joint else window.widen,
        typed="",
        window=window,
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


def _as_known(known: KnownTorque) -> StepTorque:
    return StepTorque(
        low=known.torque * (1 - WRENCH_SHARE),
        target=known.torque,
        high=known.torque * (1 + WRENCH_SHARE),
        basis=known.basis,
        source=known.source,
        governs="",
        widen="",
        typed=known.typed,
        window=None,
    )
