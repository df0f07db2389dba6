"""Where the parts of a joint stand in its section, and how a cut part is drawn."""

import math
from dataclasses import dataclass

from bellcrank.fastening.clamp_limits import Part
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.threads import minor_diameter
from bellcrank.figures.theme import stroke

MIDDLE, HALF = 116, 104  # [px] where the axis stands, and how far parts reach to either side of it
DIAMETER = 62  # [px] the thread is drawn this wide where there is room
LONGEST_THREAD = 190  # [px] of engaged thread; the scale follows, down to the least
LEAST_DIAMETER = 30  # [px] a longer thread is drawn shortened
HEAD_HEIGHT = 0.65  # [-] over the thread's diameter, near that of hex heads
FLANGE_HEIGHT = 0.14  # [-] over the thread's diameter
HEX_WIDTH = 1.6  # [-] head over the thread's diameter, over a flange
CLAMPED, WALL = 54, 26  # [px] thickness drawn of the clamped part, and of what stands below the screw's end
FACE_INK, WASHER, GASKET = 12, 12, 10  # [px] thickness of a pressed face in ink, of a washer, of a gasket
HATCH = 11  # [px] from line to line of a cut part


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


def cut(inside: float, outside: float, top: float, foot: float, *, leans: int) -> str:
    """Draw a cut part on both sides of the axis, outlined and hatched."""
    return both(inside, outside, top, foot) + "".join(
        stroke("drawn-cut", _hatching(left, right, top, foot, leans), 1)
        for left, right in ((MIDDLE - outside, MIDDLE - inside), (MIDDLE + inside, MIDDLE + outside))
    )


def _hatching(left: float, right: float, top: float, foot: float, leans: int) -> str:
    """Give lines at 45° that end at the edges of a rectangle."""
    wide, high = right - left, foot - top
    path = ""
    for number in range(1, math.ceil((wide + high) / HATCH)):
        along = number * HATCH
        x1, y1 = min(along, wide), max(0.0, along - wide)
        x2, y2 = max(0.0, along - high), min(along, high)
        if leans < 0:
            x1, x2 = wide - x1, wide - x2
        path += f"M{left + x1:.1f} {top + y1:.1f}L{left + x2:.1f} {top + y2:.1f}"
    return path


def both(inside: float, outside: float, top: float, foot: float) -> str:
    """Draw an outline on both sides of the axis."""
    return "".join(stroke("drawn-line", path) for path in ring(inside, outside, top, foot))


def inked_ring(inside: float, outside: float, top: float, foot: float) -> str:
    """Draw a ring in full ink."""
    return "".join(ink(path) for path in ring(inside, outside, top, foot))


def ring(inside: float, outside: float, top: float, foot: float) -> tuple[str, str]:
    """Give a ring cut along its axis: a rectangle on either side."""
    return (
        box(MIDDLE - outside, MIDDLE - inside, top, foot),
        box(MIDDLE + inside, MIDDLE + outside, top, foot),
    )


def box(left: float, right: float, top: float, foot: float) -> str:
    """Give the path of a rectangle."""
    return f"M{left:.1f} {top:.1f}H{right:.1f}V{foot:.1f}H{left:.1f}Z"


def ink(path: str) -> str:
    """Fill a shape in full ink."""
    return f'<path class="drawn-governs" d="{path}" fill="currentColor" stroke="currentColor" stroke-width="2"/>'
