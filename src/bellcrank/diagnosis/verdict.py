"""What would change the verdict: the open checks whose results would most move a cause, and what could overturn it."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bellcrank.diagnosis.allowed import access_minutes, checks_left, open_now
from bellcrank.diagnosis.belief import Belief
from bellcrank.diagnosis.network import NOT_LISTED, CompiledPack
from bellcrank.knowledge.model import Check
from bellcrank.stats.evidence import Question
from bellcrank.stats.fault_network import FloatArray
from bellcrank.stats.weighing import weigh

MOST_MOVES = 3
LEAST_CHANCE = 0.01  # [-] a result less likely is not counted on
LEAST_MOVE = 0.02  # [-] a check that moves a cause by less, on average over its results, says nothing of it
EVENT_SYSTEM = "event"


@dataclass(frozen=True, slots=True)
class Shown:
    """A result a check may have, and what it would leave of the cause."""

    says: str
    chance: float  # that it comes out so [-]
    after: float  # the cause's probability then [-]


@dataclass(frozen=True, slots=True)
class Move:
    """An open check and what its results would make of the cause, the likeliest cause first."""

    check: str
    words: str
    minutes: float  # hands-on, and to open and close what is not open yet [min]
    results: tuple[Shown, ...]


@dataclass(frozen=True, slots=True)
class Overturn:
    """The result that would put another cause first."""

    check: str
    words: str
    minutes: float  # hands-on, and to open and close what is not open yet [min]
    says: str
    chance: float  # that it comes out so [-]
    leader: str  # the cause that would lead then
    after: float  # its probability then [-]


@dataclass(frozen=True, slots=True)
class Verdict:
    """What would change what is believed of one cause."""

    cause: str
    now: float  # [-]
    leads: bool
    moves: tuple[Move, ...]
    overturn: Overturn | None  # for the leader: what would unseat it; for another: what would make it lead


@dataclass(frozen=True, slots=True, eq=False)
class _Open:
    """What each result of an open check would leave."""

    check: Check
    minutes: float
    chances: FloatArray  # shape (results,)
    after: FloatArray  # shape (results, causes)


def leading(compiled: CompiledPack, belief: Belief) -> str:
    """Name the cause that is most likely now; what has passed, like a strike, is no cause to mend."""
    return max(_mendable(compiled), key=lambda cause: belief.now[cause])


def verdicts(compiled: CompiledPack, belief: Belief, causes: Sequence[str]) -> tuple[Verdict, ...]:
    """Say for some causes what would change the verdict, from one pass over all results of the open checks."""
    leader, opened = leading(compiled, belief), _opened(compiled, belief)
    return tuple(
        Verdict(
            cause=cause,
            now=belief.now[cause],
            leads=cause == leader,
            moves=_moves(opened, compiled.network.position[cause], belief.now[cause]),
            overturn=_overturn(compiled, opened, cause, leader),
        )
        for cause in causes
    )


def _mendable(compiled: CompiledPack) -> list[str]:
    return [n for n in compiled.network.names if n == NOT_LISTED or compiled.causes[n].system != EVENT_SYSTEM]


def _opened(compiled: CompiledPack, belief: Belief) -> list[_Open]:
    """Weigh "this result or below" for every open check in one go; the results themselves are the differences."""
    checks = checks_left(compiled, belief.case)
    levels = [(check.id, level) for check in checks for level in range(len(check.results) - 1)]
    if not levels:
        return []
    weighing = weigh(compiled.network, belief.evidence, tuple(Question(at_most=one) for one in levels))
    sure = belief.without.evidence[0]
    whole, joint = belief.without.now[0] * sure, weighing.now * weighing.evidence[:, None]
    flags, first, opened = open_now(compiled, belief.case), 0, []
    for check in checks:
        rows = slice(first, first + len(check.results) - 1)
        chances = np.clip(np.diff(np.append(weighing.evidence[rows], sure), prepend=0.0), 0.0, None)
        here = np.clip(np.diff(np.vstack([joint[rows], whole]), axis=0, prepend=0.0), 0.0, None)
        after = np.divide(here, chances[:, None], out=np.zeros_like(here), where=chances[:, None] > 0)
        minutes = check.minutes + access_minutes(compiled, check.access, flags)
        opened.append(_Open(check, minutes, chances / sure, np.clip(after, 0.0, 1.0)))
        first = rows.stop
    return opened


def _moves(opened: list[_Open], cause: int, now: float) -> tuple[Move, ...]:
    """Give the checks that move a cause most, on average over their results, each result that may well come out."""
    moved = [(float(one.chances @ np.abs(one.after[:, cause] - now)), one) for one in opened]
    best = sorted((pair for pair in moved if pair[0] >= LEAST_MOVE), key=lambda pair: (-pair[0], pair[1].minutes))
    return tuple(_move(one, cause) for _, one in best[:MOST_MOVES])


def _move(one: _Open, cause: int) -> Move:
    shown = [
        Shown(result.says, float(chance), float(after))
        for result, chance, after in zip(one.check.results, one.chances, one.after[:, cause], strict=True)
        if chance >= LEAST_CHANCE
    ]
    shown.sort(key=lambda result: -result.after)
    return Move(one.check.id, one.check.words, one.minutes, tuple(shown))


def _overturn(compiled: CompiledPack, opened: list[_Open], cause: str, leader: str) -> Overturn | None:
    """Give the cheapest result that unseats the leader, or that makes another cause lead; the likelier at a tie."""
    names = _mendable(compiled)
    places = [compiled.network.position[name] for name in names]
    found = []
    for one in opened:
        firsts = one.after[:, places].argmax(axis=1)
        for result, chance, first, after in zip(one.check.results, one.chances, firsts, one.after, strict=True):
            wanted = names[first] != leader if cause == leader else names[first] == cause
            if chance >= LEAST_CHANCE and wanted:
                words, minutes = one.check.words, one.minutes
                probability = float(after[places[first]])
                found.append(
                    Overturn(one.check.id, words, minutes, result.says, float(chance), names[first], probability)
                )
    return min(found, key=lambda one: (one.minutes, -one.chance), default=None)
