"""The views of the numbers bench beside the torque: three taps each, the answer, and the step it may be put into."""

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from bellcrank.knowledge.model import Library
from bellcrank.shop.answers import Answered
from bellcrank.shop.cords import CORD_CAUTIONS, CordTold
from bellcrank.shop.engine_rooms import COMPRESSION, CORD, GOVERNOR, JET, LEAK_DOWN, SPARK, TIMING
from bellcrank.shop.room import Asked, Room
from bellcrank.shop.rooms import BLOW, KEY, PULL, STRIP, TAPER
from bellcrank.web.views.cord import CordView, cord_eyebrow, cord_view
from bellcrank.web.views.numbers import INTO, THREADS, Question, Tap, other_numbers
from bellcrank.web.views.plain import NO_PROBLEM, Problem

PLACE = ("job", "operation", "way", "step")  # of the step an answer may be put into
METRIC_LENGTHS = ("6 mm", "8 mm", "10 mm", "12 mm", "15 mm", "20 mm")
INCH_LENGTHS = ("1/4 in", "5/16 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in")
MEAN_DIAMETERS = ("14 mm", "16 mm", "18 mm", "20 mm", "22 mm", "25 mm")
CHOICES = {  # common ones, said as they are typed
    "thread": THREADS,
    "bolt": ("M6", "M8", "1/4-20", "5/16-18"),
    "ratio": ("1:5", "1:6", "1:8", "1:10", "1.5 in/ft"),
    "mean_diameter": MEAN_DIAMETERS,
    "shaft": MEAN_DIAMETERS,
    "key": ("505", "605", "606", "807", "3x5", "4x6.5"),
    "nut_torque": ("40 N·m", "60 N·m", "80 N·m", "100 N·m", "30 ft·lb", "45 ft·lb", "60 ft·lb", "75 ft·lb"),
    "reading": ("75 psi", "70 psi", "65 psi", "60 psi", "50 psi", "40 psi", "20 psi"),
    "height": ("0 m", "500 m", "1000 m", "1500 m", "2000 m", "3000 m"),
    "jet": ("0.55 mm", "0.60 mm", "0.65 mm", "0.70 mm", "0.75 mm", "0.80 mm"),
    "no_load": ("2800 rpm", "3000 rpm", "3200 rpm", "3400 rpm", "3600 rpm", "3800 rpm"),
    "loaded": ("2700 rpm", "2800 rpm", "2900 rpm", "3000 rpm", "3200 rpm", "3400 rpm", "3600 rpm"),
    "gap": ("0.5 mm", "0.6 mm", "0.7 mm", "0.75 mm", "0.8 mm", "1 mm"),
    "tester": ("3 mm", "5 mm", "6 mm", "8 mm", "10 mm"),
    "flywheel_mass": ("1.5 kg", "2 kg", "2.5 kg", "3 kg", "3.5 kg"),
    "jerks": ("0", "1", "2", "3", "4", "5", "6", "8", "10"),
    "of": ("5", "10", "15", "20", "30"),
}
KEY_MATERIALS = ("key-steel", "zinc-3", "zinc-5", "aluminium-6061", "aluminium-2024")
SLIPS = {
    "-12 °": "forward by half a key, 12°",
    "-25 °": "forward by a key's width, 25°",
    "-60 °": "forward, 60°",
    "-90 °": "forward, a quarter turn",
    "25 °": "back by a key's width, 25°",
    "90 °": "back, a quarter turn",
    "180 °": "half a turn",
}
STOPS = {
    "15 °": "dead: a stake or a kerb, 15°",
    "45 °": "hard: a root or a pipe, 45°",
    "90 °": "a quarter turn, 90°",
    "180 °": "half a turn, 180°",
}
SWINGS = {
    "steady": "steady",
    "evenly": "swinging quickly and evenly",
    "calms with choke": "surging, calmer with a little choke",
    "sticks": "wandering, or it stays where it was pushed",
}
QUESTIONS: Mapping[str, Mapping[str, str]] = {  # of each room, in the order they are asked
    STRIP: {"thread": "The thread", "into": "It screws into", "engaged": "Full thread engaged"},
    TAPER: {"ratio": "The taper", "mean_diameter": "Diameter half way along", "nut_torque": "Torque on the nut"},
    KEY: {"key": "The key", "shaft": "Shaft at the key", "key_material": "What it is made of"},
    PULL: {
        "nut_torque": "Torque that was on the nut",
        "bolt": "Bolts into the flywheel",
        "engaged": "Full thread engaged",
    },
    BLOW: {
        "stop_angle": "It stopped",
        "nut_torque": "Torque that was on the nut",
        "flywheel_mass": "The flywheel weighs",
    },
    TIMING: {"engine": "The engine", "slip": "The flywheel stands"},
    LEAK_DOWN: {"reading": "The gauge behind the orifice reads"},
    COMPRESSION: {"engine": "The engine", "height": "Height above the sea"},
    JET: {"height": "Height above the sea", "jet": "The jet that was right"},
    GOVERNOR: {"no_load": "Speed without load", "loaded": "Speed with full load", "swings": "With nothing to do it is"},
    SPARK: {"engine": "The engine", "gap": "Gap of the plug", "tester": "Gap of the tester, where there is one"},
    CORD: {"engine": "The engine", "jerks": "Pulls that jerked the cord back", "of": "Of how many pulls"},
}


