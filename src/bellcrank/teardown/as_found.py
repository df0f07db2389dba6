"""What was found on a machine while it was worked on, and the assembly with it: other lengths, missing fasteners.

Everything is said of the fasteners as drawn, by number in the order of tightening, so that what is taken back leaves
the rest as it was. What speaks of a step or a fastener the assembly does not have is passed over.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from bellcrank.knowledge.assembly import CONDITIONS, Assembly, Fastener

LENGTH, CONDITION, MISSING, NOTE = "length", "condition", "missing", "note"


@dataclass(frozen=True, slots=True)
class NewLength:
    """A length some fasteners of a group really have."""

    fastener: str  # as drawn
    numbers: tuple[int, ...]  # in the order of tightening, from 1
    length_mm: float  # under the head


@dataclass(frozen=True, slots=True)
class Captured:
    """One thing found at a step."""

    what: str  # length, condition, missing, note
    operation: str
    fastener: str = ""  # as drawn; "" for a note
    lengths: tuple[NewLength, ...] = ()
    condition: str = ""  # of CONDITIONS; "" when it came loose after all
    numbers: tuple[int, ...] = ()  # among which some are missing, in the order of tightening
    missing: int = 0  # how many of these are not there
    words: str = ""  # of a note


@dataclass(frozen=True, slots=True)
class Alike:
    """Those of a drawn group that are alike, as found."""

    fastener: Fastener
    drawn: Fastener
    numbers: tuple[int, ...]


def as_found(assembly: Assembly, captured: Iterable[Captured]) -> Assembly:
    """Give the assembly as it was found: unlike fasteners stand apart from their group, missing ones are counted."""
    told = tuple(one for one in captured if one.what in (LENGTH, MISSING))
    operations = tuple(
        replace(step, fasteners=tuple(one.fastener for one in alike(step.fasteners, told))) if step.fasteners else step
        for step in assembly.operations
    )
    return replace(assembly, operations=operations)


def alike(drawn: Iterable[Fastener], captured: Sequence[Captured]) -> tuple[Alike, ...]:
    """Part drawn groups of fasteners into those that are alike as found."""
    return tuple(part for one in drawn for part in _parts(one, captured))


def conditions_of(captured: Iterable[Captured]) -> Mapping[str, frozenset[str]]:
    """Give in which condition the fasteners of each step were found, the last word on each fastener."""
    last = {(one.operation, one.fastener): one.condition for one in captured if one.what == CONDITION}
    found: dict[str, frozenset[str]] = {}
    for (operation, _), condition in last.items():
        if condition in CONDITIONS:
            found[operation] = found.get(operation, frozenset()) | {condition}
    return found


def has_length(fastener: Fastener) -> bool:
    """Whether a length under the head can be said of it; a nut has none."""
    return not fastener.thread or bool(fastener.into) or not fastener.under_head


def _parts(drawn: Fastener, captured: Sequence[Captured]) -> tuple[Alike, ...]:
    named = [new.numbers for one in captured for new in one.lengths if new.fastener == drawn.id]
    seen = frozenset(number for numbers in named if len(numbers) < drawn.count for number in numbers)
    lengths: list[float | None] = [drawn.length_mm] * drawn.count
    missing: frozenset[int] = frozenset()
    for one in captured:
        if one.what == MISSING and one.fastener == drawn.id:
            there = [number for number in one.numbers if number <= drawn.count]
            missing = missing - set(there) | _empty(one.missing, there, seen)
        for new in one.lengths if has_length(drawn) else ():
            if new.fastener == drawn.id:
                lengths = [new.length_mm if at in new.numbers else had for at, had in enumerate(lengths, start=1)]
    usual = Counter(lengths).most_common(1)[0][0]
    by_length = {one: tuple(at for at, had in enumerate(lengths, start=1) if had == one) for one in (usual, *lengths)}
    return tuple(
        Alike(_part(drawn, length, numbers, len(missing.intersection(numbers)), usual), drawn, numbers)
        for length, numbers in by_length.items()
    )


def _empty(many: int, numbers: Iterable[int], seen: Collection[int]) -> frozenset[int]:
    """Give the places that are empty; nobody said which, so the last of those nobody held in his hand are taken."""
    return frozenset(sorted(numbers, key=lambda number: (number in seen, -number))[:many])


def _part(
    drawn: Fastener, length: float | None, numbers: tuple[int, ...], missing: int, usual: float | None
) -> Fastener:
    """Give those of a group that are alike; the ones unlike most have a name of their own."""
    found = replace(drawn, length_mm=length, engaged_mm=_engaged(drawn, length), missing=missing)
    if len(numbers) == drawn.count:
        return found
    said = f"number {numbers[0]}" if len(numbers) == 1 else f"numbers {', '.join(map(str, numbers))}"
    found = replace(
        found,
        count=len(numbers),
        by_hand_first=drawn.by_hand_first and len(numbers) > 1,
        where=f"{said} of {drawn.count}: {drawn.where}",
        places=tuple(drawn.places[at - 1] for at in numbers) if len(drawn.places) == drawn.count else (),
    )
    if length == usual:
        return found
    long = "length not known" if length is None else f"{length:g} mm"
    return replace(found, id=f"{drawn.id}-n{numbers[0]}", words=f"{drawn.words}, {long}")


def _engaged(drawn: Fastener, length: float | None) -> float | None:
    """Give how much thread holds: a longer screw is not trusted to hold with more of it, a shorter one holds less."""
    if drawn.engaged_mm is None or length is None or drawn.length_mm is None or length >= drawn.length_mm:
        return drawn.engaged_mm
    left = drawn.engaged_mm - (drawn.length_mm - length)
    return left if left > 0 else min(drawn.engaged_mm, length)
