"""What each cause does to the evidence, for every way it may have come and gone between arrival and now.

A cause that was there on arrival is either there still, or one of the repairs took it away for good. A finding sees it
only while it is there. What a present cause does to a finding is either a plain factor, or a press on an open finding
("bit") that somebody has to explain. With cumulative rows C the press of a finding at level l is the factor C_l, and
an unexplained finding stays unexplained with C_(l-1) / C_l: causes that would show more than was seen are held off by
the factor, whoever explains the finding. A finding that was not seen clearly has more states than two: how high it is
so far, from "below all levels that fit" up to the highest that fits.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from bellcrank.stats.evidence import Evidence, Question, Sighting, Standing
from bellcrank.stats.fault_network import FaultNetwork, FindingTable, FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Press:
    """How a present cause presses on one open finding."""

    bit: int
    stay: FloatArray  # shape (questions,) or (1,): chance that it leaves the finding unexplained [-]
    stands: bool  # whether it is a complaint: what presses on it blocks the machine
    graded: FloatArray | None = None  # shape (states,): that it alone shows at most this much; None: two states, stay


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """Ways a cause may have gone that press on the same findings, taken together."""

    weight: FloatArray  # shape (questions,): chance of them, given it was there on arrival, times plain factors
    here_now: FloatArray  # shape (questions,): the part of it in which the cause is still there
    presses: tuple[Press, ...]


@dataclass(frozen=True, slots=True, eq=False)
class LaidOut:
    """The evidence laid out for weighing."""

    leak: FloatArray  # shape (questions,): what no cause has a say in
    start: tuple[tuple[FloatArray, ...], ...]  # per bit and state, with no cause passed; not explained first
    fits: tuple[
        tuple[FloatArray, ...], ...
    ]  # per bit and state: how well it fits what was seen, shape (questions or 1,)
    absent: FloatArray  # shape (questions, causes): factor of a cause that never was there
    courses: tuple[tuple[Course, ...], ...]  # per cause


@dataclass(frozen=True, slots=True, eq=False)
class _Graded:
    """A finding that was not seen clearly: how high it is so far, as states."""

    rows: FloatArray  # shape (states, causes): that a cause alone shows at most this much
    start: FloatArray  # shape (states,): chance of each from the leak alone
    fits: FloatArray  # shape (states,): how well each fits what was seen


@dataclass(frozen=True, slots=True, eq=False)
class _Look:
    """One piece of evidence and what it makes of a cause; a cause counts by when it went."""

    kept: FloatArray | None  # shape (questions,), 0 or 1; None: every question keeps it
    since: int  # repairs done when it was first made: a cause that went earlier was not seen
    made: int  # repairs done when it was last made: a cause that went in between did not make it
    cured: int | None  # of a cured complaint: repairs done then; a cause still there did not block
    leak: tuple[float, float]  # of the finding: below its level, at its level
    seen: FloatArray  # shape (causes,): factor of a cause it saw
    unseen: FloatArray  # shape (causes,): factor of a cause it did not see
    held: FloatArray  # shape (causes,): factor of a cause that went between its being made first and last
    stay: FloatArray | None  # shape (causes,), for a finding that must be explained
    spared: FloatArray  # shape (causes,): factor of a cause still there at the cure
    stands: bool = False
    graded: _Graded | None = None  # a finding not seen clearly

    def factor(self, went: int) -> FloatArray:
        """Give the factors of causes that went with the repair of this number; shape (causes,)."""
        if went < self.made:
            return self.unseen if went < self.since else self.held
        return self.spared if self.cured is not None and went >= self.cured else self.seen

    def presses(self, went: int) -> bool:
        """Whether causes that went with the repair of this number may explain it."""
        return self.stay is not None and went >= self.made and (self.cured is None or went < self.cured)


def lay_out(network: FaultNetwork, evidence: Evidence, questions: tuple[Question, ...]) -> LaidOut:
    """Lay out evidence and questions as leaks, factors and presses."""
    looks = (
        *(_sighting(network, one, _kept(place, questions)) for place, one in enumerate(evidence.sightings)),
        *(_standing(network.findings[one.finding], one) for one in evidence.standings),
    )
    open_looks = tuple(look for look in looks if look.stay is not None)
    extra_leak, extra = _extras(network, questions)
    leak = extra_leak
    for look in looks:
        if look.stay is None:
            leak = leak * _where_kept(look.kept, np.array(look.leak[1]))
    may_be_away, may_be_here = _told(network, questions)
    absent = may_be_away.copy()
    for look in looks:
        absent *= _where_kept(look.kept, look.unseen)
    return LaidOut(
        leak=leak,
        start=tuple(_start(look) for look in open_looks),
        fits=tuple(_fits(look) for look in open_looks),
        absent=absent,
        courses=_courses(network, evidence, looks, (may_be_away, may_be_here * extra)),
    )


def _courses(
    network: FaultNetwork, evidence: Evidence, looks: tuple[_Look, ...], extra: tuple[FloatArray, FloatArray]
) -> tuple[tuple[Course, ...], ...]:
    """Give the courses of every cause; ``extra`` holds each question's factors of causes that went, and are there."""
    now = len(evidence.mends)
    rows = len(extra[0])
    gathered: list[dict[tuple[int, ...], list[FloatArray]]] = [{} for _ in network.names]
    open_looks = tuple(look for look in looks if look.stay is not None)
    table = tuple(_press_table(bit, look) for bit, look in enumerate(open_looks))
    for went, weight in _goings(network, evidence):
        factors = weight * extra[went == now]
        for look in looks:
            factors *= _where_kept(look.kept, look.factor(went))
        pressing = [bit for bit, look in enumerate(open_looks) if look.presses(went)]
        for cause in np.flatnonzero(weight).tolist():
            bits = tuple(bit for bit in pressing if cause in table[bit])
            sums = gathered[cause].setdefault(bits, [np.zeros(rows), np.zeros(rows)])
            sums[0] = sums[0] + factors[:, cause]
            sums[1] = sums[1] + (went == now) * factors[:, cause]
    return tuple(
        tuple(Course(total, here, tuple(table[bit][cause] for bit in bits)) for bits, (total, here) in one.items())
        for cause, one in enumerate(gathered)
    )


