"""The planner's problem without the machine: operations to put in order at the least cost of changing setups.

A setup is one state of each aspect: the tool in the hand, how the machine lies. The same search orders the steps of a
way in and the nodes of a sequential ordering problem, where every node is a state of its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass

Setup = tuple[int, ...]  # one state of each aspect


@dataclass(frozen=True, slots=True)
class Aspect:
    """One thing that is changed between operations.

    Parameters
    ----------
    costs : tuple of tuples of float
        What it costs to change from one state to another. [min]
    fits : tuple of int
        For each operation the set of states it can be done in; 0 for any.
    start : int
        The state before the first operation.
    nothing : int, optional
        The state of empty hands, of an aspect in which every change costs the same and no operation asks for it.

    Notes
    -----
    The search is exact when no detour is shorter than a direct change, or when each state serves one operation only:
    then a state that is left is never wanted again and doing all it allows at once is no choice.
    """

    costs: tuple[tuple[float, ...], ...]
    fits: tuple[int, ...]
    start: int
    nothing: int | None = None


@dataclass(frozen=True, slots=True)
class Sequencing:
    """Operations by their numbers: sets of them are the bits of one whole number."""

    needs: tuple[tuple[int, ...], ...]  # per operation a set for each group: one of it must be done first
    minutes: tuple[float, ...]
    aspects: tuple[Aspect, ...]
    done: int = 0  # operations done before

    def work(self, operations: int) -> float:
        """Minutes of a set of operations without any changing. [min]"""
        return sum(self.minutes[bit.bit_length() - 1] for bit in bits_of(operations))


def bits_of(operations: int) -> Iterator[int]:
    """Give each operation of a set as a set of its own, lowest first."""
    while operations:
        bit = operations & -operations
        yield bit
        operations ^= bit


def numbers_in(operations: int) -> Iterator[int]:
    """Count out the numbers of the operations in a set, lowest first."""
    for bit in bits_of(operations):
        yield bit.bit_length() - 1
