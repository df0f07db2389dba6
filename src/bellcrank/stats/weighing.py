"""Exact weighing of causes by the evidence: a dynamic programme over which findings are explained so far.

A state is the set of "bits" (findings above their lowest level, and complaints) that the causes passed so far explain.
Every term is positive, so nothing cancels, however unlikely the evidence. Causes joined by links form blocks; in a
block the causes that bring others about are taken in every joint state, the rest then stand alone. A backward pass
gives every cause's probability at once, and all questions are answered in the same pass.

References
----------
D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases, UAI 1989 (the problem; the subset
programme here replaces its alternating sum).
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from bellcrank.errors import KnowledgeFault, OutOfRange
from bellcrank.stats.evidence import Evidence, Question
from bellcrank.stats.fault_network import FaultNetwork, FloatArray
from bellcrank.stats.trajectories import Course, Press, Trajectory, lay_out

MOST_BITS = 14  # [-] 16 384 states; a job has three to eight such findings
MOST_DRIVERS = 10  # [-] causes with consequences in one connected block: 1 024 joint states
ROOM = 4_000_000  # [-] numbers held at once; questions are taken in portions that fit


@dataclass(frozen=True, slots=True, eq=False)
class Weighing:
    """What the evidence says, one row a question."""

    evidence: FloatArray  # shape (questions,): probability of the evidence [-]
    now: FloatArray  # shape (questions, causes): probability that it is there now [-]
    arrived: FloatArray  # shape (questions, causes): that it was there on arrival [-]


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """Causes joined by links: drivers in every joint state, followers given the drivers."""

    drivers: tuple[int, ...]
    followers: tuple[int, ...]
    states: FloatArray  # shape (joint states, drivers): 0 or 1
    chances: FloatArray  # shape (joint states,): of the drivers' state [-]
    follower_chances: FloatArray  # shape (joint states, followers): given the drivers [-]


def blocks_of(network: FaultNetwork) -> tuple[Block, ...]:
    """Split a network into its blocks; do it once, the evidence does not change it."""
    drives = {root for roots in network.roots for root, _ in roots}
    return tuple(_block(network, group, drives) for group in _connected(network))


def weigh(
    network: FaultNetwork,
    blocks: tuple[Block, ...],
    evidence: Evidence,
    questions: tuple[Question, ...] = (Question(),),
) -> Weighing:
    """Weigh every cause by the evidence, once for each question.

    >>> from bellcrank.stats.fault_network import NetworkCause, NetworkFinding, fault_network
    >>> from bellcrank.stats.evidence import Sighting
    >>> rows = {"a": (0.3, 0.7), "b": (0.5, 0.5)}
    >>> net = fault_network(
    ...     [NetworkCause("a", 0.1), NetworkCause("b", 0.1)], [NetworkFinding("y", (0.95, 0.05), rows)]
    ... )
    >>> weigh(net, blocks_of(net), Evidence((Sighting("y", 1),))).now.round(4).tolist()
    [[0.4539, 0.3474]]
    """
    bits = len(evidence.standings) + sum(sighting.level > 0 for sighting in evidence.sightings)
    if bits > MOST_BITS:
        raise OutOfRange(
            f"{bits} findings stand out at once; Bellcrank weighs up to {MOST_BITS}. Take back those you trust least."
        )
    most_states = max((len(block.chances) for block in blocks), default=1) * 2**bits
    portion = max(1, ROOM // (most_states * max(1, len(network.names))))
    parts = [
        _weigh_portion(network, blocks, lay_out(network, evidence, questions[first : first + portion]))
        for first in range(0, len(questions), portion)
    ]
    if len(parts) == 1:
        return parts[0]
    return Weighing(*(np.concatenate([getattr(p, name) for p in parts]) for name in ("evidence", "now", "arrived")))


def _weigh_portion(network: FaultNetwork, blocks: tuple[Block, ...], course: Course) -> Weighing:
    questions = len(course.start)
    states = course.start
    passages = []
    for block in blocks:
        passage = _Passage(block, course, states)
        passages.append(passage)
        states = passage.states_after
    full = np.zeros_like(states)
    full[:, -1] = 1.0
    probability = states[:, -1]
    sure = np.where(probability > 0, probability, 1.0)
    now = np.zeros((questions, len(network.names)))
    arrived = np.zeros_like(now)
    wanted = full
    for passage in reversed(passages):
        wanted = passage.go_back(wanted, now, arrived)
    return Weighing(probability, now / sure[:, None], arrived / sure[:, None])


class _Passage:
    """One block passed forward and then backward."""

    def __init__(self, block: Block, course: Course, states: FloatArray) -> None:
        self.block = block
        self.course = course
        self.plain, self.pressing = _sorted_followers(block, course)
        plain_chances = block.follower_chances[:, self.plain]  # (z, plain)
        weights = (
            np.stack([_plain_weight(course, block.followers[place]) for place in self.plain], axis=-1)
            if len(self.plain)
            else np.ones((len(states), 2, 0))
        )
        self.plain_here = plain_chances[None] * weights[:, None, 0]  # (k, z, plain)
        self.plain_came = plain_chances[None] * weights[:, None, 1]
        self.plain_all = 1 - plain_chances[None] + self.plain_came
        scale = block.chances[None, :] * self.plain_all.prod(axis=2)
        self.before = [states[:, None, :] * scale[:, :, None]]
        for place in range(len(block.drivers)):
            self.before.append(self._drive(self.before[-1], place))
        for place in self.pressing:
            self.before.append(self._follow(self.before[-1], place))
        self.scale = scale
        self.states_after: FloatArray = self.before[-1].sum(axis=1)

    def _drive(self, states: FloatArray, place: int) -> FloatArray:
        cause = self.block.drivers[place]
        here = self.block.states[:, place] > 0
        passed = states.copy()
        passed[:, here] = _mixed(states[:, here], self.course.causes[cause])
        return passed

    def _follow(self, states: FloatArray, place: int) -> FloatArray:
        chance = self.block.follower_chances[None, :, place, None]
        pushed = _mixed(states, self.course.causes[self.block.followers[place]])
        return (1 - chance) * states + chance * pushed

    def go_back(self, wanted: FloatArray, now: FloatArray, arrived: FloatArray) -> FloatArray:
        """Take back what the later causes want of the states; fill in this block's causes on the way."""
        back = np.broadcast_to(wanted[:, None, :], self.before[-1].shape)
        joint = np.einsum("kzs,kzs->kz", self.before[-1], back)
        self._fill_plain(joint, now, arrived)
        steps = len(self.before) - 1
        for place in reversed(self.pressing):
            steps -= 1
            back = self._follow_back(self.before[steps], back, place, now, arrived)
        for place in reversed(range(len(self.block.drivers))):
            steps -= 1
            back = self._drive_back(self.before[steps], back, place, now, arrived)
        before: FloatArray = (back * self.scale[:, :, None]).sum(axis=1)
        return before

    def _fill_plain(self, joint: FloatArray, now: FloatArray, arrived: FloatArray) -> None:
        for column, place in enumerate(self.plain):
            cause = self.block.followers[place]
            share = joint / np.where(self.plain_all[:, :, column] > 0, self.plain_all[:, :, column], 1.0)
            now[:, cause] = (share * self.plain_here[:, :, column]).sum(axis=1)
            arrived[:, cause] = (share * self.plain_came[:, :, column]).sum(axis=1)

    def _follow_back(
        self, states: FloatArray, back: FloatArray, place: int, now: FloatArray, arrived: FloatArray
    ) -> FloatArray:
        cause = self.block.followers[place]
        chance = self.block.follower_chances[None, :, place, None]
        pulled = np.zeros_like(states)
        for trajectory in self.course.causes[cause]:
            one = _pull(back, trajectory)
            pulled += one
            met = np.einsum("kzs,kzs,z->k", states, one, chance[0, :, 0])
            arrived[:, cause] += met
            if trajectory.here_now:
                now[:, cause] += met
        return (1 - chance) * back + chance * pulled

    def _drive_back(
        self, states: FloatArray, back: FloatArray, place: int, now: FloatArray, arrived: FloatArray
    ) -> FloatArray:
        cause = self.block.drivers[place]
        here = self.block.states[:, place] > 0
        passed = back.copy()
        passed[:, here] = 0.0
        for trajectory in self.course.causes[cause]:
            one = _pull(back[:, here], trajectory)
            passed[:, here] += one
            met = np.einsum("kzs,kzs->k", states[:, here], one)
            arrived[:, cause] += met
            if trajectory.here_now:
                now[:, cause] += met
        return passed


