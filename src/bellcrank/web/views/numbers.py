"""The view of a torque computed without a job: three taps, the answer, and where it may be put."""

from dataclasses import dataclass
from urllib.parse import urlencode

from bellcrank.both_systems import second_unit, show_torque, torque_window
from bellcrank.errors import BellcrankError
from bellcrank.fastening.heads import HEADS
from bellcrank.fastening.threads import ThreadSystem, parse_thread
from bellcrank.fastening.ways import SCATTER
from bellcrank.fastening.window import TorqueWindow
from bellcrank.knowledge.assembly import Fastener
from bellcrank.knowledge.model import Library
from bellcrank.shop.numbers import A_NUT
from bellcrank.shop.rooms import ROOMS
from bellcrank.web.views.plain import NO_PROBLEM, Problem

TAPS = ("thread", "strength", "into")  # what an answer needs
FURTHER = ("under", "engaged", "head", "head_across", "hole", "friction", "head_friction", "tightened_by", "galvanised")
PLACE = ("job", "fastener", "way", "step")  # of the step an answer may be put into

THREADS = ("M4", "M5", "M6", "M8", "M10", "M12", "#10-24", "1/4-20", "1/4-28", "5/16-18", "3/8-16", "3/8-24")
MARKS = {  # by family of threads; what is seen on the head
    ThreadSystem.METRIC: {
        "unmarked": "no mark",
        "4.8": "4.8",
        "8.8": "8.8",
        "10.9": "10.9",
        "12.9": "12.9",
        "A2-70": "A2-70, stainless",
    },
    ThreadSystem.UNIFIED: {
        "unmarked": "no mark",
        "G5": "3 lines, grade 5",
        "G8": "6 lines, grade 8",
        "A2-70": "A2-70, stainless",
    },
}
INTO = ("cast-aluminium", "grey-iron", "mild-steel", "zinc", "wrought-aluminium")
OWN_HAND = "own hand"  # a way of tightening whose scatter was measured
WAYS = {"torque wrench": "torque wrench, oiled thread", "hand feel": "by hand feel"}


@dataclass(frozen=True, slots=True)
class Tap:
    """One choice of a question."""

    words: str
    address: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Question:
    """One of the three questions, folded away once it is answered."""

    key: str
    words: str
    answer: str
    taps: tuple[Tap, ...]
    open: bool


@dataclass(frozen=True, slots=True)
class WindowView:
    """A computed torque window."""

    target: str
    other: str
    window: str
    basis: str
    governs: str
    widen: str
    assumptions: tuple[str, ...]
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StepPlace:
    """The step of a job an answer may be put into."""

    number: int
    fastener_words: str
    safety_joint: bool
    back: str


@dataclass(frozen=True, slots=True)
class NumbersPage:
    """The three questions for a torque nobody published, and its answer."""

    title: str
    rooms: tuple[tuple[str, str], ...]  # the other numbers, with their addresses
    questions: tuple[Question, ...]
    classes: tuple[tuple[str, str], ...]
    materials: tuple[tuple[str, str], ...]
    heads: tuple[str, ...]
    ways: tuple[tuple[str, str], ...]
    typed: dict[str, str]
    more_open: bool
    window: WindowView | None
    place: StepPlace | None
    problem: Problem

    def kept(self, name: str, otherwise: str = "") -> str:
        """Give back what was typed in a field."""
        return self.typed.get(name, otherwise)

    @property
    def carried(self) -> tuple[tuple[str, str], ...]:
        """What a form sends along of the step an answer may be put into."""
        return tuple((key, self.typed[key]) for key in PLACE if self.typed.get(key))

    @property
    def told(self) -> tuple[tuple[str, str], ...]:
        """Everything an answer was computed from, to compute it again when it is kept."""
        return tuple((key, self.typed[key]) for key in (*TAPS, *FURTHER, *PLACE) if self.typed.get(key))


