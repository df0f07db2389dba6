"""The whole answer about stripping: both areas, both pulls, what gives way, and how a worn hole changes it."""

from dataclasses import dataclass

from bellcrank.errors import OutOfRange
from bellcrank.fastening.limits import ThreadLimits, thread_limits
from bellcrank.fastening.strength import Material
from bellcrank.fastening.strip_factors import (
    LEAST_RATIO,
    MOST_RATIO,
    bolt_bending_factor,
    hole_bending_factor,
    spreading_factor,
    strength_ratio,
)
from bellcrank.fastening.strip_rules import pull_out_bound
from bellcrank.fastening.stripping import (
    BOLT_SHEAR_SHARE,
    LOST_PITCHES,
    StripForce,
    external_strip_area,
    internal_strip_area,
    strip_force,
)
from bellcrank.fastening.threads import Thread
from bellcrank.measuring.refusals import refuse_unless_positive
from bellcrank.units import show


@dataclass(frozen=True, slots=True)
class WornHole:
    """What was measured of a worn, drilled-out or cored hole; None is not measured, the loosest limit counts."""

    minor_diameter: float | None = None  # a pin gauge that just goes in [m]
    pitch_diameter: float | None = None  # [m]


@dataclass(frozen=True, slots=True)
class StripAnswer:
    """What strips, and at which pull."""

    internal_area: float  # of the hole's thread [m²]
    external_area: float  # of the bolt's thread [m²]
    hole: StripForce[float]  # the hole's thread alone [N]
    bolt: StripForce[float] | None  # the bolt's thread alone, when its strength is known [N]
    strip_force: float  # what a new, full thread would hold: the weaker of the two [N]
    strip_force_low: float  # what to count on [N]
    worn_bound: float  # NASA's bound for threads that no longer match [N]
    gives_way: str  # "hole" or "bolt"
    strength_ratio: float | None  # hole over bolt, when the bolt's strength is known [-]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Pair:
    """Areas of hole and bolt thread. [m²]"""

    hole: float
    bolt: float


def pull_out(
    thread: Thread,
    engagement: float,
    material: Material,
    *,
    bolt_tensile: float | None = None,
    boss_width: float | None = None,
    worn: WornHole | None = None,
) -> StripAnswer:
    """Give areas and pulls at which a screw strips out of a material.

    Bending of the teeth (C2, C3) is counted when the bolt's strength is known, spreading of the boss (C1) when its
    width is; the low pull loses one pitch, counts the material's knock-down, and loses what an oversize hole leaves
    uncovered (derived: in step with the height of thread left).

    References
    ----------
    FED-STD-H28/2B (1991), Table II.B.1, formulae (2a) and (4a); ISO/TR 16224:2012 and VDI 2230 for C1 to C3; NASA
    RP-1228 for the bound.
    """
    limits = thread_limits(thread)
    worn = worn or WornHole()
    sound = strip_force(thread, engagement, material)  # refuses what has no strength, and too few threads
    areas = _areas(thread, engagement, limits, worn)
    usable = (engagement - LOST_PITCHES * thread.pitch) / engagement
    shear = sound.nominal / _areas(thread, engagement, limits, WornHole()).hole
    ratio = None if bolt_tensile is None else _ratio(shear, areas, bolt_tensile)
    spread = 1.0 if boss_width is None else spreading_factor(boss_width, thread.diameter)
    hole_bend, bolt_bend = (1.0, 1.0) if ratio is None else (_hole_bend(ratio), _bolt_bend(ratio))
    whole = spread * hole_bend * shear * areas.hole
    hole = StripForce(low=whole * material.knock_down * usable * _covered(limits, worn), nominal=whole)
    bolt = None
    if bolt_tensile is not None:
        whole = spread * bolt_bend * BOLT_SHEAR_SHARE * bolt_tensile * areas.bolt
        bolt = StripForce(low=whole * material.knock_down * usable, nominal=whole)
    bound = pull_out_bound(thread, engagement, shear)
    return _answer(areas, hole, bolt, bound, ratio, _notes(thread, ratio, bolt_tensile, boss_width, worn))


