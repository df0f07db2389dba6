"""What each cause does to the evidence, for every way it may have come and gone between arrival and now.

A cause that was there on arrival is either there still, or one of the repairs took it away for good. Each such
trajectory carries a weight, a plain factor per question, and a press on every open finding ("bit") it can explain.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from bellcrank.stats.evidence import Evidence, Question, Sighting, Standing
from bellcrank.stats.fault_network import FaultNetwork, FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Press:
    """What a present cause does to one open finding; each array has one entry a question.

    An unexplained state stays so with ``stay`` or becomes explained with ``move``; an explained one keeps ``top``.
    """

    bit: int
    stay: FloatArray  # shape (questions,)
    move: FloatArray
    top: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Trajectory:
    """One way a cause may have gone: still here, or removed by a repair."""

    weight: float  # chance of it, given that the cause was there on arrival [-]
    here_now: bool
    factor: FloatArray  # shape (questions,): what it does to findings that need no bit
    presses: tuple[Press, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """The evidence laid out for weighing: how states start, and each cause's trajectories."""

    bits: int
    start: FloatArray  # shape (questions, 2 ** bits): what leaks alone explain
    causes: tuple[tuple[Trajectory, ...], ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Effect:
    """One piece of evidence: its leak and, per cause and time, its factor or press; rows are questions."""

    leak_stay: FloatArray
    leak_move: FloatArray
    bit: int | None
    stay: FloatArray  # shape (questions, causes): as a factor when there is no bit
    move: FloatArray
    top: FloatArray
    first_seen: int  # repairs done when it was made: causes gone before that have no say
    last_seen: int | None  # for a cured complaint: causes still there at this time only keep ``spare``
    spare: FloatArray | None  # shape (causes,): chance of not blocking


def lay_out(network: FaultNetwork, evidence: Evidence, questions: tuple[Question, ...]) -> Course:
    """Turn evidence and questions into starting states and trajectories."""
    effects = tuple(_effects(network, evidence, questions))
    bits = sum(effect.bit is not None for effect in effects)
    repairs = len(evidence.mends)
    return Course(
        bits=bits,
        start=_start(effects, bits, len(questions)),
        causes=tuple(
            tuple(
                Trajectory(weight, gone_at == repairs, *_doing(effects, cause, gone_at, len(questions)))
                for gone_at, weight in _goings(network.names[cause], evidence)
            )
            for cause in range(len(network.names))
        ),
    )


def _goings(name: str, evidence: Evidence) -> Iterable[tuple[int, float]]:
    """Give when the cause went (the number of repairs: not at all) with the chance of it."""
    left = 1.0
    for number, mend in enumerate(evidence.mends):
        chance = mend.get(name, 0.0)
        if chance:
            yield number, left * chance
            left *= 1 - chance
    yield len(evidence.mends), left


def _effects(network: FaultNetwork, evidence: Evidence, questions: tuple[Question, ...]) -> Iterable[_Effect]:
    bit = 0
    for place, sighting in enumerate(evidence.sightings):
        kept = np.array([place not in question.without for question in questions])
        effect = _of_sighting(network, sighting, kept, bit)
        bit += effect.bit is not None
        yield effect
    for standing in evidence.standings:
        yield _of_standing(network, standing, len(questions), bit)
        bit += 1
    if any(question.at_most for question in questions):
        yield _of_questions(network, questions, len(evidence.mends))


def _of_sighting(network: FaultNetwork, sighting: Sighting, kept: np.ndarray, bit: int) -> _Effect:
    table = network.findings[sighting.finding]
    top, leak_top = table.rows[sighting.level], table.leak[sighting.level]
    below, leak_below = (
        (table.rows[sighting.level - 1], table.leak[sighting.level - 1])
        if sighting.level
        else (np.zeros_like(top), 0.0)
    )
    keep = kept[:, None]
    if sighting.level == 0:
        return _factor(np.where(kept, leak_top, 1.0), np.where(keep, top, 1.0), sighting.after)
    if len(table.touched) <= 1 and leak_top > leak_below:
        absent = leak_top - leak_below
        ratio = (leak_top * top - leak_below * below) / absent
        return _factor(np.where(kept, absent, 1.0), np.where(keep, ratio, 1.0), sighting.after)
    return _Effect(
        leak_stay=np.where(kept, leak_below, 0.0),
        leak_move=np.where(kept, leak_top - leak_below, 1.0),
        bit=bit,
        stay=np.where(keep, below, 1.0),
        move=np.where(keep, top - below, 0.0),
        top=np.where(keep, top, 1.0),
        first_seen=sighting.after,
        last_seen=None,
        spare=None,
    )


def _of_standing(network: FaultNetwork, standing: Standing, questions: int, bit: int) -> _Effect:
    table = network.findings[standing.finding]
    spared, leak = table.rows[0], table.leak[0]
    stay = np.broadcast_to(spared, (questions, len(spared)))
    cured = standing.gone_after is not None
    return _Effect(
        leak_stay=np.full(questions, leak),
        leak_move=np.full(questions, 0.0 if cured else 1 - leak),
        bit=bit,
        stay=stay,
        move=1 - stay,
        top=np.ones_like(stay),
        first_seen=standing.stood_after,
        last_seen=standing.gone_after,
        spare=spared if cured else None,
    )


def _of_questions(network: FaultNetwork, questions: tuple[Question, ...], now: int) -> _Effect:
    leak = np.ones(len(questions))
    factor = np.ones((len(questions), len(network.names)))
    for row, question in enumerate(questions):
        if question.at_most:
            finding, level = question.at_most
            leak[row] = network.findings[finding].leak[level]
            factor[row] = network.findings[finding].rows[level]
    return _factor(leak, factor, now)


def _factor(leak: FloatArray, factor: FloatArray, seen: int) -> _Effect:
    ones = np.ones_like(factor)
    return _Effect(leak, np.zeros_like(leak), None, factor, ones, ones, seen, None, None)


def _start(effects: tuple[_Effect, ...], bits: int, questions: int) -> FloatArray:
    states = np.ones((questions, 1))
    for effect in effects:
        if effect.bit is None:
            states = states * effect.leak_stay[:, None]
    for effect in sorted((e for e in effects if e.bit is not None), key=lambda e: e.bit or 0):
        states = np.concatenate((states * effect.leak_stay[:, None], states * effect.leak_move[:, None]), axis=1)
    assert states.shape[1] == 2**bits  # noqa: S101  (later bits are the higher ones)
    return states


def _doing(
    effects: tuple[_Effect, ...], cause: int, gone_at: int, questions: int
) -> tuple[FloatArray, tuple[Press, ...]]:
    """Give the factor and presses of a cause that was there until the repair ``gone_at``."""
    factor = np.ones(questions)
    presses: list[Press] = []
    for effect in effects:
        if gone_at < effect.first_seen:
            continue
        if effect.last_seen is not None and effect.spare is not None and gone_at >= effect.last_seen:
            factor = factor * effect.spare[cause]
        elif effect.bit is None:
            factor = factor * effect.stay[:, cause]
        elif effect.move[:, cause].any() or (effect.top[:, cause] != 1).any() or (effect.stay[:, cause] != 1).any():
            presses.append(Press(effect.bit, effect.stay[:, cause], effect.move[:, cause], effect.top[:, cause]))
    return factor, tuple(presses)
