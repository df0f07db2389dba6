"""Pulling a hub off with two or three bolts in its own holes: will the threads hold, and to what torque."""

import math
from dataclasses import dataclass

from bellcrank.fastening.heads import face_under
from bellcrank.fastening.limits import thread_limits
from bellcrank.fastening.pull import (
    FEWEST_PITCHES,
    Against,
    Pull,
    PullAnswer,
    PullVerdict,
    refuse_a_pull_that_cannot_be,
)
from bellcrank.fastening.pull_forces import heaviest_bolt_load, screw_torque
from bellcrank.fastening.strength import strength_at
from bellcrank.fastening.stripping import LOST_PITCHES, bolt_strip_force, strip_force
from bellcrank.fastening.threads import stress_area
from bellcrank.fastening.tightening import torque_for_preload

THREAD_MARGIN = 1.5  # [-] against the usable strip force: covers oil on the screw and a hole worse than it looks
BOLT_MARGIN = 4 / 3  # [-] against the proof load, the 0.75 of the SAE charts: covers the ±25 % of a torque
FORMED_AGAIN = 0.8  # [-] strength left in a hole a screw has formed before; FROM MEMORY, conservative
TRIAL_PITCHES = 10.0  # [-] any length will do: strength grows in step with length less the lost pitch

CAUTIONS = (
    "Plug lead off and tied back before you turn anything.",
    "Leave the nut on by a few turns: the flywheel jumps when it lets go.",
    "Stand clear of the line of the screw, and keep others clear.",
    "Eyes covered: a bolt that strips flies.",
    "Screws in square and equally deep; oil the centre screw and its tip.",
    "Never hammer on the crank end or on the magnets.",
)


@dataclass(frozen=True, slots=True)
class _Found:
    """A verdict and, where deeper engagement helps, how deep [m] and whether for a clean taper only."""

    verdict: PullVerdict
    depth: float = 0.0
    clean_only: bool = False


def judge_pull(pull: Pull) -> PullAnswer:
    """Say whether a hub can be pulled by its holes, how deep they must be, and at what torque to stop.

    Parameters
    ----------
    pull : Pull
        The hub and what is screwed in. [-]

    Returns
    -------
    PullAnswer
        Loads, strengths, margins, torque limits and a verdict. [N, N·m, m]

    Raises
    ------
    OutOfRange
        When a force or length cannot be, the screw is so far off that a bolt goes slack, or fewer than two threads
        are engaged.

    Notes
    -----
    Usable strip force of a hole: knock-down x shear strength x area over (LE - P), times what is left of the thread's
    height in a wide hole, times 0.8 for a formed hole used again; no more than the bolt's own thread takes. Allowed
    load: the least of usable/1.5 and proof/(4/3). Needed engagement: P + 1.5 F (LE - P)/usable.

    By hand, M6 class 8.8 in die-cast aluminium, LE 6 mm, release 10 to 28 kN on two bolts: area 12.27 mm²/mm, so
    geometric 12.27 x 190 x 6 = 14.0 kN, usable 0.7 x 12.27 x 190 x 5 = 8.2 kN, proof 580 x 20.1 = 11.7 kN, allowed
    the lesser of 5.4 and 8.8 kN. A clean taper asks 5 kN: it holds. A fretted one asks 14 kN, more than the 8.8 kN
    the bolt may take: no depth helps, so stop at the limit.

    References
    ----------
    FED-STD-H28/2B (1991), Table II.B.1, formula (2a) and section 70.7.2; ISO 898-1 (proof); lever law.

    Examples
    --------
    >>> from bellcrank.fastening.strength import Material, StrengthClass, StrengthRange
    >>> from bellcrank.fastening.threads import parse_thread
    >>> from bellcrank.sources import Basis
    >>> steel = StrengthRange(0.0016, 0.016, 800e6, 640e6, 580e6, Basis.TABLE, "iso-898-1")
    >>> cast = Material("cast", "die-cast aluminium", 324e6, 190e6, 290e6, 0.7, Basis.TABLE, "nadca")
    >>> bolt, screw = StrengthClass("8.8", "class 8.8", (steel,)), parse_thread("M10")
    >>> pull = Pull(10e3, 28e3, parse_thread("M6"), bolt, cast, 0.006, 0.010, screw, 0.025)
    >>> judge_pull(pull).verdict.value
    'enough for a clean taper only'
    """
    refuse_a_pull_that_cannot_be(pull)
    load = Against(_load(pull, pull.release_low), _load(pull, pull.release_high))
    usable, proof = _usable(pull, pull.engaged), _proof(pull)
    allowed = min(usable / THREAD_MARGIN, proof / BOLT_MARGIN)
    found = _found(pull, load, allowed)
    total = pull.release_high * allowed / load.fretted
    screw_limit = screw_torque(total, pull.screw, friction=pull.friction, tip_radius=pull.tip_radius)
    return PullAnswer(
        verdict=found.verdict,
        deeper=found.depth,
        deeper_for_least=found.clean_only,
        load=load,
        strip_geometric=strip_force(pull.thread, pull.engaged, pull.hub).nominal,
        strip_usable=usable,
        bolt_proof=proof,
        allowed=allowed,
        hole_margin=Against(_over(usable, load.clean), _over(usable, load.fretted)),
        bolt_margin=Against(_over(proof, load.clean), _over(proof, load.fretted)),
        screw_torque_limit=screw_limit,
        bolt_torque_limit=_bolt_torque(pull, allowed),
        needed_clean=_needed(pull, load.clean),
        needed_fretted=_needed(pull, load.fretted),
        assumptions=_assumptions(pull),
        cautions=CAUTIONS,
    )


