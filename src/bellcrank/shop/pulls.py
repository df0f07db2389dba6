"""Pulling an engine's cord by computation: reading what was typed, and what came of so many pulls.

Imports the compiled equations; a face asks for this file only when somebody wants pulls.
"""

import math
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from bellcrank.engine.card import QUANTITIES, EngineCard, OperatorCard
from bellcrank.engine.pull.draw import DrawnPulls, draw_pulls
from bellcrank.engine.pull.many import (
    Outcome,
    PullRates,
    PullTrace,
    outcome_of,
    rates_of,
    run_pulls,
    trace_pull,
)
from bellcrank.engine.pull.places import EngineNumbers
from bellcrank.engine.pull.setting import Ignition, Setting, at_shares, engine_numbers, middle
from bellcrank.engine.slip import shortest
from bellcrank.engine.slip_table import COUNTED, State
from bellcrank.errors import NotFound, NotUnderstood, OutOfRange
from bellcrank.knowledge.model import Library
from bellcrank.shop.engines import air_from_words, engine_named, slip_from_words
from bellcrank.units import read_positive

MOST_PULLS = 100_000
USUAL_PULLS, USUAL_SEED = "400", "1"
PULL_CAUTIONS = (
    "Computed, not felt: a cord that jerks breaks fingers and wrists. No further pulls until key and blade were seen.",
)
PULL_NOTES = (
    "Sturdy: a late spark does not kick; 45° to 75° early does, with normal compression; where it cannot start.",
    "Not sturdy: how many in a hundred. It hangs on how many charges light (73 in 100 here, nobody has measured it), "
    "on heat, release and hand. Impulse and work at the handle are sure within a factor of five to ten.",
    "For one-cylinder four-strokes of 80 to 420 cm³ with the tool on the crank and a cord.",
)
OUTCOME_WORDS = {
    Outcome.NO_FIRE: "nothing fires",
    Outcome.FIRES_AND_DIES: "fires and dies",
    Outcome.CATCHES: "catches and runs",
    Outcome.KICKS_BACK: "kicks back",
    Outcome.GOES_SOLID: "cord goes solid",
}
SLIPS = ("slip", "arc", "key_offset")
STATE_OF = {  # by blade tight, release works
    (True, True): State.SOUND,
    (False, True): State.BLADE_LOOSE,
    (True, False): State.RELEASE_DEAD,
    (False, False): State.BOTH,
}
STEPS: tuple[float, ...] = (-90, -60, -30, -15, 0, 60, 90)  # [°] at which sensitivity is asked
SENSITIVITY_PULLS = 200


@dataclass(frozen=True, slots=True)
class PullsAsked:
    """An engine and so many pulls of somebody."""

    card: EngineCard
    operator: OperatorCard
    setting: Setting
    values: Mapping[str, float]
    drawn: DrawnPulls
    seed: int

    @property
    def engine(self) -> EngineNumbers:
        """The engine as the equations take it."""
        return engine_numbers(self.values, self.setting)


def pulls_from_words(library: Library, typed: Mapping[str, str]) -> PullsAsked:
    """Read an engine, its slip and state, who pulls, how often, and the seed of the draw."""
    card = engine_named(library, typed.get("engine", ""))
    name = typed.get("operator") or "usual"
    if name not in library.operators:
        raise NotFound(
            f"Nobody called “{name}” pulls here. It must be one of {', '.join(library.operators)}.", "operator"
        )
    pulls, seed = _whole(typed, "pulls", USUAL_PULLS), _whole(typed, "seed", USUAL_SEED)
    if not 1 <= pulls <= MOST_PULLS:
        raise OutOfRange(f"{pulls} pulls were asked for; it must be 1 to {MOST_PULLS:,}. Type another number.", "pulls")
    values = middle(card)
    if typed.get("advance"):
        values["advance"] = read_positive(typed["advance"], "angle", default="°", what="Advance").si
    operator = library.operators[name]
    drawn = draw_pulls(operator, pulls, np.random.default_rng(seed))
    return PullsAsked(card, operator, setting_from_words(typed), values, drawn, seed)


