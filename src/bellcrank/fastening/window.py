"""The torque nobody published: what limits the joint, and the window that stays clear of it."""

from dataclasses import dataclass, replace
from enum import StrEnum

from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.fastening.heads import Face, face_under
from bellcrank.fastening.strength import Material, StrengthClass, StrengthRange, strength_at
from bellcrank.fastening.stripping import bolt_strip_force, strip_force
from bellcrank.fastening.threads import Thread, stress_area
from bellcrank.fastening.tightening import preload_at_yield, torque_for_preload
from bellcrank.measuring.refusals import refuse_outside
from bellcrank.sources import Basis
from bellcrank.units import show

USUAL_FRICTION = 0.14  # [-] as received, lightly oiled: VDI 2230 classes B and C overlap there
PROOF_SHARE = 0.75  # [-] of the proof load, the clamp the SAE charts use
YIELD_SHARE = 0.9  # [-] of the yield strength with pull and twist together, VDI 2230
STRIP_MARGIN = 1.5  # [-] against the low strip force; covers a second use of the thread
TARGET_SHARE = 0.90  # [-] of the window's upper end, so that a wrench off by a tenth is still inside
LOW_SHARE = 0.75  # [-] of the upper end: below it the clamp may halve with the scatter

SCATTER = {  # preload scatter by way of tightening, MIL-HDBK-60 Table I [-]
    "torque wrench": 0.25,
    "hand feel": 0.35,
}


@dataclass(frozen=True, slots=True)
class Joint:
    """A screw, what it goes into, what lies under its head, and how it is tightened."""

    thread: Thread
    strength: StrengthClass
    into: Material | None  # None: a nut of matching class
    under_head: Material
    head: str = "hex"
    engaged: float | None = None  # full thread engagement; None: assumed [m]
    friction: float = USUAL_FRICTION  # in the thread and under the head [-]
    tightened_by: str = "torque wrench"


class Part(StrEnum):
    """What of a joint may give way."""

    BOLT = "bolt"
    FACE = "face under the head"
    HOLE = "thread in the hole"
    OWN_THREAD = "thread of the screw"


@dataclass(frozen=True, slots=True)
class Limit:
    """One thing that may give way first."""

    part: Part
    words: str
    preload: float  # the most it allows [N]
    torque: float  # at which a scattered preload just reaches it [N·m]


@dataclass(frozen=True, slots=True)
class TorqueWindow:
    """A torque with what it rests on; torques in N·m, preloads in N."""

    low: float
    target: float
    high: float
    governs: str
    widen: str
    basis: Basis
    preload_low: float  # the least clamp inside the window, scatter counted
    preload_high: float  # the most
    limits: tuple[Limit, ...]  # the governing one first
    assumptions: tuple[str, ...]


def recommend_torque(joint: Joint) -> TorqueWindow:
    """Give the torque window of a joint, the limit that governs it, and what would widen it.

    Parameters
    ----------
    joint : Joint
        The screw and what it holds. [-]

    Returns
    -------
    TorqueWindow
        Window and target with the governing limit. [N·m]

    Raises
    ------
    OutOfRange
        When the joint cannot be computed: plastic, too few threads, a class not made in that size.
    NotUnderstood
        When the head or the way of tightening is not known.

    Notes
    -----
    The most preload is the least of 0.75 proof load (or 0.9 yield with the twist counted), low strip force / 1.5 and
    face pressure limit x face area; the upper end of the window is the torque whose mean preload stays below it by
    the scatter of the tool. A nut is taken as full height and as strong as its bolt.

    References
    ----------
    MIL-HDBK-60 (Table I, Appendix B); FED-STD-H28/2B, Table II.B.1; VDI 2230:2003, limit pressures under the head.

    Examples
    --------
    >>> from bellcrank.fastening.strength import Material, StrengthClass, StrengthRange
    >>> from bellcrank.fastening.threads import parse_thread
    >>> steel = StrengthRange(0.0016, 0.016, 800e6, 640e6, 580e6, Basis.TABLE, "iso-898-1")
    >>> cast = Material("cast", "die-cast aluminium", 324e6, 190e6, 290e6, 0.7, Basis.TABLE, "nadca")
    >>> bolt = StrengthClass("8.8", "class 8.8", (steel,))
    >>> joint = Joint(parse_thread("M6"), bolt, cast, cast, "hex", 0.012, 0.12)
    >>> round(recommend_torque(joint).high, 1)
    6.4
    """
    if joint.tightened_by not in SCATTER:
        ways = " or ".join(SCATTER)
        raise NotUnderstood(f"“{joint.tightened_by}” is not a way of tightening we know. Say {ways}.")
    refuse_outside("Friction", joint.friction, 0.03, 0.5, "Oiled steel is near 0.12, dry zinc near 0.25.")
    limits = _limits(joint)
    governing = limits[0]
    scatter = SCATTER[joint.tightened_by]
    mean = governing.preload / (1 + scatter)
    return TorqueWindow(
        low=LOW_SHARE * governing.torque,
        target=TARGET_SHARE * governing.torque,
        high=governing.torque,
        governs=governing.words,
        widen=_widen(joint, limits),
        basis=Basis.COMPUTED,
        preload_low=LOW_SHARE * mean * (1 - scatter),
        preload_high=governing.preload,
        limits=limits,
        assumptions=_assumptions(joint),
    )


