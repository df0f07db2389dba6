"""How far a thread may be from its basic size: 6g/6H for metric, 2A/2B for Unified threads.

The formulae work in the unit the standard is written in (mm or in) because their powers of the pitch are not
dimensionless; the doors convert.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

from bellcrank.fastening.threads import Thread, ThreadSystem, minor_diameter, pitch_diameter
from bellcrank.units import convert, to_si

# [mm] steps of nominal diameter in ISO 965-1, lower bound exclusive, upper inclusive; a step stands for its
# geometric mean
DIAMETER_STEPS_MM = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0)


@dataclass(frozen=True, slots=True)
class ThreadLimits:
    """Largest and smallest sizes of bolt and tapped hole. All in [m]."""

    bolt_major_max: float
    bolt_major_min: float
    bolt_pitch_max: float
    bolt_pitch_min: float
    hole_pitch_min: float
    hole_pitch_max: float
    hole_minor_min: float
    hole_minor_max: float


@dataclass(frozen=True, slots=True)
class _Tolerances:
    allowance: float
    bolt_major: float
    bolt_pitch: float
    hole_pitch: float
    hole_minor: float


def thread_limits(thread: Thread) -> ThreadLimits:
    """Give the 6g/6H or 2A/2B limits of a thread; a screw cut undersize is smaller by that instead of by 6g.

    Metric limits come from the formulae before the standard rounds them to preferred steps: they land within
    15 µm of the printed rows. Unified limits are for UNC and UNF, engagement one diameter.

    References
    ----------
    ISO 965-1 tolerance formulae; ASME B1.1 tolerance formulae (FROM MEMORY; both checked against printed rows
    of ASME B1.1-2019 and B1.13M in tests/published).
    """
    if thread.system is ThreadSystem.METRIC:
        return _limits(thread, _metric_tolerances(thread), "mm")
    return _limits(thread, _unified_tolerances(thread), "in")


def _limits(thread: Thread, tolerances: _Tolerances, unit: str) -> ThreadLimits:
    allowance, bolt_major, bolt_pitch, hole_pitch, hole_minor = (
        to_si(number, unit, "length")
        for number in (
            tolerances.allowance,
            tolerances.bolt_major,
            tolerances.bolt_pitch,
            tolerances.hole_pitch,
            tolerances.hole_minor,
        )
    )
    allowance = max(allowance, thread.undersize)
    middle, inside = pitch_diameter(thread), minor_diameter(thread)
    return ThreadLimits(
        bolt_major_max=thread.diameter - allowance,
        bolt_major_min=thread.diameter - allowance - bolt_major,
        bolt_pitch_max=middle - allowance,
        bolt_pitch_min=middle - allowance - bolt_pitch,
        hole_pitch_min=middle,
        hole_pitch_max=middle + hole_pitch,
        hole_minor_min=inside,
        hole_minor_max=inside + hole_minor,
    )


def _metric_tolerances(thread: Thread) -> _Tolerances:
    pitch = convert(thread.pitch, "mm", "length")
    diameter = _step_mean(convert(thread.diameter, "mm", "length"))
    bolt_pitch = 90 * pitch**0.4 * diameter**0.1
    hole_minor = 230 * pitch**0.7 if pitch >= 1 else 433 * pitch - 190 * pitch**1.22
    micrometres = (
        15 + 11 * pitch,
        180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch),
        bolt_pitch,
        1.32 * bolt_pitch,
        hole_minor,
    )
    return _Tolerances(*(number / 1000 for number in micrometres))


def _step_mean(diameter_mm: float) -> float:
    for low, high in pairwise(DIAMETER_STEPS_MM):
        if low < diameter_mm <= high:
            return math.sqrt(low * high)
    return diameter_mm


def _unified_tolerances(thread: Thread) -> _Tolerances:
    pitch = convert(thread.pitch, "in", "length")
    diameter = convert(thread.diameter, "in", "length")
    engagement = diameter
    bolt_pitch = 0.0015 * diameter ** (1 / 3) + 0.0015 * math.sqrt(engagement) + 0.015 * pitch ** (2 / 3)
    return _Tolerances(
        allowance=0.3 * bolt_pitch,
        bolt_major=0.060 * pitch ** (2 / 3),
        bolt_pitch=bolt_pitch,
        hole_pitch=1.30 * bolt_pitch,
        hole_minor=_unified_hole_minor(pitch, diameter),
    )


def _unified_hole_minor(pitch: float, diameter: float) -> float:
    plain = 0.25 * pitch - 0.40 * pitch**2
    if diameter >= 0.25:
        return plain
    small = 0.05 * math.pow(pitch, 2 / 3) + 0.03 * pitch / diameter - 0.002
    return min(max(small, plain), 0.394 * pitch)
