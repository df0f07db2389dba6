"""Reading a joint from what was typed, for a torque without a job."""

from collections.abc import Mapping

from bellcrank.errors import NotFound, NotUnderstood
from bellcrank.fastening.joint import USUAL_FRICTION, Joint
from bellcrank.fastening.strength import Material
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.model import Library
from bellcrank.measuring.refusals import refuse_outside
from bellcrank.units import read_positive

A_NUT = "nut"  # typed for "into" when it is a nut


def joint_from_words(library: Library, typed: Mapping[str, str]) -> Joint:
    """Read thread, strength, into, under, engaged, head, friction and tightened_by; all but the thread may be empty."""
    strength = typed.get("strength") or "8.8"
    classes = library.strength_classes
    if strength not in classes:
        known = ", ".join(classes)
        raise NotFound(f"There is no strength class “{strength}”. It must be one of {known}.", "strength")
    into = typed.get("into") or "cast-aluminium"
    engaged = typed.get("engaged", "")
    return Joint(
        thread=parse_thread(typed.get("thread", "")),
        strength=classes[strength],
        into=None if into == A_NUT else material_named(library, into, "into"),
        under_head=material_named(library, typed.get("under") or ("mild-steel" if into == A_NUT else into), "under"),
        head=typed.get("head") or "hex",
        engaged=read_positive(engaged, "length", default="mm", what="Thread engaged").si if engaged else None,
        friction=_friction(typed.get("friction", "")),
        tightened_by=typed.get("tightened_by") or "torque wrench",
    )


def material_named(library: Library, name: str, field: str) -> Material:
    """Find a material by its key or its words."""
    plain = name.strip().casefold()
    found = next((m for m in library.materials.values() if plain in (m.key.casefold(), m.words.casefold())), None)
    if found is None:
        known = ", ".join(material.words for material in library.materials.values())
        raise NotFound(f"There is no material “{name}”. It must be one of {known}.", field)
    return found


def _friction(text: str) -> float:
    if not text:
        return USUAL_FRICTION
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        raise NotUnderstood(f"Friction is “{text}”; it must be a number like 0.14.", "friction") from None
    refuse_outside("Friction", value, 0.03, 0.5, "Oiled steel is near 0.12, dry zinc near 0.25.")
    return value
