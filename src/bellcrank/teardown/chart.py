"""An assembly laid out for searching: operations numbered, sets of them as the bits of one whole number."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from bellcrank.errors import KnowledgeFault, NotFound
from bellcrank.knowledge.assembly import Assembly


@dataclass(frozen=True, slots=True)
class Chart:
    """What the search needs of each operation, by its number."""

    ids: tuple[str, ...]
    needs: tuple[tuple[int, ...], ...]  # per operation a set for each group: one of it must be done first
    tools: tuple[str, ...]
    orientations: tuple[tuple[str, ...], ...]
    minutes: tuple[float, ...]

    def work(self, operations: int) -> float:
        """Hands-on minutes of a set of operations. [min]"""
        return sum(self.minutes[number] for number in numbers_in(operations))

    def may_do(self, number: int, done: int) -> bool:
        """Whether every group of what the operation needs has one that is done."""
        return all(done & group for group in self.needs[number])

    def reachable(self, chosen: int, done: int) -> int:
        """What of the chosen set can be done one after the other, starting from the done set."""
        left = chosen & ~done
        while ready := sum(1 << n for n in numbers_in(left) if self.may_do(n, done)):
            done |= ready
            left &= ~ready
        return done

    def set_of(self, operations: Iterable[str]) -> int:
        """Give operations named by their ids as a set of bits."""
        numbers = {name: number for number, name in enumerate(self.ids)}
        names = set(operations)
        unknown = sorted(names - numbers.keys())
        if unknown:
            raise NotFound(f"There is no step “{unknown[0]}” in this machine's way apart. Pick one from its list.")
        return sum(1 << numbers[name] for name in names)


def chart(assembly: Assembly, tools: Mapping[str, str], minutes: Mapping[str, float]) -> Chart:
    """Lay an assembly out with the tools and minutes of one direction of work, by operation id."""
    numbers = {operation.id: number for number, operation in enumerate(assembly.operations)}
    return Chart(
        ids=tuple(numbers),
        needs=tuple(tuple(_bits(group, numbers, o.id) for group in o.needs) for o in assembly.operations),
        tools=tuple(tools[o.id] for o in assembly.operations),
        orientations=tuple(o.orientations for o in assembly.operations),
        minutes=tuple(minutes[o.id] for o in assembly.operations),
    )


def numbers_in(operations: int) -> Iterator[int]:
    """Count out the numbers of the operations in a set, lowest first."""
    while operations:
        lowest = operations & -operations
        yield lowest.bit_length() - 1
        operations ^= lowest


def _bits(group: Iterable[str], numbers: Mapping[str, int], needed_by: str) -> int:
    members = set(group)
    unknown = sorted(members - numbers.keys())
    if unknown:
        raise KnowledgeFault(
            f"Step “{needed_by}” needs “{unknown[0]}”, which is no step of this assembly. Mend the name in its file."
        )
    return sum(1 << numbers[name] for name in members)
