"""A screwed joint: the screw, what it goes into, what lies under its head, and how it is tightened."""

import math
from dataclasses import dataclass

from bellcrank.errors import OutOfRange
from bellcrank.fastening.heads import Face, face_under
from bellcrank.fastening.strength import Material, StrengthClass
from bellcrank.fastening.threads import Thread
from bellcrank.fastening.tightening import LEAST_FRICTION, MOST_FRICTION
from bellcrank.fastening.ways import USUAL_WAY, refuse_wrong_scatter, way_named
from bellcrank.measuring.refusals import refuse_if_negative, refuse_outside, refuse_unless_positive
from bellcrank.units import show

USUAL_FRICTION = 0.14  # [-] as received, lightly oiled: VDI 2230 classes B and C overlap there
SPREAD_IN_WASHER = 1.6  # [-] growth of the pressed ring over the thickness of a washer, VDI 2230:2003 (FROM MEMORY)


@dataclass(frozen=True, slots=True)
class Washer:
    """A plain ring under the head. Sizes in [m]."""

    outside: float
    hole: float
    thickness: float
    material: Material


@dataclass(frozen=True, slots=True)
class Joint:
    """A screw, what it goes into, what lies under its head, and how it is tightened."""

    thread: Thread
    strength: StrengthClass
    into: Material | None  # None: a nut of matching class
    under_head: Material
    head: str = "hex"
    engaged: float | None = None  # full thread engagement; None: assumed [m]
    friction: float = USUAL_FRICTION  # in the thread, and under the head unless that is given [-]
    tightened_by: str = USUAL_WAY
    head_friction: float | None = None  # None: as in the thread [-]
    scatter: float | None = None  # of the clamp, as measured of this hand or tool; None: by the way it is tightened [-]
    face: Face | None = None  # measured face under the head; None: by kind of head and thread
    washer: Washer | None = None  # between the head and what lies under it
    neck: float | None = None  # thinnest diameter between head and thread, of a shoulder screw [m]
    most_clamp: float | None = None  # most a gasket or cover under it bears from one screw [N]
    prevailing_torque: float = 0.0  # what a locking nut needs before it clamps at all [N·m]
    galvanised: bool = False  # hot-dip; the thread is then the one :func:`~.galvanised.hot_dip` gives

    @property
    def full_thread(self) -> float:
        """Thread engagement counted with: as measured, else one diameter. [m]"""
        return self.engaged if self.engaged is not None else self.thread.diameter

    @property
    def under_head_friction(self) -> float:
        """Friction under the head, as in the thread unless it was given. [-]"""
        return self.friction if self.head_friction is None else self.head_friction

    @property
    def spread(self) -> float:
        """Scatter of the clamp either side of its mean. [-]"""
        return way_named(self.tightened_by).scatter if self.scatter is None else self.scatter

    @property
    def turned_face(self) -> Face:
        """The ring the head turns on: as measured, else by kind of head; over the washer's hole if that is larger."""
        face = self.face if self.face is not None else face_under(self.head, self.thread)
        if self.washer is None:
            return face
        return Face(face.bearing_diameter, max(face.hole_diameter, self.washer.hole), face.assumed)

    @property
    def pressed_area(self) -> float:
        """Area of the part that head or washer presses on: dw, or dw + 1.6 h up to the washer's edge. [m²]"""
        face = self.turned_face
        if self.washer is None:
            return face.area
        outside = min(self.washer.outside, face.bearing_diameter + SPREAD_IN_WASHER * self.washer.thickness)
        return math.pi / 4 * (outside**2 - face.hole_diameter**2)


def refuse_wrong_joint(joint: Joint) -> None:
    """Refuse a joint that cannot be, before anything is computed from it."""
    way_named(joint.tightened_by)
    refuse_wrong_scatter(joint.spread)
    advice = "Oiled steel is near 0.12, dry zinc near 0.25."
    refuse_outside("Friction", joint.friction, LEAST_FRICTION, MOST_FRICTION, advice)
    refuse_outside("Friction under the head", joint.under_head_friction, LEAST_FRICTION, MOST_FRICTION, advice)
    refuse_if_negative("Prevailing torque", joint.prevailing_torque, "N·m", "torque")
    if joint.most_clamp is not None:
        refuse_unless_positive("The most clamp of the gasket", joint.most_clamp, "N", "force")
    _refuse_wrong_face(joint)
    _refuse_wrong_washer(joint)
    _refuse_wrong_neck(joint)


def _refuse_wrong_face(joint: Joint) -> None:
    face = joint.turned_face
    refuse_unless_positive("Diameter of the hole under the head", face.hole_diameter, "mm", "length")
    if face.hole_diameter < joint.thread.diameter:
        raise OutOfRange(
            f"Hole under the head is {show(face.hole_diameter, 'mm', 'length')}; it must be at least "
            f"{show(joint.thread.diameter, 'mm', 'length')}, or {joint.thread.name} does not pass. Measure the hole."
        )
    width = face.bearing_diameter - face.hole_diameter
    refuse_unless_positive("Width of the face around the hole", width, "mm", "length")


def _refuse_wrong_washer(joint: Joint) -> None:
    if joint.washer is None:
        return
    refuse_unless_positive("Thickness of the washer", joint.washer.thickness, "mm", "length")
    width = joint.washer.outside - joint.turned_face.hole_diameter
    refuse_unless_positive("Width of the washer around its hole", width, "mm", "length")


def _refuse_wrong_neck(joint: Joint) -> None:
    if joint.neck is None:
        return
    refuse_unless_positive("Neck of the screw", joint.neck, "mm", "length")
    if joint.neck > joint.thread.diameter:
        raise OutOfRange(
            f"Neck of the screw is {show(joint.neck, 'mm', 'length')}; it must be no more than the "
            f"{show(joint.thread.diameter, 'mm', 'length')} of its thread. Measure the groove, not the shoulder."
        )
