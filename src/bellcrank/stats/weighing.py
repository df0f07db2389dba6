"""Exact weighing of causes by the evidence: a dynamic programme over which open findings are explained so far.

Causes are passed one after the other. A state says which of the open findings are explained and which of the open
roots are present; every term is positive, so nothing cancels, however unlikely the evidence, and nothing is cut off. A
backward pass gives every cause's probability at once; all questions are answered in the same two passes (last axis).

What is open is kept small by the order of passing (:mod:`bellcrank.stats.passing_order`). Evidence that would open more
than ``MOST_OPEN`` things together is refused, not approximated: two to that power is what fits in memory.

References
----------
D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases, UAI 1989 (the problem; the subset
programme here replaces its alternating sum).
"""

import math
from dataclasses import dataclass

import numpy as np

from bellcrank.errors import OutOfRange
from bellcrank.stats.evidence import Evidence, Question
from bellcrank.stats.fault_network import FaultNetwork, FloatArray
from bellcrank.stats.passing_order import Stop, passing_order
from bellcrank.stats.pressing import at, blocked, others, pull, push, summed
from bellcrank.stats.trajectories import Course, LaidOut, lay_out

MOST_OPEN = 18  # [-] open findings and roots together: 2 ** 18 states of 8 bytes, 2 MB for every cause passed
ROUNDING = 1e-14  # [-] by which chances that sum to one may miss it
ROOM = 8_000_000  # [-] numbers kept between the two passes, 64 MB; questions are taken in portions that fit


@dataclass(frozen=True, slots=True, eq=False)
class Weighing:
    """What the evidence says, one row a question."""

    evidence: FloatArray  # shape (questions,): probability of the evidence [-]
    now: FloatArray  # shape (questions, causes): probability that it is there now [-]
    arrived: FloatArray  # shape (questions, causes): that it was there on arrival [-]
    blocking: FloatArray  # shape (questions, causes): that it is there now and brings about a standing complaint [-]


