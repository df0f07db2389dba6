"""The questions of the numbers bench beside the torque: what strips, taper, key, pull and blow, and all of them."""

from collections.abc import Mapping

from bellcrank.errors import NotFound
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.closed_lists import NUMBERS
from bellcrank.shop.answers import blow_answer, key_answer, pull_answer, strip_answer, taper_answer
from bellcrank.shop.engine_rooms import ENGINE_ROOMS
from bellcrank.shop.numbers import USUAL_CLASS
from bellcrank.shop.room import Asked, Room, nothing

STRIP, TAPER, KEY, PULL, BLOW = NUMBERS[:5]
COMMON_TAPER = {"ratio": "1:8", "mean_diameter": "20 mm"}  # common sizes, no source
COMMON_NUT = "5/8-18"
COMMON_WHEEL = "200 mm"  # outside of a flywheel; common size, no source


def room_named(key: str) -> Room:
    """Find a room by its key."""
    if key not in ROOMS:
        raise NotFound(f"There is no number called “{key}”. It must be one of {', '.join(ROOMS)}.")
    return ROOMS[key]


def _seat(typed: Mapping[str, str]) -> dict[str, str]:
    """A taper as long as it is wide, and its nut."""
    wide = typed.get("mean_diameter") or COMMON_TAPER["mean_diameter"]
    return {**COMMON_TAPER, "length": wide, "nut": COMMON_NUT}


def _pull(typed: Mapping[str, str]) -> dict[str, str]:
    bolt = typed.get("bolt", "")
    mark = {"strength": USUAL_CLASS[parse_thread(bolt).system]} if bolt else {}
    return {**_seat(typed), "state": "not known", **mark, "into": "die-cast aluminium", "circle": "20 mm"}


def _blow(typed: Mapping[str, str]) -> dict[str, str]:
    return {
        **_seat(typed),
        "speed": "3000 rpm",
        "flywheel_diameter": COMMON_WHEEL,
        "key": "606",
        "key_material": "key-steel",
        "hub_material": "die-cast aluminium",
    }


ON_A_TAPER = (
    Asked("ratio", "Taper", "1:8 or 1.5 in/ft"),
    Asked("mean_diameter", "Diameter half way along", "20 mm"),
    Asked("length", "Length of the contact", "25 mm"),
    Asked("nut", "Thread of the nut", "5/8-18"),
    Asked("nut_torque", "Torque that was on the nut", "60 ft·lb"),
)
KEYED = (
    Asked("key", "Key, by number or size", "606 or 3/16x3/4"),
    Asked("key_length", "Or the length of a parallel one", "25 mm"),
    Asked("key_material", "What the key is made of", "key-steel, zinc-3, aluminium-6061"),
    Asked("hub_material", "What the hub is made of", "cast-aluminium"),
)
ROOMS: Mapping[str, Room] = {
    STRIP: Room(
        key=STRIP,
        words="what strips",
        title="What strips the thread",
        lead="The pull at which a screw tears its thread out.",
        fields=(
            Asked("thread", "Thread", "M6 or 1/4-20"),
            Asked("into", "Screws into", "die-cast aluminium"),
            Asked("engaged", "Full thread engaged", "10 mm or 3/8 in"),
            Asked("strength", "Mark of the screw, to judge its own thread", "8.8 or G5"),
            Asked("boss", "Width of the boss, near an edge", "14 mm"),
            Asked("hole", "Measured inside a worn thread", "5.2 mm"),
        ),
        needs=("thread", "into", "engaged"),
        taken=nothing,
        answer=strip_answer,
    ),
    TAPER: Room(
        key=TAPER,
        words="what a taper holds",
        title="What a taper holds",
        lead="A flywheel or hub pushed onto its taper by a nut: what it carries, and what pulls it off.",
        fields=(
            *ON_A_TAPER,
            Asked("nut_force", "Or the push of the nut", "20 kN"),
            Asked("friction", "Friction (oily 0.10, clean 0.15, dry 0.20)", "0.15"),
        ),
        needs=("ratio", "mean_diameter", "nut_torque"),
        taken=lambda typed: {name: value for name, value in _seat(typed).items() if name in ("length", "nut")},
        answer=taper_answer,
        instead={"nut_force": ("nut", "nut_torque")},
    ),
    KEY: Room(
        key=KEY,
        words="what a key carries",
        title="What a key carries",
        lead="Sizes of a key, and the torque at which it gives way without the taper's help.",
        fields=(
            KEYED[0],
            Asked("shaft", "Shaft at the key; on a taper, half way along it", "20 mm"),
            *KEYED[1:],
            Asked("inch", "By the inch standard, a parallel one", "yes"),
        ),
        needs=("key", "shaft", "key_material"),
        taken=lambda _: {"hub_material": "die-cast aluminium"},
        answer=key_answer,
        instead={"key_length": ("key",)},
    ),
    PULL: Room(
        key=PULL,
        words="pulling a flywheel",
        title="Pulling a flywheel",
        lead="Will the bolts in its own holes hold the pull, and where to stop.",
        fields=(
            Asked("bolt", "Bolts into the flywheel", "1/4-20 or M6"),
            Asked("engaged", "Full thread engaged", "8 mm or 5/16 in"),
            *ON_A_TAPER,
            Asked("state", "State of the taper", "clean, fretted or not known"),
            Asked("bolts", "How many bolts", "two or three"),
            Asked("strength", "Mark on the bolts", "8.8 or G5"),
            Asked("into", "What the flywheel is made of", "die-cast aluminium"),
            Asked("tapped", "Full thread the hole has", "10 mm"),
            Asked("hub_depth", "How deep it could be tapped", "15 mm"),
            Asked("circle", "From the middle to a bolt", "20 mm"),
            Asked("off_centre", "Centre screw off the middle", "1 mm"),
            Asked("screw", "Centre screw", "M8"),
            Asked("force_low", "Or the least force known to free it", "6 kN"),
            Asked("force_high", "With it the most", "18 kN"),
        ),
        needs=("nut_torque", "bolt", "engaged"),
        taken=_pull,
        answer=pull_answer,
        instead={"force_low": ("ratio", "mean_diameter", "length", "nut", "nut_torque", "state")},
    ),
    BLOW: Room(
        key=BLOW,
        words="after a strike",
        title="After a strike",
        lead="The blade hit something: what that did to taper and key, and where the flywheel stands now.",
        fields=(
            Asked("stop_angle", "Crank stopped within", "45 °"),
            Asked("stop_time", "Or in a time of", "0.005 s"),
            *ON_A_TAPER,
            Asked("speed", "Engine speed", "3000 rpm"),
            Asked("flywheel_mass", "Flywheel weighs", "2.2 kg"),
            Asked("flywheel_diameter", "Outside of the flywheel", "200 mm"),
            Asked("flywheel_inertia", "Or its moment of inertia", "0.01 kg·m²"),
            *KEYED,
            Asked("blade_mass", "Blade weighs", "0.6 kg"),
            Asked("blade_length", "Blade tip to tip", "530 mm"),
        ),
        needs=("stop_angle", "nut_torque", "flywheel_mass"),
        taken=_blow,
        answer=blow_answer,
        instead={
            "stop_time": ("stop_angle",),
            "flywheel_inertia": ("flywheel_mass", "flywheel_diameter"),
            "key_length": ("key",),
        },
    ),
    **ENGINE_ROOMS,
}