def _goings(network: FaultNetwork, evidence: Evidence) -> Iterable[tuple[int, FloatArray]]:
    """Give each repair's number with the chance that causes went with it, then the chance that they are there now."""
    left = np.ones(len(network.names))
    for number, mend in enumerate(evidence.mends):
        removed = np.array([mend.get(name, 0.0) for name in network.names])
        yield number, left * removed
        left = left * (1 - removed)
    yield len(evidence.mends), left


def _start(look: _Look) -> tuple[FloatArray, ...]:
    if look.graded is not None:
        return tuple(np.array([one]) for one in look.graded.start)
    return (
        _where_kept(look.kept, np.array(look.leak[0]), otherwise=0.0),
        _where_kept(look.kept, np.array(look.leak[1])),
    )


def _fits(look: _Look) -> tuple[FloatArray, ...]:
    if look.graded is not None:
        return tuple(_where_kept(look.kept, np.array(one)) for one in look.graded.fits)
    return np.zeros(1), np.ones(1)


def _press_table(bit: int, look: _Look) -> dict[int, Press]:
    """Give the press of every cause that has a say in an open finding."""
    assert look.stay is not None  # noqa: S101  (only open findings are asked for)
    if look.graded is not None:
        rows = look.graded.rows
        touching = np.flatnonzero((rows < 1).any(axis=0)).tolist()
        return {cause: Press(bit, np.ones(1), stands=False, graded=rows[:, cause]) for cause in touching}
    stay = _where_kept(look.kept, look.stay)
    told = np.flatnonzero(look.stay < 1).tolist()
    return {cause: Press(bit, np.ascontiguousarray(stay[:, cause]), look.stands) for cause in told}


def _sighting(network: FaultNetwork, sighting: Sighting, kept: FloatArray | None) -> _Look:
    table, level = network.findings[sighting.finding], sighting.level
    if sighting.weights:
        return _unclear(table, sighting, kept)
    if level and len(table.touched) <= 1:
        return _lonely(table, sighting, kept)
    top, leak_top = table.rows[level], float(table.leak[level])
    below = table.rows[level - 1] if level else np.zeros_like(top)
    leak_below = float(table.leak[level - 1]) if level else 0.0
    stay = np.divide(below, top, out=np.ones_like(top), where=top > 0)
    return _Look(
        kept=kept,
        since=_first_made(sighting),
        made=sighting.after,
        cured=None,
        leak=(leak_below, leak_top - leak_below),
        seen=top,
        unseen=np.ones_like(top),
        held=top,
        stay=stay if level else None,
        spared=np.ones_like(top),
    )