@dataclass(frozen=True, slots=True)
class OperationPlace:
    """The step of a job an answer may be put into."""

    number: int
    do: str
    back: str


@dataclass(frozen=True, slots=True)
class JobPlace:
    """The job whose machine is asked about, and what it says already."""

    number: int
    here: str
    back: str
    known: tuple[str, ...]
    keeps: bool  # whether its pack has a place for the answer


@dataclass(frozen=True, slots=True)
class OtherPage:
    """Three questions and their answer."""

    title: str
    here: str
    lead: str
    first_cautions: tuple[str, ...]  # what is said before anything is asked
    rooms: tuple[tuple[str, str], ...]  # the others, with their addresses
    questions: tuple[Question, ...]
    eyebrow: str  # over the answer: what was asked, what the figure is
    cord: CordView | None  # beside the answer, where it is the cord's
    fields: tuple[Asked, ...]
    typed: dict[str, str]
    told: tuple[tuple[str, str], ...]  # what the answer is computed from again when it is kept
    answer: Answered | None
    taken: tuple[str, ...]
    drawings: tuple[str, ...]
    place: OperationPlace | JobPlace | None
    problem: Problem

    def kept(self, name: str) -> str:
        """Give back what was typed in a field."""
        return self.typed.get(name, "")

    @property
    def lines(self) -> tuple[tuple[str, str], ...]:
        """What belongs to the answer, but for what stands with bars beside it."""
        lines = self.answer.lines if self.answer else ()
        return lines[len(self.cord.explained) :] if self.cord else lines

    @property
    def carried(self) -> tuple[tuple[str, str], ...]:
        """What a form sends along of the step an answer may be put into."""
        return tuple((key, self.typed[key]) for key in PLACE if self.typed.get(key))


def other_page(
    library: Library,
    room: Room,
    typed: dict[str, str],
    place: OperationPlace | JobPlace | None = None,
    answer: Answered | None = None,
    drawings: tuple[str, ...] = (),
    problem: Problem = NO_PROBLEM,
) -> OtherPage:
    """Lay out the questions of a room, and the answer when there is one."""
    here = place.here if isinstance(place, JobPlace) else f"/numbers/{room.key}"
    asked = _questions(room, here, typed, _given(library, room, typed))
    return OtherPage(
        title=room.title,
        here=here,
        lead=room.lead,
        first_cautions=CORD_CAUTIONS if room.key == CORD else (),
        rooms=other_numbers(),
        questions=asked,
        eyebrow=_eyebrow(asked, answer),
        cord=cord_view(answer.found, here, room.told(typed)) if answer and isinstance(answer.found, CordTold) else None,
        fields=room.fields,
        typed=typed,
        told=tuple(room.told(typed).items()),
        answer=answer,
        taken=room.taken_words(typed) if answer else (),
        drawings=drawings,
        place=place,
        problem=problem,
    )


def _eyebrow(asked: tuple[Question, ...], answer: Answered | None) -> str:
    if answer is None:
        return ""
    if isinstance(answer.found, CordTold):
        return cord_eyebrow(answer.found)
    told = ", ".join(one.answer for one in asked if one.answer)
    return f"{told}: {answer.lead}" if answer.lead else told


def operation_place(number: int, do: str, typed: Mapping[str, str]) -> OperationPlace:
    """Give the way back to the step an answer may be put into."""
    way, step = typed.get("way", ""), typed.get("step", "")
    shown = f"?{urlencode({'way': way, 'step': step})}" if way and step.isdecimal() and len(step) < 5 else ""
    return OperationPlace(number, do, f"/jobs/{number}/steps{shown}")


def _given(library: Library, room: Room, typed: Mapping[str, str]) -> dict[str, tuple[str, dict[str, str]]]:
    """Give the questions of a room with the common choices of each."""
    thread = typed.get("thread") or typed.get("bolt") or ""
    choices: dict[str, Mapping[str, str]] = {
        **{name: dict(zip(words, words, strict=True)) for name, words in CHOICES.items()},
        "into": {key: library.materials[key].words for key in INTO},
        "key_material": {key: library.drive_materials[key].words for key in KEY_MATERIALS},
        "engaged": {length: length for length in (METRIC_LENGTHS if thread[:1].upper() in ("M", "") else INCH_LENGTHS)},
        "stop_angle": STOPS,
        "slip": SLIPS,
        "swings": SWINGS,
        "engine": {card.id: card.words for pack in library.packs.values() for card in pack.engine_cards},
    }
    return {name: (words, dict(choices[name])) for name, words in QUESTIONS[room.key].items()}


def _questions(
    room: Room, here: str, typed: Mapping[str, str], given: Mapping[str, tuple[str, dict[str, str]]]
) -> tuple[Question, ...]:
    """Give the questions; the first one not answered yet is open, and none whose answer was told another way."""
    replaced = room.replaced(typed)
    first_open = next((key for key in given if not typed.get(key) and key not in replaced), "")
    said = room.told(typed) | {name: typed[name] for name in PLACE if typed.get(name)}
    return tuple(
        Question(
            key=key,
            words=words,
            answer=choices.get(typed.get(key, ""), typed.get(key, "")),
            taps=tuple(
                Tap(shown, f"{here}?{urlencode(said | {key: value})}", typed.get(key) == value)
                for value, shown in choices.items()
            ),
            open=key == first_open,
        )
        for key, (words, choices) in given.items()
        if key not in replaced
    )