def _limits(joint: Joint) -> tuple[Limit, ...]:
    strengths = strength_at(joint.strength, joint.thread.diameter)
    face = face_under(joint.head, joint.thread)
    found = [
        (Part.BOLT, "the bolt itself", _bolt_preload(joint, strengths)),
        (
            Part.FACE,
            f"the {joint.under_head.words} under the head",
            _head_pressure(joint.under_head) * face.area,
        ),
        *_thread_preloads(joint, strengths),
    ]
    limits = (Limit(part, words, preload, _torque(joint, face, preload)) for part, words, preload in found)
    return tuple(sorted(limits, key=lambda limit: limit.preload))


def _bolt_preload(joint: Joint, strengths: StrengthRange) -> float:
    proof = PROOF_SHARE * strengths.proof * stress_area(joint.thread)
    twisted = preload_at_yield(joint.thread, strengths.yield_, thread_friction=joint.friction, utilisation=YIELD_SHARE)
    return min(proof, twisted)


def _thread_preloads(joint: Joint, strengths: StrengthRange) -> list[tuple[Part, str, float]]:
    if joint.into is None:
        return []
    engaged = _engaged(joint)
    hole = strip_force(joint.thread, engaged, joint.into)
    screw = bolt_strip_force(joint.thread, engaged, strengths.tensile, joint.into.knock_down)
    return [
        (Part.HOLE, f"the thread in the {joint.into.words}", hole.low / STRIP_MARGIN),
        (Part.OWN_THREAD, "the screw's own thread", screw.low / STRIP_MARGIN),
    ]


def _head_pressure(under_head: Material) -> float:
    if under_head.bearing is None:
        raise OutOfRange(
            f"No pressure limit is on record for {under_head.words} under a head, so no torque is computed. Put a "
            "steel washer under the head and choose steel, or tighten until it is seated and no further."
        )
    return under_head.bearing


def _torque(joint: Joint, face: Face, most: float) -> float:
    return torque_for_preload(
        most / (1 + SCATTER[joint.tightened_by]),
        joint.thread,
        thread_friction=joint.friction,
        head_friction=joint.friction,
        bearing_diameter=face.bearing_diameter,
        hole_diameter=face.hole_diameter,
    )


def _engaged(joint: Joint) -> float:
    return joint.engaged if joint.engaged is not None else joint.thread.diameter


def _widen(joint: Joint, limits: tuple[Limit, ...]) -> str:
    match limits[0].part:
        case Part.FACE if joint.head == "flange":
            return "A hard washer under the head would lift this limit."
        case Part.FACE:
            wider = _limits(replace(joint, head="flange"))[0]
            return f"A flange head or a hard washer would lift this limit; with a flange, {wider.words} is next."
        case Part.HOLE:
            return "More thread engaged, or a steel insert, would lift this limit; a stronger bolt would not."
        case Part.OWN_THREAD:
            return "More thread engaged, or a stronger screw, would lift this limit."
        case Part.BOLT:
            return "A stronger bolt would lift this limit."


def _assumptions(joint: Joint) -> tuple[str, ...]:
    made = [f"Friction {joint.friction:g} in the thread and under the head; grease lowers it and overloads the joint."]
    face = face_under(joint.head, joint.thread)
    if face.assumed:
        made.append(face.assumed)
    if joint.into is not None and joint.engaged is None:
        made.append(
            f"Full thread engaged was not measured; {show(_engaged(joint), 'mm', 'length', 1)}, one diameter of the "
            "screw, is assumed. Measure it with a wire."
        )
    made.append(f"Tightened by {joint.tightened_by}: the clamp scatters ±{SCATTER[joint.tightened_by]:.0%}.")
    if joint.into is not None:
        made.append(f"Thread in the {joint.into.words} sound; {joint.into.knock_down:.0%} of its strength counted on.")
    return tuple(made)
