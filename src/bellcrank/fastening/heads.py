"""The face under a head and the hole it sits over, by kind of head and size of thread."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from bellcrank.errors import NotUnderstood
from bellcrank.fastening.threads import Thread, ThreadSystem
from bellcrank.units import convert, to_si

HEADS = ("hex", "nut", "flange", "pan")

# [mm] least washer face of ISO 4014 screws and ISO 4032 nuts, from memory; consistent with the VDI 2230 fine threads
METRIC_HEX: dict[float, float] = {
    3: 4.57,
    4: 5.88,
    5: 6.88,
    6: 8.88,
    8: 11.63,
    10: 14.63,
    12: 16.63,
    14: 19.64,
    16: 22.49,
    20: 28.19,
    24: 33.61,
}
# [mm] least bearing diameter of ISO 4162 and ISO 15071 flange screws, read in an open table of fastener sizes
METRIC_FLANGE: dict[float, float] = {5: 9.4, 6: 11.6, 8: 14.9, 10: 18.7, 12: 22.5, 14: 26.4, 16: 30.6}
# [mm] head diameter of ISO 1580 and ISO 14583 pan heads, read in an open table of fastener sizes
METRIC_PAN: dict[float, float] = {3: 5.6, 3.5: 7.0, 4: 8.0, 5: 9.5, 6: 12.0, 8: 16.0, 10: 20.0}
# [mm] medium clearance holes of ISO 273, from memory
METRIC_HOLE: dict[float, float] = {
    3: 3.4,
    3.5: 3.9,
    4: 4.5,
    5: 5.5,
    6: 6.6,
    7: 7.6,
    8: 9.0,
    10: 11.0,
    12: 13.5,
    14: 15.5,
    16: 17.5,
    18: 20.0,
    20: 22.0,
    22: 24.0,
    24: 26.0,
}
# [in] width across flats of ASME B18.2.1 hex screws, read in an open table of fastener sizes
INCH_FLATS: dict[float, float] = {
    0.25: 0.4375,
    0.3125: 0.5,
    0.375: 0.5625,
    0.4375: 0.625,
    0.5: 0.75,
    0.5625: 0.8125,
    0.625: 0.9375,
    0.75: 1.125,
    0.875: 1.3125,
    1.0: 1.5,
}
# [in] flange diameter of ASME B18.2.1 hex flange screws, read in an open table of fastener sizes
INCH_FLANGE: dict[float, float] = {
    0.25: 0.5625,
    0.3125: 0.6875,
    0.375: 0.8125,
    0.4375: 0.9375,
    0.5: 1.078,
    0.625: 1.328,
    0.75: 1.594,
}
# [in] head diameter of ASME B18.6.3 pan heads, read in an open table of fastener sizes
INCH_PAN: dict[float, float] = {
    0.112: 0.219,
    0.125: 0.245,
    0.138: 0.270,
    0.164: 0.322,
    0.19: 0.373,
    0.216: 0.425,
    0.25: 0.492,
    0.3125: 0.615,
    0.375: 0.740,
}
# [in] normal clearance holes of ASME B18.2.8, read in an open table of fastener sizes
INCH_HOLE: dict[float, float] = {
    0.112: 0.1285,
    0.125: 0.15625,
    0.138: 0.1695,
    0.164: 0.196,
    0.19: 0.221,
    0.216: 0.228,
    0.25: 0.28125,
    0.3125: 0.34375,
    0.375: 0.40625,
    0.4375: 0.46875,
    0.5: 0.5625,
    0.5625: 0.59375,
    0.625: 0.6875,
    0.75: 0.8125,
    0.875: 0.90625,
    1.0: 1.09375,
}
WASHER_FACE = 0.95  # [-] face over width across flats, ASME B18.2.1
FLANGE_FLAT = 0.85  # [-] flat over outside diameter of a flange; the least ratio in ISO 4162
PAN_FLAT = 0.9  # [-] flat over outside diameter of a pan head; guess
# [-] over the thread diameter, for sizes that are in no table: a little under the least in the tables; guess
FACE_BY_RULE = {"hex": 1.38, "nut": 1.38, "flange": 1.8, "pan": 1.6}
HOLE_BY_RULE = 1.1  # [-] over the thread diameter; guess


@dataclass(frozen=True, slots=True)
class Face:
    """The ring that presses: outside diameter and hole. [m]"""

    bearing_diameter: float
    hole_diameter: float
    assumed: str = ""  # a sentence when a size is in no table

    @property
    def area(self) -> float:
        """Area of the ring. [m²]"""
        return math.pi / 4 * (self.bearing_diameter**2 - self.hole_diameter**2)


def face_under(head: str, thread: Thread) -> Face:
    """Give the face under a head of that kind.

    >>> from bellcrank.fastening.threads import parse_thread
    >>> round(face_under("hex", parse_thread("M6")).bearing_diameter * 1000, 2)
    8.88
    """
    if head not in HEADS:
        raise NotUnderstood(f"“{head}” is not a kind of head we know. It must be one of {', '.join(HEADS)}.")
    outside = _outside(head, thread)
    hole = _tabled(METRIC_HOLE, INCH_HOLE, thread)
    if outside is not None and hole is not None:
        return Face(outside, hole)
    return Face(
        FACE_BY_RULE[head] * thread.diameter if outside is None else outside,
        HOLE_BY_RULE * thread.diameter if hole is None else hole,
        f"The face under the {head} of {thread.name} is in no table here; it is taken from the thread's diameter. "
        "Measure it.",
    )


def _outside(head: str, thread: Thread) -> float | None:
    metric = thread.system is ThreadSystem.METRIC
    if head == "flange":
        size, share = _tabled(METRIC_FLANGE, INCH_FLANGE, thread), 1.0 if metric else FLANGE_FLAT
    elif head == "pan":
        size, share = _tabled(METRIC_PAN, INCH_PAN, thread), PAN_FLAT
    else:
        size, share = _tabled(METRIC_HEX, INCH_FLATS, thread), 1.0 if metric else WASHER_FACE
    return None if size is None else share * size


def _tabled(metric: Mapping[float, float], inch: Mapping[float, float], thread: Thread) -> float | None:
    table, unit = (metric, "mm") if thread.system is ThreadSystem.METRIC else (inch, "in")
    size = table.get(round(convert(thread.diameter, unit, "length"), 5))
    return None if size is None else to_si(size, unit, "length")
