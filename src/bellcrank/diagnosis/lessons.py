"""What one closed case teaches: which cause it was, what the checks showed with it, how long the repair took.

A cause is confirmed by the repair that cured the machine, or because the mechanic named it. Where a repair mends
several, each gets the part the pack's own numbers give it. Nothing is taken for absent because nobody looked: a result
counts for a sound machine only as far as the causes the check looks at are ruled out by all that is known of the case.

Parts are always worked out with the pack's own numbers, never with learnt ones: the order of the jobs does not matter,
and what was learnt does not feed itself.
"""

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate

from bellcrank.diagnosis.belief import gather, level_of
from bellcrank.diagnosis.case import Case, Repaired
from bellcrank.diagnosis.closed_case import ClosedCase, Cure, holding
from bellcrank.diagnosis.counts import Counts
from bellcrank.diagnosis.findings import counting
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.errors import OutOfRange
from bellcrank.knowledge.model import Check
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.stats.evidence import Question
from bellcrank.stats.updating import sums_of
from bellcrank.stats.weighing import Weighing, weigh

LEAST_COUNTED = 1e-3  # [-] parts of a case not worth a line


@dataclass(frozen=True, slots=True)
class _Cured:
    """A cure with the part each cause has in it."""

    cure: Cure
    parts: Mapping[str, float]
    before: int  # repairs done before it
    ruled_out: frozenset[str]  # what its repairs mend besides, and it was not


def lesson_of(compiled: CompiledPack, closed: ClosedCase, cures: tuple[Cure, ...]) -> Counts:
    """Count what a closed case shows, by the pack's own numbers."""
    weighed = holding(compiled, closed.case.complaints)
    try:
        _, evidence = gather(weighed, closed.case)
        each = tuple(Question(without=frozenset({place})) for place in range(len(evidence.sightings)))
        weighing = weigh(weighed.network, evidence, each) if each else None
        cured = [_cured(weighed, closed, cure) for cure in cures]
    except OutOfRange:  # too much to be weighed exactly: it teaches nothing
        return Counts()
    last = cures[-1].repairs if cures else ()
    return Counts(
        jobs={complaint: 1.0 for cure in cures for complaint in cure.complaints},
        causes={
            (complaint, cause): part
            for one in cured
            for complaint in one.cure.complaints
            for cause, part in one.parts.items()
            if part >= LEAST_COUNTED
        },
        results=_results(weighed, closed.case, weighing, cured) if weighing else {},
        minutes={last[-1]: sums_of(closed.minutes)} if closed.minutes and last else {},
    )


def _cured(compiled: CompiledPack, closed: ClosedCase, cure: Cure) -> _Cured:
    before = closed.case.events[: cure.place]
    fixed = {cause for repair in cure.repairs for cause in compiled.repairs[repair].fixes}
    return _Cured(
        cure=cure,
        parts=_parts(compiled, Case(closed.case.complaints, before), cure),
        before=sum(isinstance(event, Repaired) for event in before),
        ruled_out=frozenset(fixed - set(cure.causes)) if cure.cause else frozenset(),
    )


def _parts(compiled: CompiledPack, before: Case, cure: Cure) -> Mapping[str, float]:
    """Share a cure out among the causes it leaves: by how likely each was to blame and to be mended by it."""
    if cure.cause:
        return {cure.cause: 1.0}
    _, evidence = gather(compiled, before)
    blocking = weigh(compiled.network, evidence).blocking[0]
    likely = {}
    for cause in cure.causes:
        stays = math.prod(1 - compiled.repairs[repair].fixes.get(cause, 0.0) for repair in cure.repairs)
        likely[cause] = float(blocking[compiled.network.position[cause]]) * (1 - stays)
    total = sum(likely.values())
    if not total:
        return dict.fromkeys(cure.causes, 1 / len(cure.causes))
    return {cause: chance / total for cause, chance in likely.items()}


def _results(
    compiled: CompiledPack, case: Case, weighing: Weighing, cured: Sequence[_Cured]
) -> Mapping[tuple[str, str, str], float]:
    counted: defaultdict[tuple[str, str, str], float] = defaultdict(float)
    for place, dated in enumerate(counting(compiled, case)):
        check = compiled.checks[dated.found.check]
        without = dict(zip(compiled.network.names, weighing.arrived[place].tolist(), strict=True))
        chances = _chances(check, without, cured, dated.after)
        for (cause, level), part in parts_in(check, chances, level_of(compiled, dated.found)).items():
            if part >= LEAST_COUNTED:
                counted[check.id, cause, check.results[level].id] += part
    return dict(counted)


def _chances(check: Check, without: Mapping[str, float], cured: Sequence[_Cured], after: int) -> Mapping[str, float]:
    """Chance of each cause a check looks at that it was there then, by everything but this result.

    A confirmed cause was there, and the cure took away what it mended.
    """
    chances = {row.cause: without[row.cause] for row in check.likelihoods}
    for one in cured:
        mended = bool(one.cure.repairs) and after > one.before
        known = {**dict.fromkeys(one.ruled_out, 0.0), **one.parts}
        chances |= {cause: 0.0 if mended else part for cause, part in known.items() if cause in chances}
    return chances


def parts_in(check: Check, chances: Mapping[str, float], level: int) -> Mapping[tuple[str, int], float]:
    """Say how often each cause was there and went how far itself, given what was seen; the highest of all is seen.

    The leak row gets the part in which no cause was there. Over many machines a row gets what it shows, whatever else
    is in them: its chance to be there times its own chances.
    """
    leak = _cumulative(check.leak)
    rows = {row.cause: _cumulative(row.probabilities) for row in check.likelihoods}

    def up_to(most: int, but: str = "") -> float:
        """Chance that leak and all causes but one stay at a level or below."""
        if most < 0:
            return 0.0
        return leak[most] * math.prod(
            1 - chance * (1 - rows[cause][most]) for cause, chance in chances.items() if cause != but
        )

    seen = up_to(level) - up_to(level - 1)
    if seen <= 0:
        return {}
    none = math.prod(1 - chance for chance in chances.values()) * check.leak[level] / seen
    parts = {(LEAK_ROW, level): none}
    for row in check.likelihoods:
        rest = up_to(level, row.cause), up_to(level - 1, row.cause)
        for own, chance in enumerate(row.probabilities[: level + 1]):
            parts[row.cause, own] = chances[row.cause] * chance * (rest[0] - (own < level) * rest[1]) / seen
    return parts


def _cumulative(row: Sequence[float]) -> Sequence[float]:
    return list(accumulate(row))
