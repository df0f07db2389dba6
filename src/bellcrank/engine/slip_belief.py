"""What was felt goes back into the cause: where the flywheel probably sits, and what else may jerk the cord.

By Bayes' rule over slip, blade and release. How likely it is to feel what was felt comes from counts of computed pulls
over all engines of a card's range, so that a wide range gives a wide answer.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from bellcrank.engine.slip_table import CATCHES, GOES_SOLID, JERKS, POPS_INTAKE, SlipTable, State
from bellcrank.errors import OutOfRange

Numbers = NDArray[np.float64]

MISCOUNTED = 0.003  # [-] of pulls felt as what they were not (assumption)
IN_PLACE = np.radians(7.0)  # slip below which a flywheel counts as in its place
HALF_A_TURN = np.radians(175.0)
BRUISED, FARTHEST_BRUISED, BRUISED_FORWARD = np.radians(10.0), np.radians(27.0), 0.85  # half a key's width is 12°
FREE_RUN = np.radians(320.0)  # farthest a flywheel runs on when the blade stops dead on a weak nut
ANYWHERE = 0.05  # [-] of a sheared key's belief: anywhere round
UNSTEADY_FROM, UNSTEADY, STEADY = (
    np.radians(7.0),
    0.6,
    0.1,
)  # chance that it runs unsteadily; common practice, no source
ENOUGH = 0.9  # [-] of the belief is told as a range
POINTS_HOLD = np.radians(5.0)  # slip up to which breaker points still spark
STATES = (State.SOUND, State.BLADE_LOOSE, State.RELEASE_DEAD, State.BOTH)


class KeyState(StrEnum):
    """What is known of the key."""

    NOT_LOOKED = "not looked at"
    WHOLE = "whole"
    BRUISED = "bruised"
    SHEARED = "sheared"


KEY_SHARES: Mapping[bool | None, tuple[float, float, float]] = {  # whole, bruised, sheared, by strike; guesses
    None: (0.60, 0.15, 0.25),
    True: (0.35, 0.25, 0.40),
    False: (0.80, 0.10, 0.10),
}
LOOKED: Mapping[KeyState, tuple[float, float, float]] = {  # what was seen may be wrong; guesses
    KeyState.WHOLE: (0.97, 0.02, 0.01),
    KeyState.BRUISED: (0.02, 0.93, 0.05),
    KeyState.SHEARED: (0.01, 0.04, 0.95),
}
LOOSE: Mapping[bool | None, float] = {
    None: 0.08,
    True: 0.01,
    False: 0.97,
}  # blade loose, by whether it is tight; guesses
DEAD: Mapping[bool | None, float] = {None: 0.08, True: 0.01, False: 0.97}  # release dead, by whether it works; guesses


@dataclass(frozen=True, slots=True)
class Known:
    """What is known beside the pulls; none where nobody looked."""

    key: KeyState = KeyState.NOT_LOOKED
    struck: bool | None = None  # the blade hit something
    blade_tight: bool | None = None
    release_works: bool | None = None
    points: bool = False  # breaker points instead of a module


@dataclass(frozen=True, slots=True)
class Felt:
    """What so many pulls did; none where nobody counted."""

    pulls: int
    jerks: int | None = None  # pulls that threw the cord back
    solids: int | None = None  # pulls in which the cord went solid
    starts: int | None = None  # pulls after which it ran
    pops: bool | None = None  # at least one pop through the carburettor
    unsteady: bool | None = None  # when it ran

    def __post_init__(self) -> None:
        """Refuse counts that cannot be."""
        if not 1 <= self.pulls <= 200:
            raise OutOfRange(f"{self.pulls} pulls were typed; it must be 1 to 200. Count those you felt.", field="of")
        counted = [one for one in (self.jerks, self.solids, self.starts) if one is not None]
        if any(one < 0 for one in counted) or sum(counted) > self.pulls:
            raise OutOfRange(
                f"Of {self.pulls} pulls, {' and '.join(map(str, counted))} cannot be. Count jerks, solid pulls and "
                "starts each once, together no more than the pulls.",
                field="jerks",
            )


class Explanation(StrEnum):
    """What may explain it."""

    EARLY = "the flywheel stands forward, the spark is early"
    LATE = "the flywheel stands back, the spark is late"
    BLADE_LOOSE = "the flywheel is in place, the blade is loose"
    RELEASE_DEAD = "the flywheel is in place, the compression release is dead"
    BOTH = "the flywheel is in place, blade loose and release dead"
    NEITHER = "the flywheel is in place, blade and release are good"


IN_PLACE_EXPLAINED: Mapping[State, Explanation] = {
    State.SOUND: Explanation.NEITHER,
    State.BLADE_LOOSE: Explanation.BLADE_LOOSE,
    State.RELEASE_DEAD: Explanation.RELEASE_DEAD,
    State.BOTH: Explanation.BOTH,
}


@dataclass(frozen=True, slots=True)
class SlipBelief:
    """Where the flywheel probably sits, and why."""

    slips: Numbers  # (s,) [rad]
    chances: Numbers  # (s,), together one
    explained: tuple[tuple[Explanation, float], ...]  # likeliest first
    in_place: float  # chance that the flywheel sits where its key puts it [-]
    likeliest: float  # slip, by what explains it best [rad]
    ranges: tuple[tuple[float, float], ...]  # that hold nine tenths of the belief that it has slipped [rad]
    expected: float  # chance of what was felt before it was felt; very small: it fits nothing well [-]


def believe(table: SlipTable, felt: Felt | None, known: Known) -> SlipBelief:
    """Give the belief over slip, blade and release after what was felt; without it, what is believed beforehand."""
    before = belief_before(table.slips, known)
    likely = (
        np.ones_like(before) if felt is None else np.stack([_likely(table, state, felt, known) for state in STATES])
    )
    joint = before * likely
    expected = float(joint.sum())
    joint /= expected
    over_slip = joint.sum(axis=0)
    near = np.abs(table.slips) < IN_PLACE
    explained = _explained(table.slips, joint)
    return SlipBelief(
        slips=table.slips,
        chances=over_slip,
        explained=explained,
        in_place=float(over_slip[near].sum()),
        likeliest=_likeliest(table.slips, over_slip, explained[0][0]),
        ranges=_ranges(table.slips, np.where(near, 0.0, over_slip)),
        expected=expected,
    )


def belief_before(slips: Numbers, known: Known) -> Numbers:
    """Give what is believed before a pull, (state, slip), together one."""
    over_slip = over_slips(slips, KEY_SHARES[known.struck] if known.key is KeyState.NOT_LOOKED else LOOKED[known.key])
    loose, dead = LOOSE[known.blade_tight], DEAD[known.release_works]
    states = np.array([(1 - loose) * (1 - dead), loose * (1 - dead), (1 - loose) * dead, loose * dead])
    return np.asarray(states[:, None] * over_slip)


def over_slips(slips: Numbers, shares: tuple[float, float, float]) -> Numbers:
    """Give the chance of each slip for shares of whole, bruised and sheared keys, together one."""
    parts = (_whole(slips), _bruised(slips), _sheared(slips))
    return np.asarray(sum(share * part for share, part in zip(shares, parts, strict=True)))


def chances_of_jerks(
    table: SlipTable, state: State, shares: tuple[float, float, float], pulls: int, noticed: int = 0
) -> Numbers:
    """Give the chance of 0, 1, ... all of so many pulls jerking, over the engines and the slips of such keys.

    With ``noticed``, over those that jerked at least once in so many pulls before: somebody brought them in for it.
    """
    jerks = MISCOUNTED + (1 - 2 * MISCOUNTED) * table.chances(state)[..., JERKS]
    counts = np.arange(pulls + 1)
    ways = np.array([math.comb(pulls, count) for count in counts])
    each = ways * jerks[..., None] ** counts * (1 - jerks[..., None]) ** (pulls - counts)
    weights = over_slips(table.slips, shares) * (1 - (1 - jerks) ** noticed if noticed else np.ones_like(jerks))
    return np.asarray((weights[..., None] * each).sum(axis=(0, 1)) / weights.sum())


def _likely(table: SlipTable, state: State, felt: Felt, known: Known) -> Numbers:
    """Give the chance of what was felt for each slip, over the engines of the range."""
    chances = _with_points(table, state) if known.points else table.chances(state)
    chances = MISCOUNTED + (1 - 2 * MISCOUNTED) * chances
    counted = [
        (chances[..., counted], count)
        for counted, count in ((JERKS, felt.jerks), (GOES_SOLID, felt.solids), (CATCHES, felt.starts))
        if count is not None
    ]
    rest = np.clip(1 - sum(chance for chance, _ in counted), MISCOUNTED, 1.0) if counted else np.ones(chances.shape[:2])
    logs = sum((count * np.log(chance) for chance, count in counted), start=np.zeros(chances.shape[:2]))
    left = felt.pulls - sum(count for _, count in counted)
    logs = logs + left * np.log(rest) + _ways(felt.pulls, [*(count for _, count in counted), left])
    likely = np.exp(logs)
    if felt.pops is not None:
        none = (1 - chances[..., POPS_INTAKE]) ** felt.pulls
        likely = likely * (1 - none if felt.pops else none)
    over_engines = likely.mean(axis=0)
    if felt.unsteady is not None:
        unsteady = np.where(np.abs(table.slips) > UNSTEADY_FROM, UNSTEADY, STEADY)
        over_engines = over_engines * (unsteady if felt.unsteady else 1 - unsteady)
    return np.asarray(over_engines)


def _with_points(table: SlipTable, state: State) -> Numbers:
    """Give the chances with breaker points: timed as in place while they spark at all."""
    weak, here = table.chances(State.POINTS), int(np.argmin(np.abs(table.slips)))
    if state is State.SOUND:
        return weak
    in_place = np.broadcast_to(table.chances(state)[:, here : here + 1], weak.shape)
    return np.where((np.abs(table.slips) < POINTS_HOLD)[None, :, None], in_place, weak)


def _widths(slips: Numbers) -> Numbers:
    """Give the width each slip stands for; the two ends are one place."""
    edges = np.concatenate([slips[:1], (slips[1:] + slips[:-1]) / 2, slips[-1:]])
    return np.asarray(np.diff(edges))


def _normal(chances: Numbers) -> Numbers:
    return np.asarray(chances / chances.sum())


def _whole(slips: Numbers) -> Numbers:
    at = np.zeros_like(slips)
    at[np.argmin(np.abs(slips))] = 1.0
    return at


def _bruised(slips: Numbers) -> Numbers:
    side = np.where(slips < 0, BRUISED_FORWARD, 1 - BRUISED_FORWARD)
    near = np.exp(-0.5 * (slips / BRUISED) ** 2) * (np.abs(slips) <= FARTHEST_BRUISED)
    return _normal(side * near * _widths(slips))


def _sheared(slips: Numbers) -> Numbers:
    forward = np.where(slips <= 0, -slips, 2 * np.pi - slips)
    ran_on = _normal((forward <= FREE_RUN) * _widths(slips))
    return np.asarray((1 - ANYWHERE) * ran_on + ANYWHERE * _normal(_widths(slips)))


def _early(slips: Numbers) -> NDArray[np.bool_]:
    """Tell which slips are early; half a turn is, for forward is the way a flywheel goes."""
    return np.asarray((slips <= -IN_PLACE) | (slips >= HALF_A_TURN))


def _explained(slips: Numbers, joint: Numbers) -> tuple[tuple[Explanation, float], ...]:
    over_slip, near = joint.sum(axis=0), np.abs(slips) < IN_PLACE
    found = {
        Explanation.EARLY: float(over_slip[_early(slips)].sum()),
        Explanation.LATE: float(over_slip[(slips >= IN_PLACE) & ~_early(slips)].sum()),
    }
    found |= {IN_PLACE_EXPLAINED[state]: float(row[near].sum()) for state, row in zip(STATES, joint, strict=True)}
    return tuple(sorted(found.items(), key=lambda one: -one[1]))


def _ways(pulls: int, counts: list[int]) -> float:
    """Give the logarithm of the number of orders in which so many of each may have come."""
    return math.lgamma(pulls + 1) - sum(math.lgamma(count + 1) for count in counts)


def _likeliest(slips: Numbers, chances: Numbers, best: Explanation) -> float:
    """Give the slip that is likeliest by the best explanation; none when the flywheel is in place."""
    if best not in (Explanation.EARLY, Explanation.LATE):
        return 0.0
    side = _early(slips) if best is Explanation.EARLY else (slips >= IN_PLACE) & ~_early(slips)
    density = np.where(side, chances / np.maximum(_widths(slips), 1e-9), 0.0)
    return float(slips[np.argmax(density)])


def _ranges(slips: Numbers, chances: Numbers) -> tuple[tuple[float, float], ...]:
    """Give the fewest places that hold nine tenths of the belief, those side by side as one range."""
    widths = np.maximum(_widths(slips), 1e-9)
    order = np.argsort(-chances / widths, kind="stable")
    held = order[: int(np.searchsorted(np.cumsum(chances[order]), ENOUGH * chances.sum())) + 1]
    inside = np.isin(np.arange(slips.size), held)
    inside[-1] &= inside[-2] or not inside[0]  # half a turn early and late are one place, told once
    inside[1:-1] |= inside[:-2] & inside[2:] & (chances[1:-1] > 0)  # one place missing is no gap worth telling
    starts = np.flatnonzero(inside & ~np.concatenate([[False], inside[:-1]]))
    ends = np.flatnonzero(inside & ~np.concatenate([inside[1:], [False]]))
    return tuple((float(slips[a]), float(slips[b])) for a, b in zip(starts, ends, strict=True))
