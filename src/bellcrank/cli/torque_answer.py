"""A computed torque as it is answered, every figure named with its unit."""

from dataclasses import dataclass

from bellcrank.fastening.joint import Joint
from bellcrank.fastening.threads import stress_area
from bellcrank.fastening.tightening import preload_for_torque
from bellcrank.fastening.window import recommend_torque
from bellcrank.units import convert


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


def torque_answer(joint: Joint) -> TorqueAnswer:
    """Compute the torque window of a joint and the clamp it gives."""
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
        widen=window.widen,
        stress_area_mm2=convert(stress_area(joint.thread), "mm²", "area"),
        basis=window.basis,
        assumptions=window.assumptions,
        limits=tuple(LimitAnswer(one.words, one.preload, one.torque) for one in window.limits),
    )
