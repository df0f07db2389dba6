"""What closed jobs have in common, as counts: they add up, in any order, and grow old."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from bellcrank.stats.updating import LogSums

HALF_LIFE = 3.0  # [years] after three seasons a job counts half: fuel, machines and customers change


@dataclass(frozen=True, slots=True)
class Counts:
    """Counts over jobs of one kind of machine; parts of a job where several causes share it."""

    jobs: Mapping[str, float] = field(default_factory=dict)  # complaint -> jobs whose cure is known
    causes: Mapping[tuple[str, str], float] = field(default_factory=dict)  # complaint, cause -> of those, cured so
    results: Mapping[tuple[str, str, str], float] = field(default_factory=dict)  # check, cause or LEAK_ROW, result
    minutes: Mapping[str, LogSums] = field(default_factory=dict)  # repair -> times it took [min]

    @property
    def empty(self) -> bool:
        """Whether nothing was counted."""
        return not (self.jobs or self.results or self.minutes)


def added(weighted: Iterable[tuple[Counts, float]]) -> Counts:
    """Add counts, each with its weight."""
    jobs: defaultdict[str, float] = defaultdict(float)
    causes: defaultdict[tuple[str, str], float] = defaultdict(float)
    results: defaultdict[tuple[str, str, str], float] = defaultdict(float)
    minutes: defaultdict[str, LogSums] = defaultdict(LogSums)
    for counts, weight in weighted:
        for complaint, number in counts.jobs.items():
            jobs[complaint] += weight * number
        for pair, number in counts.causes.items():
            causes[pair] += weight * number
        for cell, number in counts.results.items():
            results[cell] += weight * number
        for repair, one in counts.minutes.items():
            before = minutes[repair]
            minutes[repair] = LogSums(
                before.count + weight * one.count,
                before.logs + weight * one.logs,
                before.squares + weight * one.squares,
            )
    return Counts(dict(jobs), dict(causes), dict(results), dict(minutes))


def weight_at(age: float) -> float:
    """What a job counts after so many years.

    >>> weight_at(0), weight_at(3), weight_at(6), weight_at(-1)
    (1.0, 0.5, 0.25, 1.0)
    """
    weight: float = 0.5 ** (max(0.0, age) / HALF_LIFE)
    return weight
