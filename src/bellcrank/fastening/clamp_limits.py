"""How much clamp each part of a joint allows, and the torque that reaches it; one joint or many through one formula."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Generic, TypeVar

import numpy as np
from numpy.typing import NDArray

from bellcrank.errors import OutOfRange
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.strength import Material, StrengthRange, strength_at
from bellcrank.fastening.stripping import bolt_strip_force, strip_force
from bellcrank.fastening.threads import Thread, stress_area
from bellcrank.fastening.tightening import preload_at_yield, torque_for_preload

Quantity = TypeVar("Quantity", float, NDArray[np.float64])

PROOF_SHARE = 0.75  # [-] of the proof load, the clamp the SAE charts use
YIELD_SHARE = 0.9  # [-] of the yield strength with pull and twist together, VDI 2230
STRIP_MARGIN = 1.5  # [-] against the low strip force; covers a second use of the thread


class Part(StrEnum):
    """What of a joint may give way."""

    BOLT = "bolt"
    NECK = "neck of the screw"
    FACE = "face under the head"
    WASHER = "washer under the head"
    HOLE = "thread in the hole"
    OWN_THREAD = "thread of the screw"
    GASKET = "gasket or cover"


@dataclass(frozen=True, slots=True)
class JointNumbers(Generic[Quantity]):
    """What varies from joint to joint: plain numbers for one, arrays of shape (n,) for many."""

    thread_friction: Quantity  # [-]
    head_friction: Quantity  # [-]
    engaged: Quantity  # [m]
    scatter: Quantity  # [-]
    bolt_share: Quantity  # of the strengths the class promises [-]
    hole_share: Quantity  # of the shear strength counted on in the tapped part [-]
    thread_share: Quantity  # of the strength counted on in the screw's own thread [-]
    face_share: Quantity  # of the pressure limit under the head [-]


@dataclass(frozen=True, slots=True)
class Allowed(Generic[Quantity]):
    """What one part allows."""

    preload: Quantity  # the most it bears, margins counted [N]
    torque: Quantity  # at which a scattered preload just reaches it [N·m]


def limits_of(joint: Joint, numbers: JointNumbers[Quantity]) -> dict[Part, Allowed[Quantity]]:
    """Give the most clamp of every part of a joint, with the torque for it.

    The bolt bears 0.75 of its proof load, or 0.9 of its yield with the twist counted, if that is less; threads their
    low strip force / 1.5; what lies under head and washer its pressure limit times the ring pressed.

    References
    ----------
    MIL-HDBK-60 (Table I, Appendix B); FED-STD-H28/2B, Table II.B.1; VDI 2230:2003, limit pressures under the head.
    """
    preloads = {
        **_bolt_preloads(joint, numbers),
        **_face_preloads(joint, numbers),
        **_thread_preloads(joint, numbers),
    }
    if joint.most_clamp is not None:
        preloads[Part.GASKET] = joint.most_clamp + 0 * numbers.scatter
    return {part: Allowed(preload, _torque(joint, numbers, preload)) for part, preload in preloads.items()}


def _bolt_preloads(joint: Joint, numbers: JointNumbers[Quantity]) -> Mapping[Part, Quantity]:
    strengths = strength_at(joint.strength, joint.thread.diameter)
    area = stress_area(joint.thread)
    turned = preload_at_yield(
        joint.thread, strengths.yield_, thread_friction=numbers.thread_friction, utilisation=YIELD_SHARE
    )
    bolt = _lesser(PROOF_SHARE * strengths.proof * area, turned)
    if joint.neck is None:
        return {Part.BOLT: numbers.bolt_share * bolt}
    neck = _neck_preload(joint.neck, joint.thread, strengths, turned)
    return {Part.BOLT: numbers.bolt_share * bolt, Part.NECK: numbers.bolt_share * neck}


def _neck_preload(neck: float, thread: Thread, strengths: StrengthRange, turned: Quantity) -> Quantity:
    """Give what the neck bears: less area to pull, and the twist of the thread on a thinner rod.

    What the twist costs in the thread is read back from the preload at its yield; plastic twist resists as the cube
    of the diameter, pull as its square, so their squared ratio grows as the thread's area over the neck's.
    """
    area = math.pi / 4 * neck**2
    twist = (YIELD_SHARE * strengths.yield_ * stress_area(thread) / turned) ** 2 - 1
    at_yield: Quantity = YIELD_SHARE * strengths.yield_ * area / (1 + twist * stress_area(thread) / area) ** 0.5
    return _lesser(PROOF_SHARE * strengths.proof * area, at_yield)


def _face_preloads(joint: Joint, numbers: JointNumbers[Quantity]) -> Mapping[Part, Quantity]:
    face = numbers.face_share * (_head_pressure(joint.under_head) * joint.pressed_area)
    if joint.washer is None:
        return {Part.FACE: face}
    washer = numbers.face_share * (_head_pressure(joint.washer.material) * joint.turned_face.area)
    return {Part.FACE: face, Part.WASHER: washer}


def _thread_preloads(joint: Joint, numbers: JointNumbers[Quantity]) -> Mapping[Part, Quantity]:
    if joint.into is None:
        return {}
    tensile = strength_at(joint.strength, joint.thread.diameter).tensile
    hole = strip_force(joint.thread, numbers.engaged, joint.into)
    screw = bolt_strip_force(joint.thread, numbers.engaged, tensile, joint.into.knock_down)
    return {
        Part.HOLE: numbers.hole_share * hole.low / STRIP_MARGIN,
        Part.OWN_THREAD: numbers.thread_share * screw.low / STRIP_MARGIN,
    }


def _head_pressure(under_head: Material) -> float:
    if under_head.bearing is None:
        raise OutOfRange(
            f"No pressure limit is on record for {under_head.words} under a head, so no torque is computed. Put a "
            "steel washer under the head and choose steel, or tighten until it is seated and no further."
        )
    return under_head.bearing


def _torque(joint: Joint, numbers: JointNumbers[Quantity], most: Quantity) -> Quantity:
    face = joint.turned_face
    return torque_for_preload(
        most / (1 + numbers.scatter),
        joint.thread,
        thread_friction=numbers.thread_friction,
        head_friction=numbers.head_friction,
        bearing_diameter=face.bearing_diameter,
        hole_diameter=face.hole_diameter,
        prevailing_torque=joint.prevailing_torque,
    )


def _lesser(fixed: float, other: Quantity) -> Quantity:
    return np.minimum(fixed, other) if isinstance(other, np.ndarray) else min(fixed, other)
