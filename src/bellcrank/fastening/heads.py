"""The face under a head and the hole it sits over, by kind of head and thread."""

from dataclasses import dataclass

import numpy as np

from bellcrank.errors import NotUnderstood
from bellcrank.fastening.threads import Thread, ThreadSystem

# ISO 4014 washer faces and ISO 273 medium holes, from memory, consistent with the VDI 2230 fine-thread table.
METRIC_SIZES = (4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0)  # [mm]
METRIC_FACES = (5.88, 6.88, 8.88, 11.63, 14.63, 16.63, 19.64, 22.49)  # [mm]
METRIC_HOLES = (4.5, 5.5, 6.6, 9.0, 11.0, 13.5, 15.5, 17.5)  # [mm]
UNIFIED_FACE = 1.5  # [-] face over thread diameter, MIL-HDBK-60 Appendix B
UNIFIED_HOLE = 1.08  # [-] hole over thread diameter, common practice, no source
FLANGE_FACE = 1.95  # [-] ISO 4162, 11.7 mm on M6, from memory
PAN_FACE = 1.7  # [-] ISO 7045, the flat under a pan head, from memory
HEADS = ("hex", "nut", "flange", "pan")


@dataclass(frozen=True, slots=True)
class Face:
    """The ring that presses: outside diameter and hole. [m]"""

    bearing_diameter: float
    hole_diameter: float

    @property
    def area(self) -> float:
        """Area of the ring. [m²]"""
        return float(np.pi / 4 * (self.bearing_diameter**2 - self.hole_diameter**2))


def face_under(head: str, thread: Thread) -> Face:
    """Give the face under a head of that kind.

    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(face_under("hex", parse_thread("M6")).bearing_diameter * 1000, 2)
    8.88
    """
    if head not in HEADS:
        raise NotUnderstood(f"“{head}” is not a kind of head we know. It must be one of {', '.join(HEADS)}.")
    hole = _hole(thread)
    if head == "flange":
        return Face(FLANGE_FACE * thread.diameter, hole)
    if head == "pan":
        return Face(PAN_FACE * thread.diameter, hole)
    return Face(_hex_face(thread), hole)


def _hex_face(thread: Thread) -> float:
    size = thread.diameter * 1000
    if thread.system == ThreadSystem.METRIC and METRIC_SIZES[0] <= size <= METRIC_SIZES[-1]:
        return float(np.interp(size, METRIC_SIZES, METRIC_FACES)) / 1000
    return UNIFIED_FACE * thread.diameter


def _hole(thread: Thread) -> float:
    size = thread.diameter * 1000
    if thread.system == ThreadSystem.METRIC and METRIC_SIZES[0] <= size <= METRIC_SIZES[-1]:
        return float(np.interp(size, METRIC_SIZES, METRIC_HOLES)) / 1000
    return UNIFIED_HOLE * thread.diameter
