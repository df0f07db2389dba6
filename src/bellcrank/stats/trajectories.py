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

from bellcrank.stats.evidence import Evidence, Question
from bellcrank.stats.fault_network import FaultNetwork, FloatArray
from bellcrank.stats.looks import Look, kept_by, look_of_sighting, look_of_standing, where_kept


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
    courses: tuple[tuple[Course, ...], ...]  # per cause, those that press on something
    loose: FloatArray  # shape (questions, causes): weight of all its ways that press on nothing
    loose_here: FloatArray  # shape (questions, causes): the part of it in which the cause is still there

    def courses_of(self, cause: int) -> tuple[Course, ...]:
        """Give every course of a cause, those that press on nothing as one."""
        loose = Course(self.loose[:, cause], self.loose_here[:, cause], ())
        return (*self.courses[cause], loose) if loose.weight.any() else self.courses[cause]


def lay_out(network: FaultNetwork, evidence: Evidence, questions: tuple[Question, ...]) -> LaidOut:
    """Lay out evidence and questions as leaks, factors and presses."""
    looks = (
        *(look_of_sighting(network, one, kept_by(place, questions)) for place, one in enumerate(evidence.sightings)),
        *(look_of_standing(network.findings[one.finding], one) for one in evidence.standings),
    )
    open_looks = tuple(look for look in looks if look.stay is not None)
    extra_leak, extra = _extras(network, questions)
    leak = extra_leak
    for look in looks:
        if look.stay is None:
            leak = leak * where_kept(look.kept, np.array(look.leak[1]))
    may_be_away, may_be_here = _told(network, questions)
    absent = may_be_away.copy()
    for look in looks:
        absent *= where_kept(look.kept, look.unseen)
    courses, loose, loose_here = _courses(network, evidence, looks, (may_be_away, may_be_here * extra))
    return LaidOut(
        leak=leak,
        start=tuple(_start(look) for look in open_looks),
        fits=tuple(_fits(look) for look in open_looks),
        absent=absent,
        courses=courses,
        loose=loose,
        loose_here=loose_here,
    )


def _courses(
    network: FaultNetwork, evidence: Evidence, looks: tuple[Look, ...], extra: tuple[FloatArray, FloatArray]
) -> tuple[tuple[tuple[Course, ...], ...], FloatArray, FloatArray]:
    """Give the courses of every cause that press on something, and what presses on nothing.

    ``extra`` holds each question's factors of causes that went, and of those that are there now.
    """
    now = len(evidence.mends)
    loose, loose_here = np.zeros((2, *extra[0].shape))
    gathered: list[dict[tuple[int, ...], list[FloatArray]]] = [{} for _ in network.names]
    open_looks = tuple(look for look in looks if look.stay is not None)
    table = tuple(_press_table(bit, look) for bit, look in enumerate(open_looks))
    for went, weight in _goings(network, evidence):
        factors = weight * extra[went == now]
        for look in looks:
            factors *= where_kept(look.kept, look.factor(went))
        pressing = [bit for bit, look in enumerate(open_looks) if look.presses(went)]
        touched = sorted({cause for bit in pressing for cause in table[bit] if weight[cause]})
        for cause in touched:
            bits = tuple(bit for bit in pressing if cause in table[bit])
            told = factors[:, cause]
            before = gathered[cause].get(bits, (0.0, 0.0))
            gathered[cause][bits] = [before[0] + told, before[1] + (went == now) * told]
        factors[:, touched] = 0.0
        loose += factors
        loose_here += (went == now) * factors
    courses = tuple(
        tuple(Course(total, here, tuple(table[bit][cause] for bit in bits)) for bits, (total, here) in one.items())
        for cause, one in enumerate(gathered)
    )
    return courses, loose, loose_here


def _goings(network: FaultNetwork, evidence: Evidence) -> Iterable[tuple[int, FloatArray]]:
    """Give each repair's number with the chance that causes went with it, then the chance that they are there now."""
    left = np.ones(len(network.names))
    for number, mend in enumerate(evidence.mends):
        removed = np.array([mend.get(name, 0.0) for name in network.names])
        yield number, left * removed
        left = left * (1 - removed)
    yield len(evidence.mends), left


def _start(look: Look) -> tuple[FloatArray, ...]:
    if look.graded is not None:
        return tuple(np.array([one]) for one in look.graded.start)
    return (
        where_kept(look.kept, np.array(look.leak[0]), otherwise=0.0),
        where_kept(look.kept, np.array(look.leak[1])),
    )


def _fits(look: Look) -> tuple[FloatArray, ...]:
    if look.graded is not None:
        return tuple(where_kept(look.kept, np.array(one)) for one in look.graded.fits)
    return np.zeros(1), np.ones(1)


def _press_table(bit: int, look: Look) -> dict[int, Press]:
    """Give the press of every cause that has a say in an open finding."""
    assert look.stay is not None  # noqa: S101  (only open findings are asked for)
    if look.graded is not None:
        rows = look.graded.rows
        touching = np.flatnonzero((rows < 1).any(axis=0)).tolist()
        return {cause: Press(bit, np.ones(1), stands=False, graded=rows[:, cause]) for cause in touching}
    stay = where_kept(look.kept, look.stay)
    told = np.flatnonzero(look.stay < 1).tolist()
    return {cause: Press(bit, np.ascontiguousarray(stay[:, cause]), look.stands) for cause in told}


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
