"""A computed torque as it is answered, every figure named with its unit."""

from dataclasses import dataclass

from bellcrank.fastening.galvanised import galvanised_words
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.spec_check import check_against
from bellcrank.fastening.threads import stress_area
from bellcrank.fastening.tightening import preload_for_torque
from bellcrank.fastening.to_yield import torque_to_yield
from bellcrank.fastening.widening import wider
from bellcrank.fastening.window import recommend_torque
from bellcrank.units import Reading, convert

SCREW_ALONE = "The screw alone is judged: what it is screwed into, the face under its head or a gasket may bear less."


@dataclass(frozen=True, slots=True)
class LimitAnswer:
    """One thing that may give way first."""

    words: str
    preload_n: float  # the most it allows
    torque_nm: float


@dataclass(frozen=True, slots=True)
class TorqueAnswer:
    """A torque for a joint, with what it rests on."""

    thread: str
    torque_nm: float  # to set the wrench to
    torque_low_nm: float
    torque_high_nm: float
    preload_n: float  # clamp at that torque, without scatter
    preload_low_n: float  # the least inside the window, scatter counted
    preload_high_n: float  # the most
    governs: str
    widen: str
    stress_area_mm2: float
    basis: str
    assumptions: tuple[str, ...]
    limits: tuple[LimitAnswer, ...]  # the governing one first
    doubt: str  # the question asked of a published number that does not sit with the joint


@dataclass(frozen=True, slots=True)
class YieldAnswer:
    """A torque to a share of the screw's yield, whatever it is screwed into."""

    thread: str
    share: float
    torque_nm: float
    preload_n: float  # the most, at the friction given
    preload_low_n: float  # the least, by the scatter of the way of tightening
    stress_area_mm2: float
    assumptions: tuple[str, ...]


def yield_answer(joint: Joint, share: float) -> YieldAnswer:
    """Compute the torque to a share of yield."""
    found = torque_to_yield(joint, share)
    return YieldAnswer(
        thread=joint.thread.name,
        share=found.share,
        torque_nm=found.torque,
        preload_n=found.preload,
        preload_low_n=found.preload_low,
        stress_area_mm2=convert(found.stress_area, "mm²", "area"),
        assumptions=(SCREW_ALONE, *galvanised_words(joint)),
    )


def torque_answer(
    joint: Joint, told: tuple[str, ...] = (), published: Reading | None = None, unit: str = "N·m"
) -> TorqueAnswer:
    """Compute the torque window of a joint and the clamp it gives; a published number is held against it.

    ``unit`` is the one the words say torques in first.
    """
    window = recommend_torque(joint)
    face = joint.turned_face
    preload = preload_for_torque(
        window.target,
        joint.thread,
        thread_friction=joint.friction,
        head_friction=joint.under_head_friction,
        bearing_diameter=face.bearing_diameter,
        hole_diameter=face.hole_diameter,
        prevailing_torque=joint.prevailing_torque,
    )
    return TorqueAnswer(
        thread=joint.thread.name,
        torque_nm=window.target,
        torque_low_nm=window.low,
        torque_high_nm=window.high,
        preload_n=float(preload),
        preload_low_n=window.preload_low,
        preload_high_n=window.preload_high,
        governs=window.governs,
        widen=wider(joint, window.limits, unit).words,
        stress_area_mm2=convert(stress_area(joint.thread), "mm²", "area"),
        basis=window.basis,
        assumptions=(*told, *window.assumptions),
        limits=tuple(LimitAnswer(one.words, one.preload, one.torque) for one in window.limits),
        doubt=check_against(published, window).doubt if published else "",
    )