def setting_from_words(typed: Mapping[str, str]) -> Setting:
    """Read what is not on the card: slip, blade, release, ignition and air."""
    return Setting(
        slip=slip_from_words(typed) if any(typed.get(name) for name in SLIPS) else 0.0,
        blade_tight=_is(typed, "blade", "tight", "loose"),
        release_works=_is(typed, "release", "works", "dead"),
        ignition=Ignition.MODULE if _is(typed, "ignition", "module", "points") else Ignition.POINTS,
        air=air_from_words(typed.get("height", ""), typed.get("temperature", "") or "20 °C"),
    )


def pulled(asked: PullsAsked, workers: int, go_on: Callable[[int], bool] = lambda _: True) -> PullRates:
    """Pull and count; fewer pulls than asked for when it was stopped."""
    kept = run_pulls(asked.engine, asked.drawn, workers, go_on)
    return rates_of(kept, asked.drawn, asked.engine.inertia)


def over_the_range(library: Library, asked: PullsAsked) -> dict[str, tuple[float, float]]:
    """Give shares that nine of ten engines of the card's range lie between, at the nearest slip of its table."""
    setting = asked.setting
    state = STATE_OF[setting.blade_tight, setting.release_works]
    if setting.ignition is Ignition.POINTS:
        state = State.POINTS
    table = library.slip_tables[asked.card.id]
    here = int(np.argmin(np.abs(table.slips - shortest(setting.slip))))
    bands = {str(outcome): table.band(COUNTED.index(str(outcome)), state) for outcome in Outcome}
    return {name: (float(low[here]), float(high[here])) for name, (low, _, high) in bands.items()}


def typical_pull(asked: PullsAsked, workers: int) -> PullTrace:
    """Write down the first pull that ended as most of those that fired did."""
    kept = run_pulls(asked.engine, asked.drawn, workers)
    ends = [outcome_of(row) for row in kept]
    counted = Counter(end for end in ends if end is not Outcome.NO_FIRE)
    commonest = counted.most_common(1)[0][0] if counted else Outcome.NO_FIRE
    return trace_pull(asked.engine, asked.drawn, ends.index(commonest))


@dataclass(frozen=True, slots=True)
class Knob:
    """How far one of the card's values moves what is claimed, from its low end to its high."""

    name: str  # of the value
    slip: float  # [rad]
    kicks: tuple[float, float]  # per pull that can light, low and high [-]
    starts: tuple[float, float]
    pops: tuple[float, float]  # per pull


def sensitivity(library: Library, card: EngineCard, workers: int) -> Iterator[Knob]:
    """Turn every value of a card from its low end to its high, one at a time, with the same pulls."""
    operator = library.operators["usual"]
    drawn = draw_pulls(operator, SENSITIVITY_PULLS, np.random.default_rng(int(USUAL_SEED)))
    for name in QUANTITIES:
        for slip in STEPS:
            setting = Setting(slip=math.radians(slip))
            ends = []
            for share in (0.0, 1.0):
                engine = engine_numbers(at_shares(card, {name: share}), setting)
                ends.append(rates_of(run_pulls(engine, drawn, workers), drawn, engine.inertia))
            low, high = ends
            yield Knob(
                name,
                setting.slip,
                (low.kicks_back_if_ignitable.value, high.kicks_back_if_ignitable.value),
                (low.catches_if_ignitable.value, high.catches_if_ignitable.value),
                (low.pops_intake.value, high.pops_intake.value),
            )


def _whole(typed: Mapping[str, str], name: str, usual: str) -> int:
    told = typed.get(name) or usual
    if not told.isdecimal() or len(told) > 9:
        raise NotUnderstood(f"“{told}” is no whole number. Type one, like {usual}.", name)
    return int(told)


def _is(typed: Mapping[str, str], name: str, yes: str, no: str) -> bool:
    told = typed.get(name) or yes
    if told not in (yes, no):
        raise NotUnderstood(f"“{told}” is not known here. It must be {yes} or {no}.", name)
    return told == yes
