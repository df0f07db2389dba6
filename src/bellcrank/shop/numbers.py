"""Reading a joint from what was typed, for a torque without a job."""

from collections.abc import Mapping

from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.fastening.galvanised import hot_dip
from bellcrank.fastening.heads import HEADS, Face, face_under
from bellcrank.fastening.joint import USUAL_FRICTION, Joint
from bellcrank.fastening.pull_out import StripAnswer, WornHole, pull_out
from bellcrank.fastening.strength import Material, StrengthClass, strength_at
from bellcrank.fastening.threads import Thread, ThreadSystem, parse_thread
from bellcrank.fastening.tightening import LEAST_FRICTION, MOST_FRICTION
from bellcrank.fastening.ways import USUAL_WAY
from bellcrank.knowledge.model import Library
from bellcrank.measuring.refusals import refuse_outside
from bellcrank.units import read_positive

A_NUT = "nut"  # typed for "into" when it is a nut
USUAL_CLASS = {ThreadSystem.METRIC: "8.8", ThreadSystem.UNIFIED: "G5"}  # of like strength
USUAL_HEAD, USUAL_INTO, UNDER_A_NUT = "hex", "cast-aluminium", "mild-steel"


def joint_from_words(library: Library, typed: Mapping[str, str]) -> Joint:
    """Read a joint; all but the thread may be empty.

    The keys are thread, strength, into, under, engaged, head (a kind, or the diameter of its face), hole (under the
    head), friction, head_friction, tightened_by and galvanised (anything: hot-dip).
    """
    thread = parse_thread(typed.get("thread", ""))
    galvanised = bool(typed.get("galvanised"))
    into = typed.get("into") or USUAL_INTO
    engaged, head_friction = typed.get("engaged", ""), typed.get("head_friction", "")
    kind, face = _head(thread, typed.get("head", ""), typed.get("hole", ""))
    return Joint(
        thread=hot_dip(thread) if galvanised else thread,
        strength=strength_named(library, typed.get("strength") or USUAL_CLASS[thread.system]),
        into=None if into == A_NUT else material_named(library, into, "into"),
        under_head=material_named(library, typed.get("under") or (UNDER_A_NUT if into == A_NUT else into), "under"),
        head=kind,
        engaged=read_positive(engaged, "length", default="mm", what="Thread engaged").si if engaged else None,
        friction=read_friction(typed.get("friction", "")),
        head_friction=read_friction(head_friction, "head_friction") if head_friction else None,
        tightened_by=typed.get("tightened_by") or USUAL_WAY,
        face=face,
        galvanised=galvanised,
    )


def left_out(joint: Joint, typed: Mapping[str, str]) -> tuple[str, ...]:
    """Say what was taken because nothing was typed."""
    told = []
    if not typed.get("strength"):
        told.append(f"No mark was given: {joint.strength.words} is taken. Look at the head; no mark is weaker.")
    if not typed.get("into") and joint.into is not None:
        told.append(f"What it screws into was not given: {joint.into.words} is taken.")
    if not typed.get("under"):
        told.append(f"What lies under the head was not given: {joint.under_head.words} is taken.")
    if not typed.get("head"):
        told.append(f"The head was not given: {joint.head} is taken.")
    return tuple(told)


def strip_from_words(library: Library, typed: Mapping[str, str]) -> StripAnswer:
    """Read what may strip and say at which pull it does; thread, engaged and into must be there.

    The keys are thread, engaged, into, and where known strength (of the screw), boss (its width) and hole (worn).
    """
    thread, strength = parse_thread(typed.get("thread", "")), typed.get("strength", "")
    boss, hole = typed.get("boss", ""), typed.get("hole", "")
    tensile = strength_at(strength_named(library, strength), thread.diameter).tensile if strength else None
    return pull_out(
        thread,
        read_positive(typed.get("engaged", ""), "length", default="mm", what="Thread engaged").si,
        material_named(library, typed.get("into", ""), "into"),
        bolt_tensile=tensile,
        boss_width=read_positive(boss, "length", default="mm", what="Width of the boss").si if boss else None,
        worn=WornHole(read_positive(hole, "length", default="mm", what="Measured hole").si) if hole else None,
    )


def strength_named(library: Library, name: str) -> StrengthClass:
    """Find a strength class by the mark on the head."""
    if name not in library.strength_classes:
        known = ", ".join(library.strength_classes)
        raise NotFound(f"There is no strength class “{name}”. It must be one of {known}.", "strength")
    return library.strength_classes[name]


def material_named(library: Library, name: str, field: str) -> Material:
    """Find a material by its key or its words."""
    plain = name.strip().casefold()
    found = next((m for m in library.materials.values() if plain in (m.key.casefold(), m.words.casefold())), None)
    if found is None:
        known = ", ".join(material.words for material in library.materials.values())
        raise NotFound(f"There is no material “{name}”. It must be one of {known}.", field)
    return found


def read_friction(text: str, field: str = "friction") -> float:
    """Read a friction; nothing typed is the usual one, as received and lightly oiled."""
    if not text:
        return USUAL_FRICTION
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        raise NotUnderstood(f"Friction is “{text}”; it must be a number like 0.14.", field) from None
    refuse_outside("Friction", value, LEAST_FRICTION, MOST_FRICTION, "Oiled steel is near 0.12, dry zinc near 0.25.")
    return value


def read_share(text: str) -> float:
    """Read a share of the yield strength, like 0.9."""
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        raise NotUnderstood(f"The share of yield is “{text}”; it must be a number like 0.9.", "to_yield") from None
    refuse_outside("Share of the yield strength", value, 0.05, 1.0, "Tables use 0.9.")
    return value


def _head(thread: Thread, head: str, hole: str) -> tuple[str, Face | None]:
    """Give the kind of head, and its face where diameter or hole were measured."""
    kind = head if head in HEADS else USUAL_HEAD
    measured = head if head and head[0].isdigit() else ""
    if head and not measured and head not in HEADS:
        raise NotFound(
            f"“{head}” is not a kind of head we know. Type {', '.join(HEADS)}, or the diameter it seats on.", "head"
        )
    if not measured and not hole:
        return kind, None
    usual = face_under(kind, thread)
    return kind, Face(
        read_positive(measured, "length", default="mm", what="Face of the head").si
        if measured
        else usual.bearing_diameter,
        read_positive(hole, "length", default="mm", what="Hole under the head").si if hole else usual.hole_diameter,
    )
