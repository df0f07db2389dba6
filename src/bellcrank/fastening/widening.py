"""What limits a joint in the shop's words, and what would move that limit, with the number it would move to."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellcrank.both_systems import INCH_UNITS, torque_beside
from bellcrank.fastening.clamp_limits import Allowed, Part, limits_of
from bellcrank.fastening.joint import Joint
from bellcrank.fastening.joint_sample import numbers_of
from bellcrank.fastening.stripping import LOST_PITCHES
from bellcrank.units import show

OF_THE_BOLT = (Part.BOLT, Part.NECK, Part.OWN_THREAD)  # a stronger screw lifts these, and these only
OF_THE_THREAD = (Part.HOLE, Part.OWN_THREAD)  # more thread engaged lifts these, and these only


@dataclass(frozen=True, slots=True)
class Limit:
    """One thing that may give way first."""

    part: Part
    words: str
    preload: float  # the most it allows [N]
    torque: float  # at which a scattered preload just reaches it [N·m]


@dataclass(frozen=True, slots=True)
class Wider:
    """What would widen the window."""

    words: str
    high: float | None  # the upper end it would give; None: it depends on what is fitted [N·m]


def worded_limits(joint: Joint) -> tuple[Limit, ...]:
    """Give the limits of a joint, the governing one first."""
    found = limits_of(joint, numbers_of(joint))
    limits = (_worded(joint, part, allowed) for part, allowed in found.items())
    return tuple(sorted(limits, key=lambda limit: limit.preload))


def wider(joint: Joint, limits: Sequence[Limit], unit: str = "N·m") -> Wider:
    """Say what would lift the governing limit, which limit is next then, and at what torque, first in ``unit``."""
    match limits[0].part:
        case Part.FACE | Part.WASHER:
            return _wider_face(joint, limits, unit)
        case Part.HOLE | Part.OWN_THREAD:
            return _more_thread(joint, limits, unit)
        case Part.BOLT | Part.NECK:
            bolt = "A stronger bolt" if limits[0].part is Part.BOLT else "A bolt without a neck, or a stronger one,"
            return Wider(f"{bolt} would lift this limit.{_next(limits, OF_THE_BOLT, unit)}", None)
        case Part.GASKET:
            return Wider(
                "Only a gasket or cover that bears more would lift this limit; a stronger bolt would not.", None
            )


def _wider_face(joint: Joint, limits: Sequence[Limit], unit: str) -> Wider:
    now = limits[0]
    flanged = replace(joint, head="flange", face=None, washer=None)
    if joint.head != "flange" and joint.washer is None and _passes(joint, flanged):
        then = worded_limits(flanged)[0]
        if then.torque > now.torque and then.part is not now.part:
            return Wider(
                f"A flange head or a hard washer would lift this limit: a flange moves it from {now.words} to "
                f"{then.words}, at {torque_beside(then.torque, unit)} instead of {torque_beside(now.torque, unit)}.",
                then.torque,
            )
        if then.torque > now.torque:
            return Wider(
                f"A flange head or a hard washer would lift this limit: with a flange {now.words} bears "
                f"{torque_beside(then.torque, unit)} instead of {torque_beside(now.torque, unit)}.",
                then.torque,
            )
    ring = "A harder or thicker washer" if joint.washer is not None else "A hard washer under the head"
    return Wider(f"{ring} would lift this limit.{_next(limits, (Part.FACE, Part.WASHER), unit)}", None)


def _passes(joint: Joint, flanged: Joint) -> bool:
    """A flange helps where its face is larger than the one there is."""
    return flanged.turned_face.bearing_diameter > joint.turned_face.bearing_diameter


def _more_thread(joint: Joint, limits: Sequence[Limit], unit: str) -> Wider:
    """Give the engagement at which the next limit governs: strip force grows with the thread less the pitch lost."""
    other = "a steel insert" if limits[0].part is Part.HOLE else "a stronger screw"
    no_use = "; a stronger bolt would not" if limits[0].part is Part.HOLE else ""
    words = f"More thread engaged, or {other}, would lift this limit{no_use}."
    then = next((limit for limit in limits if limit.part not in OF_THE_THREAD), None)
    if then is None:
        return Wider(words, None)
    lost = LOST_PITCHES * joint.thread.pitch
    more = (joint.full_thread - lost) * (then.preload / limits[0].preload - 1)
    return Wider(
        f"{words} {_length(more, unit)} more thread moves it to {then.words}, at {torque_beside(then.torque, unit)} "
        f"instead of {torque_beside(limits[0].torque, unit)}.",
        then.torque,
    )


def _next(limits: Sequence[Limit], lifted: Sequence[Part], unit: str) -> str:
    then = next((limit for limit in limits if limit.part not in lifted), None)
    return f" Then {then.words} is next, at {torque_beside(then.torque, unit)}." if then is not None else ""


def _worded(joint: Joint, part: Part, allowed: Allowed[float]) -> Limit:
    into = joint.into.words if joint.into is not None else ""
    washer = joint.washer.material.words if joint.washer is not None else ""
    pressed_by = "washer" if joint.washer is not None else "head"
    words = {
        Part.BOLT: "the bolt itself",
        Part.NECK: "the neck of the screw",
        Part.FACE: f"the {joint.under_head.words} under the {pressed_by}",
        Part.WASHER: f"the {washer} washer under the head",
        Part.HOLE: f"the thread in the {into}",
        Part.OWN_THREAD: "the screw's own thread",
        Part.GASKET: "the gasket or cover under it",
    }
    return Limit(part, words[part], allowed.preload, allowed.torque)


def _length(length: float, unit: str) -> str:
    metric = show(length, "mm", "length", 1)
    return f"{show(length, 'in', 'length', 2)} ({metric})" if unit in INCH_UNITS else metric