def _sorted_followers(block: Block, course: Course) -> tuple[list[int], list[int]]:
    """Split the followers into those that only scale and those that press on open findings."""
    plain: list[int] = []
    pressing: list[int] = []
    for place, cause in enumerate(block.followers):
        has_press = any(trajectory.presses for trajectory in course.causes[cause])
        (pressing if has_press else plain).append(place)
    return plain, pressing


def _plain_weight(course: Course, cause: int) -> FloatArray:
    """Weight of a cause without presses: being here now, and having come at all; shape (questions, 2)."""
    here = sum(t.weight * t.factor for t in course.causes[cause] if t.here_now)
    came = sum(t.weight * t.factor for t in course.causes[cause])
    return np.stack([np.asarray(here), np.asarray(came)], axis=-1)


def _mixed(states: FloatArray, trajectories: tuple[Trajectory, ...]) -> FloatArray:
    total = np.zeros_like(states)
    for trajectory in trajectories:
        total += _push(states, trajectory)
    return total


def _push(states: FloatArray, trajectory: Trajectory) -> FloatArray:
    """Let a present cause explain what it can."""
    states = states * (trajectory.weight * trajectory.factor)[:, None, None]
    for press in trajectory.presses:
        low, high = _halves(states, press)
        states = _joined(states, press, low * _wide(press.stay), low * _wide(press.move) + high * _wide(press.top))
    return states