def _load(pull: Pull, force: float) -> float:
    return heaviest_bolt_load(force, pull.bolts, circle_radius=pull.circle_radius, off_centre=pull.off_centre)


def _proof(pull: Pull) -> float:
    return strength_at(pull.strength, pull.thread.diameter).proof * stress_area(pull.thread)


def _usable(pull: Pull, engaged: float) -> float:
    tensile = strength_at(pull.strength, pull.thread.diameter).tensile
    hole = _thread_left(pull) * strip_force(pull.thread, engaged, pull.hub).low
    return min(hole, bolt_strip_force(pull.thread, engaged, tensile, pull.hub.knock_down).low)


def _thread_left(pull: Pull) -> float:
    left = FORMED_AGAIN if pull.formed_again else 1.0
    if pull.core_hole is None:
        return left
    widest = thread_limits(pull.thread).hole_minor_max  # up to it the strip formula already holds
    return left * min(1.0, (pull.thread.diameter - pull.core_hole) / (pull.thread.diameter - widest))


def _needed(pull: Pull, load: float) -> float | None:
    """Full thread to engage for a load, None when the bolt may not carry it however deep it is."""
    if load > _proof(pull) / BOLT_MARGIN:
        return None
    trial, lost = TRIAL_PITCHES * pull.thread.pitch, LOST_PITCHES * pull.thread.pitch
    per_length = _usable(pull, trial) / (trial - lost)
    return max(lost + THREAD_MARGIN * load / per_length, FEWEST_PITCHES * pull.thread.pitch)


def _found(pull: Pull, load: Against, allowed: float) -> _Found:
    if allowed >= load.fretted:
        return _Found(PullVerdict.ENOUGH)
    for_fretted = _deeper(pull, load.fretted, clean_only=False)
    if for_fretted is not None:
        return for_fretted
    if allowed >= load.clean:
        return _Found(PullVerdict.CLEAN_ONLY if pull.clean_to_fretted else PullVerdict.LEAST_ONLY)
    return _deeper(pull, load.clean, clean_only=True) or _Found(PullVerdict.ANOTHER_WAY)


def _deeper(pull: Pull, load: float, *, clean_only: bool) -> _Found | None:
    needed = _needed(pull, load)
    if needed is None:
        return None
    if needed <= pull.tapped_depth:
        return _Found(PullVerdict.SCREW_IN_DEEPER, needed, clean_only)
    if pull.hub_depth is None or needed <= pull.hub_depth:
        return _Found(PullVerdict.TAP_DEEPER, needed, clean_only)
    return None


def _bolt_torque(pull: Pull, load: float) -> float:
    face = face_under("hex", pull.thread)
    return torque_for_preload(
        load,
        pull.thread,
        thread_friction=pull.friction,
        head_friction=pull.friction,
        bearing_diameter=face.bearing_diameter,
        hole_diameter=face.hole_diameter,
    )


def _over(strength: float, load: float) -> float:
    return strength / load if load > 0 else math.inf


def _assumptions(pull: Pull) -> tuple[str, ...]:
    made = [
        f"Friction {pull.friction:g} in the screws and under the tip; with less, the same torque pulls harder.",
        f"Thread in the {pull.hub.words} sound; one pitch lost and {pull.hub.knock_down:.0%} of the rest counted on.",
        "Plate stiff and square: a bent bolt breaks sooner than a straight one.",
        "The centre screw is taken to be stronger than the bolts.",
    ]
    if pull.formed_again:
        made.append(f"A hole its screw has formed before keeps {FORMED_AGAIN:.0%}: from memory, not from a test.")
    if pull.core_hole is not None and _thread_left(pull) < 1:
        made.append("A wide hole is taken to hold in step with the height of thread that is left in it.")
    return tuple(made)
