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
from bellcrank.stats.trajectories import Course, LaidOut, Press, lay_out

MOST_OPEN = 18  # [-] open findings and roots together: 2 ** 18 states of 8 bytes, 2 MB for every cause passed
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
    laid_out = lay_out(network, evidence, questions[:1])
    stops = _stops(network, laid_out)
    size = sum(2**stop.width for stop in stops) * math.prod(max(1, len(start) - 1) for start in laid_out.start)
    portion = max(1, ROOM // max(1, size))
    parts = [
        _Passage(network, lay_out(network, evidence, questions[first : first + portion]), stops).weighing()
        for first in range(0, len(questions), portion)
    ]
    return parts[0] if len(parts) == 1 else _joined(parts)


def _joined(parts: list[Weighing]) -> Weighing:
    return Weighing(
        evidence=np.concatenate([part.evidence for part in parts]),
        now=np.concatenate([part.now for part in parts]),
        arrived=np.concatenate([part.arrived for part in parts]),
        blocking=np.concatenate([part.blocking for part in parts]),
    )


def _stops(network: FaultNetwork, laid_out: LaidOut) -> tuple[Stop, ...]:
    """Order the causes that press on findings or hang together by links; the others stand alone."""
    linked = {root for own in network.roots for root, _ in own} | {c for c, own in enumerate(network.roots) if own}
    bits = {
        cause: tuple(sorted({press.bit for course in courses for press in course.presses}))
        for cause, courses in enumerate(laid_out.courses)
    }
    passed = {cause: own for cause, own in bits.items() if own or cause in linked}
    roots = {cause: tuple(root for root, _ in network.roots[cause]) for cause in passed}
    stops = passing_order(passed, roots)
    widest = max((stop.width for stop in stops), default=0)
    if widest > MOST_OPEN:
        raise OutOfRange(
            f"{len(laid_out.start)} findings, with all that hangs together with them, are too much to be weighed "
            "exactly. Take back the findings you trust least."
        )
    return stops


class _Passage:
    """The causes passed forward and then backward, for one portion of questions (last axis)."""

    def __init__(self, network: FaultNetwork, laid_out: LaidOut, stops: tuple[Stop, ...]) -> None:
        self.network = network
        self.laid_out = laid_out
        self.stops = stops
        shape = laid_out.absent.shape
        self.now, self.arrived, self.blocking = np.zeros(shape), np.zeros(shape), np.zeros(shape)
        self.before: list[FloatArray] = []

    def weighing(self) -> Weighing:
        """Pass all causes and give what comes out."""
        unpressed = set(range(len(self.laid_out.start))) - {b for stop in self.stops for b in stop.opens}
        states = self.laid_out.leak
        for bit in unpressed:
            states = states * sum(a * b for a, b in zip(self.laid_out.start[bit], self.laid_out.fits[bit], strict=True))
        alone = [cause for cause in range(len(self.network.names)) if cause not in {s.cause for s in self.stops}]
        for cause in alone:
            states = states * self._alone(cause)
        for stop in self.stops:
            states = self._pass(stop, states)
        probability = np.broadcast_to(states, (len(self.laid_out.absent),))
        sure = np.where(probability > 0, probability, 1.0)[:, None]
        back = np.ones(len(probability))
        for stop in reversed(self.stops):
            back = self._go_back(stop, back)
        for cause in alone:
            self._fill_alone(cause, probability)
        return Weighing(probability, self.now / sure, self.arrived / sure, self.blocking / sure)

    def _alone(self, cause: int) -> FloatArray:
        own = self.network.own[cause]
        total: FloatArray = (1 - own) * self.laid_out.absent[:, cause]
        for course in self.laid_out.courses[cause]:
            total = total + own * course.weight
        return total

    def _fill_alone(self, cause: int, probability: FloatArray) -> None:
        total = self._alone(cause)
        share = self.network.own[cause] * probability / np.where(total > 0, total, 1.0)
        for course in self.laid_out.courses[cause]:
            self.arrived[:, cause] += share * course.weight
            self.now[:, cause] += share * course.here_now

    def _presence(self, stop: Stop, dimensions: int) -> tuple[FloatArray, FloatArray]:
        """Chances that the cause is absent and present, over the axes of its open roots; neither by subtraction."""
        own = self.network.own[stop.cause]
        absent, present = np.full((1,) * dimensions, 1 - own), np.full((1,) * dimensions, own)
        for axis, (_, strength) in zip(stop.root_axes, self.network.roots[stop.cause], strict=True):
            shape = [1] * dimensions
            shape[axis] = 2
            present = present + absent * np.array([0.0, strength]).reshape(shape)
            absent = absent * np.array([1.0, 1 - strength]).reshape(shape)
        return absent, present

    def _pass(self, stop: Stop, states: FloatArray) -> FloatArray:
        for bit in stop.opens:
            states = np.stack(np.broadcast_arrays(*(states * start for start in self.laid_out.start[bit])))
        self.before.append(states)
        absent, present = self._presence(stop, states.ndim)
        left = states * (absent * self.laid_out.absent[:, stop.cause])
        came = sum(
            (_push(states * course.weight, course.presses, stop) for course in self.laid_out.courses[stop.cause]),
            start=np.zeros(()),
        )
        came = came * present
        states = np.stack((left, came)) if stop.drives else left + came
        for axis, closed in stop.closes:
            states = self._close(np.moveaxis(states, axis, 0), closed)
        return states

    def _close(self, front: FloatArray, bit: int | None) -> FloatArray:
        """Sum over the states of a root, or of a finding by how well they fit."""
        total: FloatArray
        if bit is None:
            total = front.sum(axis=0)
        elif (fits := self.laid_out.fits[bit])[0].any() or len(fits) > 2:
            total = sum((one * fit for one, fit in zip(front, fits, strict=True)), start=np.zeros(()))
        else:
            total = front[1]
        return total

    def _go_back(self, stop: Stop, back: FloatArray) -> FloatArray:
        """Take back what the later causes want of the states; fill in this cause on the way."""
        states = self.before.pop()
        for axis, closed in reversed(stop.closes):
            fits = (np.ones(1), np.ones(1)) if closed is None else self.laid_out.fits[closed]
            back = np.stack(np.broadcast_arrays(*(back * fit for fit in fits)), axis=axis)
        if_left, if_came = (back[0], back[1]) if stop.drives else (back, back)
        absent, present = self._presence(stop, states.ndim)
        wanted = if_left * (absent * self.laid_out.absent[:, stop.cause])
        for course in self.laid_out.courses[stop.cause]:
            wanted = wanted + self._meet(stop, course, states * present, if_came) * present
        for bit in reversed(stop.opens):
            starts = self.laid_out.start[bit]
            wanted = sum((one * start for one, start in zip(wanted, starts, strict=True)), start=np.zeros(()))
        return wanted

    def _meet(self, stop: Stop, course: Course, states: FloatArray, back: FloatArray) -> FloatArray:
        """Add what a course of the cause contributes; give what it wants of the states before."""
        pulled = _pull(back, course.presses, stop)
        met = _summed(states * pulled)
        self.arrived[:, stop.cause] += met * course.weight
        self.now[:, stop.cause] += met * course.here_now
        if any(press.stands for press in course.presses):
            blocks = _blocked(_pull(back, _others(course), stop), pulled, course.presses, stop)
            self.blocking[:, stop.cause] += _summed(states * blocks) * course.here_now
        return pulled * course.weight


def _push(states: FloatArray, presses: tuple[Press, ...], stop: Stop) -> FloatArray:
    """Let a present cause explain what it can; ``states`` is a fresh array and is used up."""
    for press in presses:
        if press.graded is not None:
            _push_graded(np.moveaxis(states, stop.axis_of[press.bit], 0), press.graded)
            continue
        low, high = _halves(states, stop.axis_of[press.bit])
        high += low * (1 - press.stay)
        low *= press.stay
    return states


def _push_graded(front: FloatArray, rows: FloatArray) -> None:
    """Let a present cause raise a finding that was not seen clearly, in place; from the top down."""
    for state in range(len(rows) - 1, 0, -1):
        front[state] *= rows[state]
        front[state] += front[:state].sum(axis=0) * (rows[state] - rows[state - 1])
    front[0] *= rows[0]


def _pull_graded(front: FloatArray, rows: FloatArray) -> None:
    """Transpose of :func:`_push_graded`, in place."""
    for state in range(len(rows)):
        front[state] *= rows[state]
        for higher in range(state + 1, len(rows)):
            front[state] += front[higher] * (rows[higher] - rows[higher - 1])


def _pull(back: FloatArray, presses: tuple[Press, ...], stop: Stop) -> FloatArray:
    """Transpose of :func:`_push`, on a copy."""
    back = back.copy()
    for press in presses:
        if press.graded is not None:
            _pull_graded(np.moveaxis(back, stop.axis_of[press.bit], 0), press.graded)
            continue
        low, high = _halves(back, stop.axis_of[press.bit])
        low *= press.stay
        low += high * (1 - press.stay)
    return back


def _others(course: Course) -> tuple[Press, ...]:
    return tuple(press for press in course.presses if not press.stands)


def _blocked(others: FloatArray, pulled: FloatArray, presses: tuple[Press, ...], stop: Stop) -> FloatArray:
    """Give the part of what was pulled in which the cause blocks: with one complaint exactly, else all less none."""
    standing = [press for press in presses if press.stands]
    if len(standing) == 1:
        low, high = _halves(others, stop.axis_of[standing[0].bit])
        low[...] = high
        return others * (1 - standing[0].stay)
    for press in standing:
        others = others * press.stay
    return np.clip(pulled - others, 0.0, None)


def _halves(states: FloatArray, axis: int) -> tuple[FloatArray, FloatArray]:
    """Give the states in which a finding is not explained yet, and those in which it is (views)."""
    front = np.moveaxis(states, axis, 0)
    return front[0], front[1]


def _summed(states: FloatArray) -> FloatArray:
    """Sum over everything but the questions."""
    total: FloatArray = states.reshape(-1, states.shape[-1]).sum(axis=0)
    return total
