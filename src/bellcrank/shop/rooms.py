"""The questions of the numbers bench beside the torque: what is asked, what is taken when it is not told."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from bellcrank.errors import NotFound
from bellcrank.fastening.threads import parse_thread
from bellcrank.knowledge.closed_lists import NUMBERS
from bellcrank.knowledge.model import Library
from bellcrank.shop.answers import Answered, blow_answer, key_answer, pull_answer, strip_answer, taper_answer
from bellcrank.shop.engine_answers import compression_answer, jet_answer, leak_down_answer, timing_answer
from bellcrank.shop.engines import USUAL_ORIFICE, USUAL_SUPPLY
from bellcrank.shop.numbers import USUAL_CLASS

STRIP, TAPER, KEY, PULL, BLOW, TIMING, LEAK_DOWN, COMPRESSION, JET = NUMBERS
COMMON_TAPER = {"ratio": "1:8", "mean_diameter": "20 mm"}  # common sizes, no source
COMMON_NUT = "5/8-18"
COMMON_WHEEL = "200 mm"  # outside of a flywheel; common size, no source
MEASURE = "Common sizes, no source: measure yours and type them."


@dataclass(frozen=True, slots=True)
class Asked:
    """Something that is asked."""

    name: str
    label: str
    example: str


@dataclass(frozen=True, slots=True)
class Room:
    """One of the questions, with all that may be told for it."""

    key: str
    words: str  # how it is called in a row of others
    title: str
    lead: str
    fields: tuple[Asked, ...]
    needs: tuple[str, ...]  # what must be told
    taken: Callable[[Mapping[str, str]], Mapping[str, str]]  # what is taken for what was not told
    answer: Callable[[Library, Mapping[str, str], str], Answered]
    instead: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # told, what it takes the place of

    def told(self, typed: Mapping[str, str]) -> dict[str, str]:
        """Give what was told that this room asks for."""
        return {one.name: typed[one.name] for one in self.fields if typed.get(one.name)}

    def replaced(self, typed: Mapping[str, str]) -> frozenset[str]:
        """Name what is not asked, for something else was told in its place."""
        return frozenset(name for told, names in self.instead.items() if typed.get(told) for name in names)

    def ready(self, typed: Mapping[str, str]) -> bool:
        """Whether enough was told for an answer."""
        replaced = self.replaced(typed)
        return all(typed.get(name) or name in replaced for name in self.needs)

    def assumed(self, typed: Mapping[str, str]) -> dict[str, str]:
        """Give what is taken because it was not told."""
        told, replaced = self.told(typed), self.replaced(typed)
        return {name: value for name, value in self.taken(typed).items() if name not in told and name not in replaced}

    def in_words(self, values: Mapping[str, str]) -> str:
        """Say values with what they are."""
        return "; ".join(f"{_small(one.label)}: {values[one.name]}" for one in self.fields if one.name in values)

    def answered(self, library: Library, typed: Mapping[str, str], unit: str) -> Answered:
        """Answer from what was told, torques in the unit first."""
        return self.answer(library, {**self.assumed(typed), **self.told(typed)}, unit)

    def taken_words(self, typed: Mapping[str, str]) -> tuple[str, ...]:
        """Say what is taken because it was not told."""
        assumed = self.assumed(typed)
        return (f"Not told, so taken: {self.in_words(assumed)}. {MEASURE}",) if assumed else ()


def room_named(key: str) -> Room:
    """Find a room by its key."""
    if key not in ROOMS:
        raise NotFound(f"There is no number called “{key}”. It must be one of {', '.join(ROOMS)}.")
    return ROOMS[key]


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]


def _nothing(_: Mapping[str, str]) -> dict[str, str]:
    return {}


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
ENGINE = Asked("engine", "Engine, by its card", "overhead-valve-160")
HEIGHT = Asked("height", "Height above the sea", "500 m")
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
        taken=_nothing,
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
    TIMING: Room(
        key=TIMING,
        words="spark timing",
        title="Where the spark falls",
        lead="A flywheel that slipped on its taper: where both sparks of a cycle fall, and what to expect.",
        fields=(
            ENGINE,
            Asked("slip", "It stands forward (below zero) or back", "-60 °"),
            Asked("arc", "Or the arc at the rim, piston at the top", "-105 mm"),
            Asked("rim", "Radius of the rim", "100 mm"),
            Asked("key_offset", "Or between the keyways' edges", "-2 mm"),
            Asked("shaft", "Radius of the shaft at the key", "10 mm"),
            Asked("advance", "Advance with a good key", "20 °"),
        ),
        needs=("engine", "slip"),
        taken=_nothing,
        answer=timing_answer,
        instead={"arc": ("slip",), "key_offset": ("slip",)},
    ),
    LEAK_DOWN: Room(
        key=LEAK_DOWN,
        words="leak-down",
        title="What a leak-down reading means",
        lead="The area of all leaks from a reading, and the reading a leak would give.",
        fields=(
            Asked("reading", "Reading behind the orifice", "70 psi"),
            Asked("leak", "Or a leak, to see what it reads", "0.4 mm²"),
            Asked("supply", "Supply before the orifice", "80 psi"),
            Asked("orifice", "Diameter of the orifice", "0.040 in"),
            HEIGHT,
        ),
        needs=("reading",),
        taken=lambda _: {"supply": USUAL_SUPPLY, "orifice": USUAL_ORIFICE},
        answer=leak_down_answer,
        instead={"leak": ("reading",)},
    ),
    COMPRESSION: Room(
        key=COMPRESSION,
        words="compression",
        title="What a compression gauge should read",
        lead="While the cord is pulled, with no compression release: a first guess.",
        fields=(
            ENGINE,
            HEIGHT,
            Asked("hose", "Hose, when its valve is at the gauge", "4 cm³"),
            Asked("compression", "Compression ratio, if known", "8.5"),
        ),
        needs=("engine", "height"),
        taken=_nothing,
        answer=compression_answer,
    ),
    JET: Room(
        key=JET,
        words="main jet",
        title="The jet for thinner or warmer air",
        lead="How much richer the old jet runs, and which one gives the old mixture.",
        fields=(
            HEIGHT,
            Asked("jet", "The jet that was right", "0.70 mm"),
            Asked("temperature", "Temperature of the air", "30 °C"),
            Asked("from_height", "Height where it was right", "0 m"),
            Asked("from_temperature", "Temperature there", "15 °C"),
        ),
        needs=("height", "jet"),
        taken=lambda _: {"from_height": "0 m"},
        answer=jet_answer,
    ),
}
