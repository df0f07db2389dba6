"""The views of the numbers bench beside the torque: what strips a thread, what a taper holds; three taps each."""

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from bellcrank.fastening.pull_out import StripAnswer
from bellcrank.knowledge.model import Library
from bellcrank.shop.tapers import SeatedTaper
from bellcrank.shop.words import both_forces, both_torques
from bellcrank.units import convert
from bellcrank.web.views.numbers import INTO, THREADS, Question, Tap
from bellcrank.web.views.plain import NO_PROBLEM, Problem

METRIC_LENGTHS = ("6 mm", "8 mm", "10 mm", "12 mm", "15 mm", "20 mm")
INCH_LENGTHS = ("1/4 in", "5/16 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in")
TAPERS = ("1:5", "1:6", "1:8", "1:10", "1.5 in/ft")
MEAN_DIAMETERS = ("14 mm", "16 mm", "18 mm", "20 mm", "22 mm", "25 mm")
NUT_FORCES = ("10 kN", "15 kN", "20 kN", "25 kN", "30 kN", "40 kN")


@dataclass(frozen=True, slots=True)
class Field:
    """Something that may be typed instead of tapped."""

    name: str
    label: str
    example: str


@dataclass(frozen=True, slots=True)
class AnswerView:
    """An answer in the form of every number here: the figure, what belongs to it, and what it rests on."""

    lead: str
    figure: str
    lines: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OtherPage:
    """Three questions and their answer."""

    title: str
    here: str
    lead: str
    questions: tuple[Question, ...]
    fields: tuple[Field, ...]
    typed: dict[str, str]
    answer: AnswerView | None
    problem: Problem

    def kept(self, name: str) -> str:
        """Give back what was typed in a field."""
        return self.typed.get(name, "")


STRIP_FIELDS = (
    Field("thread", "Thread", "M6 or 1/4-20"),
    Field("into", "Screws into", "die-cast aluminium"),
    Field("engaged", "Full thread engaged", "10 mm or 3/8 in"),
    Field("strength", "Mark of the screw, to judge its own thread", "8.8 or G5"),
    Field("boss", "Width of the boss, near an edge", "14 mm"),
    Field("hole", "Measured inside a worn thread", "5.2 mm"),
)
TAPER_FIELDS = (
    Field("ratio", "Taper", "1:8 or 1.5 in/ft"),
    Field("mean_diameter", "Diameter half way along", "20 mm"),
    Field("nut_force", "Push of the nut", "20 kN"),
    Field("length", "Length of the contact", "25 mm"),
    Field("friction", "Friction (oily 0.10, clean 0.15, dry 0.20)", "0.15"),
)


def strip_page(
    library: Library, typed: dict[str, str], answer: AnswerView | None = None, problem: Problem = NO_PROBLEM
) -> OtherPage:
    """Lay out the questions for a thread that may strip."""
    thread = typed.get("thread", "")
    lengths = METRIC_LENGTHS if thread[:1].upper() in ("M", "") else INCH_LENGTHS
    given = {
        "thread": ("The thread", _same(THREADS)),
        "into": ("It screws into", {key: library.materials[key].words for key in INTO}),
        "engaged": ("Full thread engaged", _same(lengths)),
    }
    return OtherPage(
        title="What strips the thread",
        here="/numbers/strip",
        lead="The pull at which a screw tears its thread out.",
        questions=_questions("/numbers/strip", typed, given, STRIP_FIELDS),
        fields=STRIP_FIELDS,
        typed=typed,
        answer=answer,
        problem=problem,
    )


def taper_page(typed: dict[str, str], answer: AnswerView | None = None, problem: Problem = NO_PROBLEM) -> OtherPage:
    """Lay out the questions for a hub on its taper."""
    given = {
        "ratio": ("The taper", _same(TAPERS)),
        "mean_diameter": ("Diameter half way along", _same(MEAN_DIAMETERS)),
        "nut_force": ("Push of the nut", _same(NUT_FORCES)),
    }
    return OtherPage(
        title="What a taper holds",
        here="/numbers/taper",
        lead="A flywheel or hub pushed onto its taper by a nut: what it carries, and what pulls it off.",
        questions=_questions("/numbers/taper", typed, given, TAPER_FIELDS),
        fields=TAPER_FIELDS,
        typed=typed,
        answer=answer,
        problem=problem,
    )


def strip_answer(found: StripAnswer) -> AnswerView:
    """Lay out what strips."""
    return AnswerView(
        lead="count on",
        figure=both_forces(found.strip_force_low),
        lines=(
            ("new, full thread", both_forces(found.strip_force)),
            ("worn, loose thread", f"{both_forces(found.worn_bound)} at the least"),
            ("tears first", f"the {found.gives_way}'s thread"),
        ),
        notes=found.notes,
    )


def taper_answer(found: SeatedTaper, taken: tuple[str, ...]) -> AnswerView:
    """Lay out what a taper holds; ``taken`` is what the page took because it was not told."""
    seat = found.seat
    return AnswerView(
        lead="first slips at",
        figure=both_torques(seat.slip_torque_low),
        lines=(
            ("once settled", both_torques(seat.slip_torque_high)),
            ("pulls off with", both_forces(seat.release_force)),
            ("fretted, with", f"{both_forces(found.fretted_low)} to {both_forces(found.fretted_high)}"),
            ("pressure", f"{convert(seat.pressure, 'MPa', 'pressure'):.0f} MPa"),
        ),
        notes=(*taken, *found.notes),
    )


def _same(words: tuple[str, ...]) -> dict[str, str]:
    return {one: one for one in words}


def _questions(
    here: str, typed: Mapping[str, str], given: Mapping[str, tuple[str, dict[str, str]]], fields: tuple[Field, ...]
) -> tuple[Question, ...]:
    """Give the questions; the first one not answered yet is open."""
    first_open = next((key for key in given if not typed.get(key)), "")
    said = {field.name: typed[field.name] for field in fields if typed.get(field.name)}
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
    )
