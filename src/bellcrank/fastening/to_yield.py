"""Tightening to a share of the bolt's yield, as engineers' tables do: the bolt alone, whatever it is screwed into."""

from dataclasses import dataclass

from bellcrank.fastening.joint import Joint, refuse_wrong_joint
from bellcrank.fastening.strength import strength_at
from bellcrank.fastening.threads import stress_area
from bellcrank.fastening.tightening import preload_at_yield, torque_for_preload
from bellcrank.fastening.ways import tightening_factor

USUAL_SHARE = 0.9  # [-] of the yield strength, VDI 2230


@dataclass(frozen=True, slots=True)
class YieldTorque:
    """A torque to a share of yield, with the clamp it gives."""

    share: float  # of the yield strength, pull and twist together [-]
    preload: float  # the most clamp, at the friction given [N]
    preload_low: float  # the least, by the scatter of the way of tightening [N]
    torque: float  # [N·m]
    stress_area: float  # [m²]


def torque_to_yield(joint: Joint, share: float = USUAL_SHARE) -> YieldTorque:
    """Give preload and torque at which the bolt uses a share of its yield strength while it is turned.

    The face, the thread it goes into and a gasket are not judged: :func:`recommend_torque` does that.

    References
    ----------
    VDI 2230:2001, assembly preload F_M,zul, tightening torque M_A and least preload F_M,zul/αA.
    """
    refuse_wrong_joint(joint)
    yield_strength = strength_at(joint.strength, joint.thread.diameter).yield_
    preload = preload_at_yield(joint.thread, yield_strength, thread_friction=joint.friction, utilisation=share)
    face = joint.turned_face
    torque = torque_for_preload(
        preload,
        joint.thread,
        thread_friction=joint.friction,
        head_friction=joint.under_head_friction,
        bearing_diameter=face.bearing_diameter,
        hole_diameter=face.hole_diameter,
        prevailing_torque=joint.prevailing_torque,
    )
    area = stress_area(joint.thread)
    return YieldTorque(share, preload, preload / tightening_factor(joint.spread), torque, area)
