"""Reading what the cord did from what was typed, and what it says of the flywheel."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from bellcrank.engine.card import EngineCard
from bellcrank.engine.slip import slip_words
from bellcrank.engine.slip_belief import (
    IN_PLACE_EXPLAINED,
    Explanation,
    Felt,
    KeyState,
    Known,
    SlipBelief,
    believe,
)
from bellcrank.engine.slip_table import JERKS, SlipTable, State
from bellcrank.engine.timing import Spark, sparks
from bellcrank.errors import NotUnderstood
from bellcrank.knowledge.model import Library
from bellcrank.shop.engines import engine_named
from bellcrank.stats.share import Share, share_of

CORD_CAUTIONS = (
    "No further pulls on a cord that jerks until key and blade were looked at: it breaks fingers and wrists.",
    "Plug lead off and tied back before a hand goes to blade or flywheel.",
)
CORD_NOTES = (
    "How often an engine kicks is computed for engines all over the card's ranges; nobody has measured it.",
    "A leaky cylinder or a release that stays open hides a slipped flywheel: no kick proves little.",
    "What is believed before a pull (key, blade, release) is a guess: say what was looked at, it counts for more.",
)
YES_NO = {"yes": True, "no": False}
TIGHT = {"tight": True, "loose": False}
WORKS = {"works": True, "dead": False}
FITS_NOTHING = 1e-4  # [-] chance of what was felt below which it is said to fit nothing well
LOOK_AT_KEY = (
    "Look at the key: nut off, do the keyways' edges line up? With the piston at the top, measure the slip at the rim."
)
NEXT_LOOKS: Mapping[Explanation, str] = {
    Explanation.EARLY: LOOK_AT_KEY,
    Explanation.LATE: LOOK_AT_KEY,
    Explanation.BLADE_LOOSE: "Rock the blade against the flywheel: does it move alone?",
    Explanation.BOTH: "Rock the blade against the flywheel: does it move alone?",
    Explanation.RELEASE_DEAD: "Plug lead off, pull slowly: does it let a hiss through on the way up, or is it hard all "
    "the way?",
    Explanation.NEITHER: "Nothing points at flywheel, blade or release: go on with fuel, spark and compression.",
}
COUNTED_CHECK = "count-jerks"  # of a pack: how many pulls in ten jerked
COUNTED_RESULTS = (
    ("seldom", 0.25),
    ("often", 0.55),
    ("mostly", 1.0),
)  # up to such a share of the pulls; none is "none"
STATE_EXPLAINED = {explanation: state for state, explanation in IN_PLACE_EXPLAINED.items()}
MOSTLY = 0.95  # [-] belief that is told alone
BLADE_FIRST = 0.1  # [-] belief from which the two-minute look at the blade comes before the nut


@dataclass(frozen=True, slots=True)
class CordTold:
    """What the cord told of an engine."""

    card: EngineCard
    table: SlipTable
    felt: Felt | None
    known: Known
    belief: SlipBelief
    sparks: tuple[Spark, Spark]  # where the likeliest slip puts them
    jerks: Share | None  # of the pulls that were counted

    @property
    def fits(self) -> bool:
        """Whether something explains what was felt well enough."""
        return self.belief.expected > FITS_NOTHING

    @property
    def likeliest(self) -> tuple[Explanation, float]:
        """What explains it best."""
        return self.belief.explained[0]

    @property
    def next_look(self) -> str:
        """What to look at next: the blade first while it may be it, for it takes two minutes and no nut."""
        chances = dict(self.belief.explained)
        blade = chances[Explanation.BLADE_LOOSE] + chances[Explanation.BOTH]
        best = self.likeliest[0]
        if self.known.blade_tight is None and blade > BLADE_FIRST and best is not Explanation.NEITHER:
            return NEXT_LOOKS[Explanation.BLADE_LOOSE]
        return NEXT_LOOKS[best]

    @property
    def ranges_words(self) -> str:
        """Where the flywheel sits, in words; a range holds nine tenths of the belief that it has slipped."""
        here = self.belief.in_place
        if here > MOSTLY:
            return "in its place"
        slipped = " or ".join(_range_words(low, high) for low, high in self.belief.ranges)
        return slipped if here < 1 - MOSTLY else f"in its place ({here:.0%}), or slipped: {slipped}"

    def computed_jerks(self) -> tuple[float, float]:
        """Give how often such engines jerk if the likeliest explanation holds: nine of ten engines lie between."""
        low, _, high = self.table.band(JERKS, STATE_EXPLAINED.get(self.likeliest[0], State.SOUND))
        at = int(np.argmin(np.abs(self.table.slips - self.belief.likeliest)))
        return float(low[at]), float(high[at])


def cord_from_words(library: Library, typed: Mapping[str, str]) -> CordTold:
    """Read an engine with what the cord did and what was looked at, and say where the flywheel probably sits."""
    card = engine_named(library, typed.get("engine", ""))
    felt, known = _felt(typed), _known(typed)
    table = library.slip_tables[card.id]
    belief = believe(table, felt, known)
    jerks = share_of(felt.jerks, felt.pulls) if felt is not None and felt.jerks is not None else None
    here = sparks(card.advance.value, belief.likeliest, card.valves, card.drive, card.gap.value)
    return CordTold(card, table, felt, known, belief, here, jerks)


def counted_result(felt: Felt) -> str | None:
    """Give the result of the check :data:`COUNTED_CHECK` that so many jerks are; none when they were not counted."""
    if felt.jerks is None:
        return None
    if felt.jerks == 0:
        return "none"
    share = felt.jerks / felt.pulls
    return next(result for result, most in COUNTED_RESULTS if share <= most)


def _felt(typed: Mapping[str, str]) -> Felt | None:
    asked = ("jerks", "solids", "starts", "pops", "unsteady")
    if not any(typed.get(name) for name in asked):
        return None
    if not typed.get("of"):
        raise NotUnderstood("Say of how many pulls, like “10”, beside what they did.", "of")
    return Felt(
        pulls=_count(typed, "of") or 0,
        jerks=_count(typed, "jerks"),
        solids=_count(typed, "solids"),
        starts=_count(typed, "starts"),
        pops=_choice(typed, "pops", YES_NO),
        unsteady=_choice(typed, "unsteady", YES_NO),
    )


def _known(typed: Mapping[str, str]) -> Known:
    key = typed.get("key") or KeyState.NOT_LOOKED.value
    if key not in list(KeyState):
        raise NotUnderstood(f"Key “{key}” is not known. It must be one of: {', '.join(KeyState)}.", "key")
    points = {"points": True, "module": False}
    return Known(
        key=KeyState(key),
        struck=_choice(typed, "struck", YES_NO),
        blade_tight=_choice(typed, "blade", TIGHT),
        release_works=_choice(typed, "release", WORKS),
        points=bool(_choice(typed, "ignition", points)),
    )


def _count(typed: Mapping[str, str], name: str) -> int | None:
    told = typed.get(name, "")
    if not told:
        return None
    if not told.isdecimal() or len(told) > 4:
        raise NotUnderstood(f"“{told}” is no count of pulls. Type a whole number, like 3.", name)
    return int(told)


def _choice(typed: Mapping[str, str], name: str, choices: Mapping[str, bool]) -> bool | None:
    told = typed.get(name, "")
    if not told:
        return None
    if told not in choices:
        raise NotUnderstood(f"“{told}” is not known here. It must be one of: {', '.join(choices)}.", name)
    return choices[told]


def _range_words(low: float, high: float) -> str:
    if low == high:
        return "in its place" if low == 0 else slip_words(low)
    ends = round(math.degrees(abs(low))), round(math.degrees(abs(high)))
    if high <= 0:
        return f"{ends[1]}° to {ends[0]}° early"
    if low >= 0:
        return f"{ends[0]}° to {ends[1]}° late"
    return f"{ends[0]}° early to {ends[1]}° late"
