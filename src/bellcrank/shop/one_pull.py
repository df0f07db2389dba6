"""One pull of the cord to look at: what was asked, and what happened in it.

The compiled equations are imported only when a pull is worked out: a face that shows one starts without them.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.pull import places as at
from bellcrank.engine.slip import slip_words
from bellcrank.engine.slip_table import State
from bellcrank.errors import NotUnderstood, OutOfRange
from bellcrank.knowledge.model import Library
from bellcrank.shop.engines import engine_named, slip_from_words
from bellcrank.units import to_si

if TYPE_CHECKING:
    from bellcrank.engine.pull.many import PullTrace

PULLS = "100"  # from which one is picked
PICKED = f"The first of {PULLS} computed pulls that ended as most of those that fired did."
IGNITIONS = ("module", "points")
LOOSE, DEAD = (State.BLADE_LOOSE, State.BOTH), (State.RELEASE_DEAD, State.BOTH)
SHOWN_STATES = (State.SOUND, State.BLADE_LOOSE, State.RELEASE_DEAD, State.BOTH)
ONCE_ROUND = 360  # [°]
MOST_FIRES = 3  # more than so many are not marked, but for the first and the last
Happened = tuple[float, str]  # when [s], and in words


@dataclass(frozen=True, slots=True)
class PullAsked:
    """Whose pull: an engine, where its flywheel sits, and what else is wrong with it."""

    engine: str
    slip: int  # below zero early [°]
    state: State
    ignition: str


@dataclass(frozen=True, slots=True)
class OnePull:
    """A pull against time, in the units it is shown in."""

    engine: str  # in words
    slip: str
    outcome: str
    seconds: tuple[float, ...]
    speed_rpm: tuple[float, ...]
    pressure_kpa: tuple[float, ...]  # over the air around
    cord_force_n: tuple[float, ...]
    events: tuple[Happened, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]


def pull_asked(library: Library, typed: Mapping[str, str]) -> PullAsked:
    """Read whose pull is asked for."""
    card = engine_named(library, typed.get("engine", ""))
    state, ignition = typed.get("state") or State.SOUND.value, typed.get("ignition") or IGNITIONS[0]
    if state not in SHOWN_STATES:
        raise NotUnderstood(f"“{state}” is not known here. It must be one of: {', '.join(SHOWN_STATES)}.", "state")
    if ignition not in IGNITIONS:
        raise NotUnderstood(f"“{ignition}” times no spark here. It must be one of: {', '.join(IGNITIONS)}.", "ignition")
    return PullAsked(card.id, _slip(typed.get("slip", "")), State(state), ignition)


def _slip(told: str) -> int:
    """Read where the flywheel stands, at most a turn off [°]."""
    try:
        slip = round(math.degrees(slip_from_words({"slip": told})))
    except NotUnderstood as refusal:
        raise NotUnderstood(refusal.sentence, "slip") from refusal
    if abs(slip) > ONCE_ROUND:
        raise OutOfRange(f"The slip is {slip}°; it must be between -360° and 360°. Measure the shorter way.", "slip")
    return slip


def one_pull(library: Library, asked: PullAsked) -> OnePull:
    """Work out a pull that ends as most do; the first one waits until the equations are compiled."""
    from bellcrank.shop.pulls import (  # noqa: PLC0415  compiled equations
        OUTCOME_WORDS,
        PULL_CAUTIONS,
        PULL_NOTES,
        pulls_from_words,
        typical_pull,
    )

    pulls = pulls_from_words(library, _typed(asked))
    trace = typical_pull(pulls, workers=1)
    return OnePull(
        engine=pulls.card.words,
        slip=slip_words(pulls.setting.slip),
        outcome=OUTCOME_WORDS[trace.outcome],
        seconds=_floats(trace.time),
        speed_rpm=_floats(trace.speed / to_si(1.0, "rpm", "speed")),
        pressure_kpa=_floats((trace.pressure - pulls.engine.ambient) / to_si(1.0, "kPa", "pressure")),
        cord_force_n=_floats(trace.cord_force),
        events=tuple(sorted(what_happened(trace))),
        cautions=PULL_CAUTIONS,
        notes=(PICKED, *PULL_NOTES),
    )


def what_happened(trace: "PullTrace") -> Iterator[Happened]:
    """Name what happened in a pull: what lit, a crank thrown back, a handle torn away, an engine that runs."""
    lit = np.flatnonzero(np.diff(trace.burning, prepend=0.0) > 0)
    shown = lit if lit.size <= MOST_FIRES else lit[[0, -1]]
    for row in shown:
        yield float(trace.time[row]), f"a spark lights it {_from_top(float(trace.angle[row]))}"
    back = float(trace.kept[at.REVERSED_AT])
    if back > 0:
        yield back, "fire throws the crank back"
    if trace.kept[at.TORN] > 0:
        pulled = np.flatnonzero((trace.time >= back) & (trace.cord_force > 0))
        yield float(trace.time[pulled[-1]]), "the handle is torn away"
    if trace.kept[at.CAUGHT] > 0:
        yield float(trace.time[-1]), "it runs"


def _typed(asked: PullAsked) -> dict[str, str]:
    return {
        "engine": asked.engine,
        "slip": f"{asked.slip} °",
        "blade": "loose" if asked.state in LOOSE else "tight",
        "release": "dead" if asked.state in DEAD else "works",
        "ignition": asked.ignition,
        "pulls": PULLS,
    }


def _from_top(angle: float) -> str:
    """Say where the piston is: “82° before the top”."""
    degrees = round(math.degrees(math.remainder(angle, at.TURN)))
    return f"{abs(degrees)}° {'before' if degrees < 0 else 'after'} the top" if degrees else "at the top"


def _floats(values: NDArray[np.float64]) -> tuple[float, ...]:
    return tuple(map(float, values))
