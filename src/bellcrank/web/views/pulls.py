"""The view of one pull of the cord: whose it is, what happened in it, or that it is being worked out."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from bellcrank.engine.slip import slip_words
from bellcrank.engine.slip_table import State
from bellcrank.figures.pull_trace import pull_trace
from bellcrank.knowledge.model import Library
from bellcrank.shop.cords import CORD_CAUTIONS
from bellcrank.shop.one_pull import OnePull, PullAsked
from bellcrank.web.views.numbers import Question, Tap
from bellcrank.web.views.plain import NO_PROBLEM, Problem

HERE, CORD_BENCH = "/numbers/pull", "/numbers/cord"
FROM_A_CORD = re.compile(r"/(numbers|jobs/\d{1,10})/cord(\?[\w=&%+.~-]*)?")  # where a way back may lead
SLIPS = ("0", "-12", "-25", "-45", "-60", "-90", "25", "60", "90", "180")  # [°]
STATES = {
    State.SOUND.value: "good",
    State.BLADE_LOOSE.value: "blade loose",
    State.RELEASE_DEAD.value: "release dead",
    State.BOTH.value: "blade loose, release dead",
}
IGNITIONS = {"module": "module", "points": "breaker points"}


@dataclass(frozen=True, slots=True)
class PullPage:
    """One pull."""

    title: str
    back: str
    questions: tuple[Question, ...]
    cautions: tuple[str, ...]
    waiting: bool
    again: str  # the address of this very pull
    eyebrow: str
    outcome: str
    drawing: str
    notes: tuple[str, ...]
    problem: Problem


def pull_page(
    library: Library,
    typed: Mapping[str, str],
    asked: PullAsked | None = None,
    pull: OnePull | None = None,
    problem: Problem = NO_PROBLEM,
) -> PullPage:
    """Lay out a pull; asked for and not there, it is being worked out."""
    drawn = pull_trace(pull.seconds, pull.speed_rpm, pull.pressure_kpa, pull.cord_force_n, pull.events) if pull else ""
    back = typed.get("back", "")
    return PullPage(
        title="One pull of the cord",
        back=back if FROM_A_CORD.fullmatch(back) else CORD_BENCH,
        questions=_questions(library, typed, asked),
        cautions=pull.cautions if pull else CORD_CAUTIONS,
        waiting=asked is not None and pull is None,
        again=f"{HERE}?{urlencode(typed)}",
        eyebrow=f"{pull.engine}, flywheel {pull.slip}" if pull else "",
        outcome=pull.outcome if pull else "",
        drawing=drawn,
        notes=pull.notes if pull else (),
        problem=problem,
    )


def _questions(library: Library, typed: Mapping[str, str], asked: PullAsked | None) -> tuple[Question, ...]:
    engines = {card.id: card.words for pack in library.packs.values() for card in pack.engine_cards}
    slips = {f"{one} °": slip_words(math.radians(int(one))) for one in SLIPS}
    now = {name: typed.get(name, "") for name in ("engine", "slip", "state", "ignition")}
    if asked:
        now |= {"slip": f"{asked.slip} °", "state": asked.state.value, "ignition": asked.ignition}
    given: tuple[tuple[str, str, Mapping[str, str]], ...] = (
        ("engine", "The engine", engines),
        ("slip", "The flywheel stands", slips),
        ("state", "Blade and release", STATES),
        ("ignition", "What times the spark", IGNITIONS),
    )
    first_open = next((name for name in ("engine", "slip") if not now[name]), "")
    said = now | ({"back": typed["back"]} if typed.get("back") else {})
    return tuple(
        Question(
            key=name,
            words=words,
            answer=choices.get(now[name]) or (slip_words(math.radians(asked.slip)) if asked and name == "slip" else ""),
            taps=tuple(
                Tap(shown, f"{HERE}?{urlencode({**said, name: value})}", now[name] == value)
                for value, shown in choices.items()
            ),
            open=name == first_open,
        )
        for name, words, choices in given
    )
