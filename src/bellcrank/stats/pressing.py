"""What presses on open findings, done to states: the steps of :mod:`bellcrank.stats.weighing`, forward and backward."""

from functools import cache

import numpy as np

from bellcrank.stats.fault_network import FloatArray
from bellcrank.stats.passing_order import Stop
from bellcrank.stats.trajectories import Course, Press


def push(states: FloatArray, presses: tuple[Press, ...], stop: Stop) -> FloatArray:
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


def pull(back: FloatArray, presses: tuple[Press, ...], stop: Stop) -> FloatArray:
    """Transpose of :func:`push`, on a copy."""
    back = back.copy()
    for press in presses:
        if press.graded is not None:
            _pull_graded(np.moveaxis(back, stop.axis_of[press.bit], 0), press.graded)
            continue
        low, high = _halves(back, stop.axis_of[press.bit])
        low *= press.stay
        low += high * (1 - press.stay)
    return back


def others(course: Course) -> tuple[Press, ...]:
    """Give the presses on anything but complaints."""
    return tuple(press for press in course.presses if not press.stands)


def blocked(others: FloatArray, pulled: FloatArray, presses: tuple[Press, ...], stop: Stop) -> FloatArray:
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
    return states[at(axis, 0)], states[at(axis, 1)]


@cache
def at(axis: int, state: int) -> tuple[slice | int, ...]:
    """Give the index of one state along an axis."""
    return (*(slice(None),) * axis, state)


def summed(states: FloatArray) -> FloatArray:
    """Sum over everything but the questions."""
    total: FloatArray = states.reshape(-1, states.shape[-1]).sum(axis=0)
    return total