def weigh(network: FaultNetwork, evidence: Evidence, questions: tuple[Question, ...] = (Question(),)) -> Weighing:
    """Weigh every cause by the evidence, once for each question.

    >>> from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network
    >>> from bellcrank.stats.evidence import Sighting
    >>> rows = {"a": (0.3, 0.7), "b": (0.5, 0.5)}
    >>> net = fault_network(
    ...     [NetworkCause("a", 0.1), NetworkCause("b", 0.1)], [NetworkFinding("y", (0.95, 0.05), rows)]
    ... )
    >>> weigh(net, Evidence((Sighting("y", 1),))).now.round(4).tolist()
    [[0.4539, 0.3474]]
    """
    laid_out = lay_out(network, evidence, questions)
    stops = _stops(network, laid_out)
    size = sum(2**stop.width for stop in stops) * math.prod(max(1, len(start) - 1) for start in laid_out.start)
    portion = max(1, ROOM // max(1, size))
    if portion >= len(questions):
        return _Passage(network, laid_out, stops).weighing()
    parts = [
        _Passage(network, lay_out(network, evidence, questions[first : first + portion]), stops).weighing()
        for first in range(0, len(questions), portion)
    ]
    return Weighing(
        evidence=np.concatenate([part.evidence for part in parts]),
        now=np.concatenate([part.now for part in parts]),
        arrived=np.concatenate([part.arrived for part in parts]),
        blocking=np.concatenate([part.blocking for part in parts]),
    )


def _stops(network: FaultNetwork, laid_out: LaidOut) -> tuple[Stop, ...]:
    """Order the causes that press on findings or hang together by links; the others stand alone or follow a root."""
    bits = {
        cause: tuple(sorted({press.bit for course in courses for press in course.presses}))
        for cause, courses in enumerate(laid_out.courses)
    }
    quiet = _quiet(network, laid_out)
    passed = {
        cause: own
        for cause, own in bits.items()
        if cause not in quiet and (own or network.roots[cause] or not quiet.issuperset(network.followers[cause]))
    }
    roots = {cause: tuple(root for root, _ in network.roots[cause]) for cause in passed}
    stops = passing_order(passed, roots)
    widest = max((stop.width for stop in stops), default=0)
    if widest > MOST_OPEN:
        raise OutOfRange(
            f"{len(laid_out.start)} findings, with all that hangs together with them, are too much to be weighed "
            "exactly. Take back the findings you trust least."
        )
    return stops


def _quiet(network: FaultNetwork, laid_out: LaidOut) -> set[int]:
    """Find the causes nothing is told of, nor of what they bring about: they follow their one root, if any."""
    told = (laid_out.absent != 1).any(axis=0) | (np.abs(laid_out.loose - 1) > ROUNDING).any(axis=0)
    quiet: set[int] = set()
    for cause in reversed(network.roots_first):
        one_root = len(network.roots[cause]) <= 1 and network.tables[cause] is None
        if one_root and not told[cause] and quiet.issuperset(network.followers[cause]):
            quiet.add(cause)
    return quiet


class _Passage:
    """The causes passed forward and then backward, for one portion of questions (last axis)."""

    def __init__(self, network: FaultNetwork, laid_out: LaidOut, stops: tuple[Stop, ...]) -> None:
        self.network = network
        self.laid_out = laid_out
        self.stops = stops
        shape = laid_out.absent.shape
        self.now, self.arrived, self.blocking = np.zeros(shape), np.zeros(shape), np.zeros(shape)
        self.before: list[tuple[FloatArray, FloatArray, FloatArray]] = []
        self.graded = {bit for bit, fits in enumerate(laid_out.fits) if len(fits) > 2 or fits[0].any()}
        self.courses = {stop.cause: laid_out.courses_of(stop.cause) for stop in stops}

    def weighing(self) -> Weighing:
        """Pass all causes and give what comes out."""
        unpressed = set(range(len(self.laid_out.start))) - {b for stop in self.stops for b in stop.opens}
        states = self.laid_out.leak
        for bit in unpressed:
            states = states * sum(a * b for a, b in zip(self.laid_out.start[bit], self.laid_out.fits[bit], strict=True))
        alone = np.ones(len(self.network.names), bool)
        alone[[stop.cause for stop in self.stops]] = False
        followers = [cause for cause in self.network.roots_first if alone[cause] and self.network.roots[cause]]
        alone[followers] = False
        own = self.network.own[alone]
        totals = (1 - own) * self.laid_out.absent[:, alone] + own * self.laid_out.loose[:, alone]
        states = states * totals.prod(axis=1)
        for stop in self.stops:
            states = self._pass(stop, states)
        probability = np.broadcast_to(states, (len(self.laid_out.absent),))
        sure = np.where(probability > 0, probability, 1.0)[:, None]
        back = np.ones(len(probability))
        for stop in reversed(self.stops):
            back = self._go_back(stop, back)
        share = own * probability[:, None] / np.where(totals > 0, totals, 1.0)
        self.arrived[:, alone] = share * self.laid_out.loose[:, alone]
        self.now[:, alone] = share * self.laid_out.loose_here[:, alone]
        for cause in followers:
            self._follow(cause, probability)
        return Weighing(probability, self.now / sure, self.arrived / sure, self.blocking / sure)

    def _follow(self, cause: int, probability: FloatArray) -> None:
        """Fill in a cause nothing is told of from its one root."""
        own, ((root, strength),) = self.network.own[cause], self.network.roots[cause]
        self.arrived[:, cause] = own * probability + (1 - own) * strength * self.arrived[:, root]
        self.now[:, cause] = self.arrived[:, cause] * self.laid_out.loose_here[:, cause]

    def _presence(self, stop: Stop, dimensions: int) -> tuple[FloatArray, FloatArray]:
        """Chances that the cause is absent and present, over the axes of its open roots; neither by subtraction."""
        table = self.network.tables[stop.cause]
        if table is not None:
            return _over_axes(1 - table, stop, dimensions), _over_axes(table, stop, dimensions)
        own = self.network.own[stop.cause]
        absent, present = np.array(1 - own), np.array(own)
        for axis, (_, strength) in zip(stop.root_axes, self.network.roots[stop.cause], strict=True):
            shape = [1] * dimensions
            shape[axis] = 2
            present = present + absent * np.array([0.0, strength]).reshape(shape)
            absent = absent * np.array([1.0, 1 - strength]).reshape(shape)
        return absent, present

    def _pass(self, stop: Stop, states: FloatArray) -> FloatArray:
        for bit in stop.opens:
            states = np.stack(np.broadcast_arrays(*(states * start for start in self.laid_out.start[bit])))
        absent, present = self._presence(stop, states.ndim)
        self.before.append((states, absent, present))
        left = states * (absent * self.laid_out.absent[:, stop.cause])
        came = np.zeros_like(left)
        for course in self.courses[stop.cause]:
            came = came + push(states * course.weight, course.presses, stop)
        came = came * present
        states = np.stack((left, came)) if stop.drives else left + came
        for axis, closed in stop.closes:
            states = self._close(states, axis, closed)
        return states

    def _close(self, states: FloatArray, axis: int, bit: int | None) -> FloatArray:
        """Sum over the states of a root, or of a finding by how well they fit."""
        total: FloatArray
        if bit is None:
            total = states[at(axis, 0)] + states[at(axis, 1)]
        elif bit in self.graded:
            fits = self.laid_out.fits[bit]
            total = np.zeros(())
            for state, fit in enumerate(fits):
                total = total + states[at(axis, state)] * fit
        else:
            total = states[at(axis, 1)]
        return total

    def _go_back(self, stop: Stop, back: FloatArray) -> FloatArray:
        """Take back what the later causes want of the states; fill in this cause on the way."""
        states, absent, present = self.before.pop()
        for axis, closed in reversed(stop.closes):
            back = self._reopen(back, axis, closed)
        if_left, if_came = (back[0], back[1]) if stop.drives else (back, back)
        wanted = if_left * (absent * self.laid_out.absent[:, stop.cause])
        for course in self.courses[stop.cause]:
            wanted = wanted + self._meet(stop, course, states * present, if_came) * present
        for bit in reversed(stop.opens):
            starts = self.laid_out.start[bit]
            wanted = sum((one * start for one, start in zip(wanted, starts, strict=True)), start=np.zeros(()))
        return wanted

    def _reopen(self, back: FloatArray, axis: int, bit: int | None) -> FloatArray:
        """Transpose of :meth:`_close`."""
        if bit is None:
            return np.broadcast_to(np.expand_dims(back, axis), (*back.shape[:axis], 2, *back.shape[axis:]))
        fits = self.laid_out.fits[bit]
        opened = np.zeros((*back.shape[:axis], len(fits), *back.shape[axis:]))
        if bit in self.graded:
            for state, fit in enumerate(fits):
                opened[at(axis, state)] = back * fit
        else:
            opened[at(axis, 1)] = back
        return opened

    def _meet(self, stop: Stop, course: Course, states: FloatArray, back: FloatArray) -> FloatArray:
        """Add what a course of the cause contributes; give what it wants of the states before."""
        pulled = pull(back, course.presses, stop)
        met = summed(states * pulled)
        self.arrived[:, stop.cause] += met * course.weight
        self.now[:, stop.cause] += met * course.here_now
        if any(press.stands for press in course.presses):
            blocks = blocked(pull(back, others(course), stop), pulled, course.presses, stop)
            self.blocking[:, stop.cause] += summed(states * blocks) * course.here_now
        return pulled * course.weight


def _over_axes(table: FloatArray, stop: Stop, dimensions: int) -> FloatArray:
    """Turn a table over the roots so that its axes lie where the roots are open."""
    order = np.argsort(stop.root_axes)
    shape = [1] * dimensions
    for axis in stop.root_axes:
        shape[axis] = 2
    return np.transpose(table, order).reshape(shape)