def _lonely(table: FindingTable, sighting: Sighting, kept: FloatArray | None) -> _Look:
    """A finding that one cause at most has a say in needs no explaining: a factor for its presence and absence."""
    top, below = table.rows[sighting.level], table.rows[sighting.level - 1]
    leak_top, leak_below = float(table.leak[sighting.level]), float(table.leak[sighting.level - 1])
    seen, unseen, held = np.ones((3, len(top)))
    for cause in table.touched:
        seen[cause] = leak_top * top[cause] - leak_below * below[cause]
        unseen[cause] = leak_top - leak_below
        held[cause] = unseen[cause] * top[cause]
    return _Look(
        kept=kept,
        since=_first_made(sighting),
        made=sighting.after,
        cured=None,
        leak=(0.0, 1.0 if table.touched else leak_top - leak_below),
        seen=seen,
        unseen=unseen,
        held=held,
        stay=None,
        spared=np.ones_like(top),
    )


def _unclear(table: FindingTable, sighting: Sighting, kept: FloatArray | None) -> _Look:
    """A finding that was not seen clearly: states from below the lowest level that fits up to the highest.

    What a question leaves out fits every state alike, so all levels are kept then.
    """
    weights = np.array(sighting.weights)
    fitting = np.flatnonzero(weights) if kept is None else np.arange(len(weights))
    levels = np.arange(max(0, fitting[0] - 1), fitting[-1] + 1)
    leak, ones = table.leak[levels], np.ones(table.rows.shape[1])
    return _Look(
        kept=kept,
        since=sighting.after,
        made=sighting.after,
        cured=None,
        leak=(0.0, 1.0),
        seen=ones,
        unseen=ones,
        held=ones,
        stay=ones,
        spared=ones,
        graded=_Graded(table.rows[levels], np.diff(leak, prepend=0.0), weights[levels]),
    )


def _first_made(sighting: Sighting) -> int:
    return sighting.after if sighting.since is None else sighting.since


def _standing(table: FindingTable, standing: Standing) -> _Look:
    ones = np.ones_like(table.rows[0])
    leak = float(table.leak[0])
    return _Look(
        kept=None,
        since=standing.stood_after,
        made=standing.stood_after,
        cured=standing.gone_after,
        leak=(leak, 0.0 if standing.gone_after is not None else 1 - leak),
        seen=ones,
        unseen=ones,
        held=ones,
        stay=table.rows[0],
        spared=table.rows[0],
        stands=True,
    )


def _kept(place: int, questions: tuple[Question, ...]) -> FloatArray | None:
    kept = np.array([place not in question.without for question in questions], float)
    return None if kept.all() else kept


def _where_kept(kept: FloatArray | None, values: FloatArray, otherwise: float = 1.0) -> FloatArray:
    """Put a neutral value where a question leaves the finding out; shape (questions or 1, *values)."""
    if kept is None:
        return values[None]
    return np.where(kept.reshape(-1, *(1,) * values.ndim) > 0, values[None], otherwise)


def _told(network: FaultNetwork, questions: tuple[Question, ...]) -> tuple[FloatArray, FloatArray]:
    """Give 0 where a question rules out that a cause is away, and that it is there now; shape (questions, causes)."""
    away, here = np.ones((2, len(questions), len(network.names)))
    for row, question in enumerate(questions):
        away[row, [network.position[cause] for cause in question.here]] = 0.0
        here[row, [network.position[cause] for cause in question.not_here]] = 0.0
    return away, here


def _extras(network: FaultNetwork, questions: tuple[Question, ...]) -> tuple[FloatArray, FloatArray]:
    """Give leak and factors of the finding each question adds, made now."""
    leak = np.ones(len(questions))
    factors = np.ones((len(questions), len(network.names)))
    for row, question in enumerate(questions):
        if question.at_most:
            finding, level = question.at_most
            leak[row] = network.findings[finding].leak[level]
            factors[row] = network.findings[finding].rows[level]
    return leak, factors
