"""Where the parts of a joint stand in its section."""

from dataclasses import dataclass

from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.threads import minor_diameter
from bellcrank.figures.cut_parts import HALF

DIAMETER = 62  # [px] the thread is drawn this wide where there is room
LONGEST_THREAD = 190  # [px] of engaged thread; the scale follows, down to the least
LEAST_DIAMETER = 30  # [px] a longer thread is drawn shortened
HEAD_HEIGHT = 0.65  # [-] over the thread's diameter, near that of hex heads
FLANGE_HEIGHT = 0.14  # [-] over the thread's diameter
HEX_WIDTH = 1.6  # [-] head over the thread's diameter, over a flange
CLAMPED, WALL = 54, 26  # [px] thickness drawn of the clamped part, and of what stands below the screw's end
FACE_INK, WASHER, GASKET = 12, 12, 10  # [px] thickness of a pressed face in ink, of a washer, of a gasket


@dataclass(frozen=True, slots=True)
class Section:
    """Where things stand, half widths from the axis and heights from the top. [px]"""

    joint: Joint
    governs: Part
    top: float

    @property
    def scale(self) -> float:
        """Pixels to the metre."""
        joint = self.joint
        wide = min(DIAMETER / joint.thread.diameter, 2 * (HALF - 8) / joint.turned_face.bearing_diameter)
        return max(min(wide, LONGEST_THREAD / self.thread_length), LEAST_DIAMETER / joint.thread.diameter)

    @property
    def thread_length(self) -> float:
        """Engaged thread; of a nut, its height. [m]"""
        return self.joint.full_thread if self.joint.into is not None else 0.8 * self.joint.thread.diameter

    @property
    def bolt(self) -> float:
        """Half the thread's diameter."""
        return self.scale * self.joint.thread.diameter / 2

    @property
    def core(self) -> float:
        """Half the diameter inside the thread."""
        return self.scale * minor_diameter(self.joint.thread) / 2

    @property
    def face(self) -> float:
        """Half the face of the head."""
        return min(self.scale * self.joint.turned_face.bearing_diameter / 2, HALF - 4)

    @property
    def hole(self) -> float:
        """Half the hole under the head."""
        return self.scale * self.joint.turned_face.hole_diameter / 2

    @property
    def seat(self) -> float:
        """Where the head ends."""
        return self.top + HEAD_HEIGHT * 2 * self.bolt

    @property
    def clamped_top(self) -> float:
        """Where the clamped part begins, under head or washer."""
        return self.seat + (WASHER if self.joint.washer is not None else 0)

    @property
    def clamped_foot(self) -> float:
        """Where the clamped part ends."""
        return self.clamped_top + CLAMPED

    @property
    def thread_top(self) -> float:
        """Where the thread takes hold."""
        return self.clamped_foot + (GASKET if self.joint.most_clamp is not None else 0)

    @property
    def thread_foot(self) -> float:
        """Where the screw ends."""
        return self.thread_top + min(self.scale * self.thread_length, LONGEST_THREAD)

    @property
    def foot(self) -> float:
        """Where the tapped part ends."""
        return self.thread_foot + WALL