def numbers_page(
    library: Library,
    typed: dict[str, str],
    window: WindowView | None = None,
    place: StepPlace | None = None,
    problem: Problem = NO_PROBLEM,
    *,
    own_hand: str = "",
) -> NumbersPage:
    """Lay out the questions, the answer, and the form for what is less common; ``own_hand`` is whose was measured."""
    return NumbersPage(
        title="Numbers",
        rooms=other_numbers(),
        questions=_questions(library, typed),
        classes=tuple((one.key, one.words) for one in library.strength_classes.values()),
        materials=tuple((one.key, one.words) for one in library.materials.values()),
        heads=HEADS,
        ways=(
            *((key, WAYS.get(key, key)) for key in SCATTER),
            *(((OWN_HAND, f"by {own_hand}'s own hand, as measured"),) if own_hand else ()),
        ),
        typed=typed,
        more_open=bool(problem.sentence),
        window=window,
        place=place,
        problem=problem,
    )


def other_numbers() -> tuple[tuple[str, str], ...]:
    """Give the numbers beside the torque with their addresses."""
    return (*((f"/numbers/{room.key}", room.words) for room in ROOMS.values()), ("/numbers/hand", "my own hand"))


def window_view(
    window: TorqueWindow, widen: str, unit: str, taken: tuple[str, ...], figures: tuple[str, ...]
) -> WindowView:
    """Lay out a computed window; ``taken`` says what was assumed because nothing was typed."""
    return WindowView(
        target=show_torque(window.target, unit),
        other=show_torque(window.target, second_unit(window.target, unit)),
        window=torque_window(window.low, window.high, unit),
        basis=window.basis,
        governs=window.governs,
        widen=widen,
        assumptions=(*taken, *window.assumptions),
        figures=figures,
    )


def step_place(number: int, fastener: Fastener, typed: dict[str, str]) -> StepPlace:
    """Give the way back to the step an answer may be put into."""
    way, step = typed.get("way", ""), typed.get("step", "")
    shown = f"?{urlencode({'way': way, 'step': step})}" if way and step.isdecimal() and len(step) < 5 else ""
    return StepPlace(number, fastener.words, fastener.safety_joint, f"/jobs/{number}/steps{shown}")


def _questions(library: Library, typed: dict[str, str]) -> tuple[Question, ...]:
    """Give the three questions; the first one not answered yet is open."""
    given = {
        "thread": ("The thread", tuple((name, name) for name in THREADS)),
        "strength": ("The mark on its head", _marks(library, typed.get("thread", ""))),
        "into": (
            "It screws into",
            (*((key, library.materials[key].words) for key in INTO), (A_NUT, "a nut")),
        ),
    }
    first_open = next((key for key in TAPS if not typed.get(key)), "")
    return tuple(
        Question(
            key=key,
            words=words,
            answer=_answer(library, key, typed.get(key, ""), dict(choices)),
            taps=tuple(Tap(said, _address(typed, key, value), typed.get(key) == value) for value, said in choices),
            open=key == first_open,
        )
        for key, (words, choices) in given.items()
    )


def _answer(library: Library, key: str, value: str, choices: dict[str, str]) -> str:
    if key == "strength" and value in library.strength_classes:
        return choices.get(value, library.strength_classes[value].words)
    if key == "into" and value in library.materials:
        return library.materials[value].words
    return choices.get(value, value)


def _marks(library: Library, thread: str) -> tuple[tuple[str, str], ...]:
    """Give the marks that screws of that thread are made with."""
    try:
        read = parse_thread(thread)
    except BellcrankError:
        return tuple({**MARKS[ThreadSystem.METRIC], **MARKS[ThreadSystem.UNIFIED]}.items())
    return tuple(
        (key, words)
        for key, words in MARKS[read.system].items()
        if any(one.min_diameter <= read.diameter <= one.max_diameter for one in library.strength_classes[key].ranges)
    )


def _address(typed: dict[str, str], key: str, value: str) -> str:
    """Give the address of this page with one answer changed; another family of threads has other marks."""
    said = {name: typed[name] for name in (*TAPS, *FURTHER, *PLACE) if typed.get(name)} | {key: value}
    if key == "thread" and "strength" in said and not _same_family(typed.get("thread", ""), value):
        del said["strength"]
    return f"/numbers?{urlencode(said)}"


def _same_family(one: str, other: str) -> bool:
    return one.strip()[:1].upper() == "M" if other.startswith("M") else one.strip()[:1].upper() != "M"