def _areas(thread: Thread, engagement: float, limits: ThreadLimits, worn: WornHole) -> _Pair:
    minor = limits.hole_minor_max if worn.minor_diameter is None else worn.minor_diameter
    middle = limits.hole_pitch_max if worn.pitch_diameter is None else worn.pitch_diameter
    refuse_unless_positive("Measured hole", minor, "mm", "length")
    if minor >= limits.bolt_major_min:
        raise OutOfRange(
            f"The hole is {show(minor, 'mm', 'length')}; it must be below {show(limits.bolt_major_min, 'mm', 'length')}"
            f", where {thread.name} no longer catches. Fit an insert or the next size."
        )
    return _Pair(
        hole=internal_strip_area(engagement, thread.pitch, bolt_major_min=limits.bolt_major_min, hole_pitch_max=middle),
        bolt=external_strip_area(engagement, thread.pitch, hole_minor_max=minor, bolt_pitch_min=limits.bolt_pitch_min),
    )


def _covered(limits: ThreadLimits, worn: WornHole) -> float:
    """Give the height of thread an oversize hole leaves, over that of the largest hole allowed."""
    if worn.minor_diameter is None or worn.minor_diameter <= limits.hole_minor_max:
        return 1.0
    return (limits.bolt_major_min - worn.minor_diameter) / (limits.bolt_major_min - limits.hole_minor_max)


def _ratio(shear: float, areas: _Pair, bolt_tensile: float) -> float:
    refuse_unless_positive("Tensile strength of the bolt", bolt_tensile, "MPa", "pressure")
    return strength_ratio(
        hole_shear=shear, hole_area=areas.hole, bolt_shear=BOLT_SHEAR_SHARE * bolt_tensile, bolt_area=areas.bolt
    )


def _hole_bend(ratio: float) -> float:
    return min(1.0, hole_bending_factor(ratio)) if ratio >= LEAST_RATIO else 1.0


def _bolt_bend(ratio: float) -> float:
    return bolt_bending_factor(min(ratio, MOST_RATIO))


def _answer(
    areas: _Pair,
    hole: StripForce[float],
    bolt: StripForce[float] | None,
    bound: float,
    ratio: float | None,
    notes: tuple[str, ...],
) -> StripAnswer:
    first = bolt if bolt is not None and bolt.low < hole.low else hole
    return StripAnswer(
        internal_area=areas.hole,
        external_area=areas.bolt,
        hole=hole,
        bolt=bolt,
        strip_force=min(hole.nominal, bolt.nominal) if bolt else hole.nominal,
        strip_force_low=first.low,
        worn_bound=bound,
        gives_way="bolt" if first is bolt else "hole",
        strength_ratio=ratio,
        notes=notes,
    )


def _notes(
    thread: Thread, ratio: float | None, bolt_tensile: float | None, boss_width: float | None, worn: WornHole
) -> tuple[str, ...]:
    told = [f"One pitch of {thread.name} is counted as lost to chamfer and run-out in the low value."]
    if bolt_tensile is None:
        told.append("The bolt's own thread is not looked at; say its strength class.")
    if ratio is not None and not LEAST_RATIO <= ratio <= MOST_RATIO:
        told.append(
            f"Hole over bolt is {ratio:.2f}, outside {LEAST_RATIO:g} to {MOST_RATIO:g}: no test covers how teeth bend "
            "there, the end of the fit is used."
        )
    if boss_width is None:
        told.append("The metal around the hole is taken as thick; a thin boss splits earlier.")
    if worn.minor_diameter is None and worn.pitch_diameter is None:
        told.append("The hole is taken as sound at its loosest limit; measure a worn one, or take the worn bound.")
    return tuple(told)