def _pull(back: FloatArray, trajectory: Trajectory) -> FloatArray:
    """Transpose of :func:`_push`."""
    back = back * (trajectory.weight * trajectory.factor)[:, None, None]
    for press in trajectory.presses:
        low, high = _halves(back, press)
        back = _joined(back, press, low * _wide(press.stay) + high * _wide(press.move), high * _wide(press.top))
    return back


def _halves(states: FloatArray, press: Press) -> tuple[FloatArray, FloatArray]:
    split = states.reshape(*states.shape[:2], -1, 2, 2**press.bit)
    return split[:, :, :, 0], split[:, :, :, 1]


def _joined(states: FloatArray, press: Press, low: FloatArray, high: FloatArray) -> FloatArray:
    return np.stack((low, high), axis=3).reshape(states.shape)


def _wide(coefficient: FloatArray) -> FloatArray:
    return coefficient[:, None, None, None]


def _connected(network: FaultNetwork) -> Iterator[tuple[int, ...]]:
    """Give the groups of causes that hang together by links, those without links one by one in one group."""
    neighbours: dict[int, set[int]] = {cause: set() for cause in range(len(network.names))}
    for cause, roots in enumerate(network.roots):
        for root, _ in roots:
            neighbours[cause].add(root)
            neighbours[root].add(cause)
    alone = tuple(cause for cause, near in neighbours.items() if not near)
    if alone:
        yield alone
    left = [cause for cause, near in neighbours.items() if near]
    while left:
        group = {left[0]}
        border = [left[0]]
        while border:
            fresh = neighbours[border.pop()] - group
            group |= fresh
            border.extend(fresh)
        left = [cause for cause in left if cause not in group]
        yield tuple(sorted(group))


def _block(network: FaultNetwork, group: tuple[int, ...], drives: set[int]) -> Block:
    drivers = _roots_first(network, tuple(cause for cause in group if cause in drives))
    if len(drivers) > MOST_DRIVERS:
        raise KnowledgeFault(
            f"{len(drivers)} causes that bring others about hang together; {MOST_DRIVERS} at most can be weighed "
            f"exactly. Take a link out between them: {', '.join(network.names[cause] for cause in drivers)}."
        )
    followers = tuple(cause for cause in group if cause not in drives)
    states = np.array([[(z >> place) & 1 for place in range(len(drivers))] for z in range(2 ** len(drivers))], float)
    states = states.reshape(2 ** len(drivers), len(drivers))
    here = _present_chances(network, drivers, states, drivers)
    chances = np.where(states > 0, here, 1 - here).prod(axis=1)
    return Block(drivers, followers, states, chances, _present_chances(network, followers, states, drivers))


def _present_chances(
    network: FaultNetwork, causes: tuple[int, ...], states: FloatArray, drivers: tuple[int, ...]
) -> FloatArray:
    """Chance that each cause is present, for each joint state of the drivers; shape (states, causes)."""
    absent = np.tile(1 - network.own[list(causes)], (len(states), 1))
    for column, cause in enumerate(causes):
        for root, strength in network.roots[cause]:
            absent[:, column] *= 1 - strength * states[:, drivers.index(root)]
    return 1 - absent


def _roots_first(network: FaultNetwork, drivers: tuple[int, ...]) -> tuple[int, ...]:
    ordered: list[int] = []
    left = list(drivers)
    while left:
        ready = [c for c in left if all(root in ordered or root not in left for root, _ in network.roots[c])]
        ordered.extend(ready)
        left = [cause for cause in left if cause not in ready]
    return tuple(ordered)
