"""What is said of a keyed joint: when it stays marked, when it gives way, what of it first, and what that rests on."""

from bellcrank.both_systems import both_lengths, both_torques, both_windows
from bellcrank.fastening.drive_materials import BEARING_LEAST, BEARING_MOST, BRITTLE_LEAST, DriveMaterial
from bellcrank.fastening.key_joint import HUB_SUPPORT, SHEAR_SPREAD, GivesWay, Weakest, Withstood
from bellcrank.knowledge.model import Library
from bellcrank.shop.keyed import Keyed

EITHER = frozenset(GivesWay)
GOES = {  # what may go first: what is said to give way, and the word for one that has
    frozenset({GivesWay.SHEAR}): ("the key", "shears"),
    frozenset({GivesWay.CRUSH}): ("the key", "is crushed"),
    frozenset({GivesWay.SHEAR, GivesWay.CRUSH}): ("the key", "gives way"),
    frozenset({GivesWay.KEYWAY}): ("the keyway", "breaks"),
    EITHER: ("key or keyway", "gives way"),
}
PERHAPS = {"shears": "may shear", "is crushed": "may be crushed", "gives way": "may give way", "breaks": "may break"}
ALONE = "The key alone: a taper that grips carries most of it, and the key only places the hub."
HELD = (
    "The metal round a keyway holds its side: it breaks out like the side of a hole in light metal (MIL-HDBK-5) and is "
    "marked by the support factors of DIN 6892, both from memory. A porous or cracked casting goes sooner."
)


def goes(first: tuple[GivesWay, ...]) -> tuple[str, str]:
    """Say what gives way first, and how; where nobody can tell key from keyway, both are named."""
    return GOES.get(frozenset(first), GOES[EITHER])


def may_go(first: tuple[GivesWay, ...]) -> str:
    """Say that it may give way: “the key may shear”."""
    what, how = goes(first)
    return f"{what} {PERHAPS[how]}"


def which_first(weakest: Weakest) -> str:
    """Say whether key or keyway goes first, or that nobody can tell."""
    if weakest.first == (GivesWay.KEYWAY,):
        return "The keyway in the hub breaks before the key does: a new key alone does not mend that."
    if not weakest.only_key:
        return "Key or keyway, either may go first: their ranges overlap, so look at both."
    sheared_or_crushed = ", sheared or crushed" if len(weakest.first) > 1 else ""
    return f"The key goes before the keyway in the hub{sheared_or_crushed}."


def marks_words(weakest: Weakest, unit: str) -> str:
    """Say from when something stays marked."""
    if weakest.marked >= weakest.low:
        return "Nothing shows before it breaks."
    return f"Permanent marks begin at {both_torques(weakest.marked, unit)}."


def key_lines(found: Keyed, unit: str) -> tuple[tuple[str, str], ...]:
    """Say what each part of a keyed joint withstands, with what it rests on beside it, and the key's sizes."""
    carries = found.carries
    spread = f"{SHEAR_SPREAD:.0%}".replace("%", " %")
    return (
        ("step in the key", f"from {both_torques(carries.shear.marked, unit)}, half its yield strength"),
        ("key shears", f"at {_breaks(carries.shear, unit)}, its shear strength {spread} either way"),
        ("marks on the key's side", _marked(carries.key_side, found.material, "its yield strength", unit)),
        ("key is crushed", f"at {_breaks(carries.key_side, unit)}, {_times(found.material)} its tensile strength"),
        (
            "marks on the keyway",
            _marked(carries.hub_side, found.hub, f"{HUB_SUPPORT:g} times the hub's yield strength", unit),
        ),
        ("keyway breaks", f"at {_breaks(carries.hub_side, unit)}, {_times(found.hub)} the hub's tensile strength"),
        ("width", both_lengths(found.fitted.width, unit)),
        ("seat in the shaft", both_lengths(found.shaft_seat, unit)),
        ("seat in the hub", both_lengths(found.hub_seat, unit)),
    )


def key_notes(library: Library, found: Keyed) -> tuple[str, ...]:
    """Say what the answer rests on."""
    return (
        f"{found.words} of {found.material.words}, hub of {found.hub.words}.",
        _strength(library, "Strength of the key", found.material),
        _strength(library, "Strength of the hub", found.hub),
        "How far one key's shear strength lies from that on record: a guess.",
        HELD,
        f"Sizes: {library.sources[found.source].title}.",
    )


def _strength(library: Library, what: str, material: DriveMaterial) -> str:
    source = library.sources[material.source]
    return f"{what}, {material.basis}: {source.title} ({source.status})."


def _breaks(part: Withstood[float], unit: str) -> str:
    return both_windows(part.low, part.high, unit)


def _marked(part: Withstood[float], material: DriveMaterial, rests_on: str, unit: str) -> str:
    if material.yield_ is None:
        return "none before it breaks"
    return f"from {both_torques(part.marked, unit)}, {rests_on}"


def _times(material: DriveMaterial) -> str:
    least = BRITTLE_LEAST if material.yield_ is None else BEARING_LEAST
    return f"{least:g} to {BEARING_MOST:g} times"
