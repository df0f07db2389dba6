"""How much thread a hole needs so that the bolt breaks before it strips."""

from dataclasses import dataclass

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.strength import Material
from bellcrank.fastening.strip_factors import (
    LEAST_RATIO,
    MOST_RATIO,
    hole_bending_factor,
    strength_ratio,
)
from bellcrank.fastening.strip_rules import pull_out_bound
from bellcrank.fastening.stripping import BOLT_SHEAR_SHARE, external_strip_area, strip_area
from bellcrank.fastening.threads import Thread, stress_area
from bellcrank.measuring.refusals import refuse_unless_positive
from bellcrank.sources import Basis

METHODS = ("h28", "vdi", "rp1228")
UNUSABLE_PITCHES = 0.8  # at the end of the thread, VDI 2230 (from memory; up to two are seen)


@dataclass(frozen=True, slots=True)
class EngagementRule:
    """A handbook's rule of thumb for a class 8.8 bolt in a material."""

    key: str
    words: str
    share: float  # of the thread diameter, coarse [-]
    fine_share: float | None  # of the thread diameter, fine [-]
    basis: Basis
    source: str  # key in the list of sources


def required_engagement(thread: Thread, bolt_tensile: float, material: Material, method: str = "h28") -> float:
    """Length of full thread at which the bolt breaks just before the hole strips.

    Parameters
    ----------
    thread : Thread
        The thread by its nominal sizes. [-]
    bolt_tensile : float
        Tensile strength of the bolt. [Pa]
    material : Material
        What the hole is tapped in. [-]
    method : str
        "h28": full area; "vdi": teeth bend and 0.8 pitch is lost; "rp1228": the low bound for worn threads. [-]

    Returns
    -------
    float
        Length of engagement. [m]

    Raises
    ------
    OutOfRange
        When the strength is not above zero, or the material has none to compute with.
    NotUnderstood
        When the method is another.

    Notes
    -----
    h28: Rm As/(τ ASn/LE). vdi: Rm As/(C3 τ ASn/LE) + 0.8 P. rp1228: 3 Rm As/(π d2 τ). Nothing is knocked down for a
    casting: divide by the material's knock-down for a used part.

    References
    ----------
    FED-STD-H28/2B (1991), section 70; VDI 2230 (from memory for 0.8 P); NASA RP-1228.

    Examples
    --------
    >>> from bellcrank.fastening.threads import parse_thread
    >>> soft = Material("al", "aluminium", 260e6, 180e6, None, 0.7, Basis.TABLE, "roloff-matek")
    >>> round(required_engagement(parse_thread("M8"), 1040e6, soft, "h28") * 1000, 1)
    12.5
    """
    refuse_unless_positive("Tensile strength of the bolt", bolt_tensile, "MPa", "pressure")
    if method not in METHODS:
        raise NotUnderstood(f"“{method}” is no way to find the engagement; it must be one of {', '.join(METHODS)}.")
    if material.shear is None:
        raise OutOfRange(
            f"There is no thread strength to compute with for {material.words}; it must be a metal we know. "
            "Strip one screw in a scrap piece."
        )
    pull = bolt_tensile * stress_area(thread)
    if method == "rp1228":
        return pull / pull_out_bound(thread, 1.0, material.shear)
    per_length = material.shear * strip_area(thread, 1.0)
    if method == "h28":
        return pull / per_length
    return pull / (_bending(thread, bolt_tensile, material.shear) * per_length) + UNUSABLE_PITCHES * thread.pitch


def _bending(thread: Thread, bolt_tensile: float, shear: float) -> float:
    limits = thread_limits(thread)
    bolt_area = external_strip_area(
        1.0, thread.pitch, hole_minor_max=limits.hole_minor_max, bolt_pitch_min=limits.bolt_pitch_min
    )
    ratio = strength_ratio(
        hole_shear=shear,
        hole_area=strip_area(thread, 1.0),
        bolt_shear=BOLT_SHEAR_SHARE * bolt_tensile,
        bolt_area=bolt_area,
    )
    if ratio > MOST_RATIO:
        raise OutOfRange(
            f"The hole is {ratio:.1f} times as strong as the bolt; it must be at most {MOST_RATIO:g} times for this "
            "way. The bolt's own thread strips first: take a nut's height."
        )
    return min(1.0, hole_bending_factor(ratio)) if ratio >= LEAST_RATIO else 1.0
