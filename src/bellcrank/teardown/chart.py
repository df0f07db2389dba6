"""An assembly laid out for searching: ways of doing its steps numbered, sets of them as bits of one number."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bellcrank.errors import KnowledgeFault, NotFound
from bellcrank.knowledge.assembly import Assembly, Operation
from bellcrank.teardown.sequencing import bits_of, numbers_in


@dataclass(frozen=True, slots=True)
class Chart:
    """What the search needs of each way of doing a step, by its number."""

    ids: tuple[str, ...]  # the step
    methods: tuple[str, ...]  # "" for the usual way
    needs: tuple[tuple[int, ...], ...]  # per way a set for each group: one of it must be done first
    tools: tuple[str, ...]
    orientations: tuple[tuple[str, ...], ...]
    minutes: tuple[float, ...]
    rivals: tuple[int, ...]  # per way the other ways of the same step: a step is done once
    chosen_among: int  # the ways that have rivals

    @property
    def everything(self) -> int:
        """All ways of all steps."""
        return (1 << len(self.ids)) - 1

    def work(self, ways: int) -> float:
        """Hands-on minutes of a set of ways. [min]"""
        return sum(self.minutes[number] for number in numbers_in(ways))

    def may_do(self, number: int, done: int) -> bool:
        """Whether every group of what the way needs has one that is done."""
        return all(done & group for group in self.needs[number])

    def reachable(self, chosen: int, done: int) -> int:
        """What of the chosen set can be done one after the other, starting from the done set."""
        before = -1
        while before != done:
            before = done
            for bit in bits_of(chosen & ~done):
                if all(done & group for group in self.needs[bit.bit_length() - 1]):
                    done |= bit
        return done

    def rivals_of(self, ways: int) -> int:
        """The ways that would do a step of the set a second time."""
        union = 0
        for bit in bits_of(ways & self.chosen_among):
            union |= self.rivals[bit.bit_length() - 1]
        return union

    def set_of(self, operations: Iterable[str]) -> int:
        """Give every way of the steps named by their ids as a set of bits."""
        names = set(operations)
        unknown = sorted(names.difference(self.ids))
        if unknown:
            raise NotFound(f"There is no step “{unknown[0]}” in this machine's way apart. Pick one from its list.")
        return sum(1 << number for number, name in enumerate(self.ids) if name in names)


@dataclass(frozen=True, slots=True)
class _Way:
    step: str
    method: str
    needs: tuple[tuple[str, ...], ...]
    tool: str
    orientations: tuple[str, ...]
    minutes: float


def chart(assembly: Assembly, tools: Mapping[str, str], minutes: Mapping[str, float]) -> Chart:
    """Lay an assembly out, each step in its usual way, with the tools and minutes of one direction by step."""
    return _laid_out([_Way(o.id, "", o.needs, tools[o.id], o.orientations, minutes[o.id]) for o in assembly.operations])


def chart_of_ways(assembly: Assembly) -> Chart:
    """Lay an assembly out for the way in, with every way of doing each step."""
    return _laid_out([way for operation in assembly.operations for way in _ways(operation)])


def _ways(operation: Operation) -> list[_Way]:
    usual = _Way(operation.id, "", operation.needs, operation.tool, operation.orientations, operation.in_minutes)
    reach = operation.access_minutes
    others = [_Way(operation.id, m.id, m.needs, m.tool, m.orientations, m.minutes + reach) for m in operation.methods]
    return [usual, *others]


def _laid_out(ways: list[_Way]) -> Chart:
    sets: dict[str, int] = {}
    for number, way in enumerate(ways):
        sets[way.step] = sets.get(way.step, 0) | 1 << number
    rivals = tuple(sets[way.step] & ~(1 << number) for number, way in enumerate(ways))
    return Chart(
        ids=tuple(way.step for way in ways),
        methods=tuple(way.method for way in ways),
        needs=tuple(tuple(_set(group, sets, way.step) for group in way.needs) for way in ways),
        tools=tuple(way.tool for way in ways),
        orientations=tuple(way.orientations for way in ways),
        minutes=tuple(way.minutes for way in ways),
        rivals=rivals,
        chosen_among=sum(1 << number for number, others in enumerate(rivals) if others),
    )


def _set(group: Iterable[str], sets: Mapping[str, int], needed_by: str) -> int:
    members = set(group)
    unknown = sorted(members - sets.keys())
    if unknown:
        raise KnowledgeFault(
            f"Step “{needed_by}” needs “{unknown[0]}”, which is no step of this assembly. Mend the name in its file."
        )
    return sum(sets[name] for name in members)
