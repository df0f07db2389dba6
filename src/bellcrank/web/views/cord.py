"""What may still be said of the cord once it has told something, and where one such pull is shown."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from bellcrank.engine.slip_belief import Explanation
from bellcrank.engine.slip_table import State
from bellcrank.shop.cord_answers import explained_lines
from bellcrank.shop.cords import CordTold
from bellcrank.web.views.numbers import Question, Tap

COUNTS = {one: one for one in ("0", "1", "2", "3", "5")}
YES_NO = {"yes": "yes", "no": "no"}
Choices = Mapping[str, tuple[str, Mapping[str, str]]]  # what may be said, in words, and how
LOOKED_AT: Choices = {
    "key": ("The key, nut off, is", {"whole": "whole", "bruised": "bruised", "sheared": "sheared"}),
    "blade": ("The blade, rocked by hand, is", {"tight": "tight", "loose": "loose"}),
    "struck": ("The blade hit something", YES_NO),
    "release": ("The compression release", {"works": "works", "dead": "does nothing"}),
}
FELT_TOO: Choices = {
    "starts": ("Pulls after which it ran", COUNTS),
    "solids": ("Pulls in which the cord went solid", COUNTS),
    "pops": ("It popped through the carburettor", YES_NO),
    "unsteady": ("When it ran, it ran unsteadily", YES_NO),
    "ignition": ("What times the spark", {"module": "module", "points": "breaker points"}),
}
NOT_SAID = "not known"
STATES = {  # what the likeliest explanation has wrong beside the flywheel
    Explanation.BLADE_LOOSE: State.BLADE_LOOSE,
    Explanation.RELEASE_DEAD: State.RELEASE_DEAD,
    Explanation.BOTH: State.BOTH,
}


@dataclass(frozen=True, slots=True)
class Explained:
    """What may explain it, with a bar."""

    words: str
    percent: str
    bar: str


@dataclass(frozen=True, slots=True)
class CordView:
    """What stands with an answer of the cord: what explains it, what would narrow it, one such pull."""

    explained: tuple[Explained, ...]
    looked_at: tuple[Question, ...]
    felt_too: tuple[Question, ...]
    one_pull: str  # where it is shown

    @property
    def felt_said(self) -> bool:
        """Whether something more was said of what was felt."""
        return any(one.answer for one in self.felt_too)


def cord_view(told: CordTold, here: str, said: Mapping[str, str]) -> CordView:
    """Lay out what stands with the answer; ``said`` is what it was asked with."""
    return CordView(
        explained=tuple(Explained(words, chance, chance.removesuffix("%")) for chance, words in explained_lines(told)),
        looked_at=_questions(here, said, LOOKED_AT),
        felt_too=_questions(here, said, FELT_TOO),
        one_pull=pull_address(told, here, said),
    )


def cord_eyebrow(told: CordTold) -> str:
    """Say what was counted, over what explains it best."""
    chance = f"{told.likeliest[1]:.0%} likely"
    jerks = told.jerks
    return f"{jerks.count} of {jerks.of} pulls jerked: {chance}" if jerks else chance


def _questions(here: str, said: Mapping[str, str], asked: Choices) -> tuple[Question, ...]:
    """Give what may still be said, folded away; what was said may be left unsaid again."""
    questions = []
    for key, (words, choices) in asked.items():
        now = said.get(key, "")
        offered = {**choices, **({"": NOT_SAID} if now else {})}
        taps = tuple(
            Tap(shown, f"{here}?{urlencode({**said, key: value})}", bool(value) and now == value)
            for value, shown in offered.items()
        )
        questions.append(Question(key, words, choices.get(now, now), taps, open=False))
    return tuple(questions)


def pull_address(told: CordTold, here: str, said: Mapping[str, str]) -> str:
    """Give where one pull of the likeliest explanation is shown, with the way back to what was said."""
    asked = {
        "engine": told.card.id,
        "slip": f"{math.degrees(told.belief.likeliest):.0f} °",
        "state": str(STATES.get(told.likeliest[0], State.SOUND)),
        "ignition": "points" if told.known.points else "module",
    }
    return f"/numbers/pull?{urlencode({**asked, 'back': f'{here}?{urlencode(said)}'})}"
