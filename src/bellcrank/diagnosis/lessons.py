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

from bellcrank.diagnosis.belief import gather, level_of
from bellcrank.diagnosis.case import Case, Repaired
from bellcrank.diagnosis.closed_case import ClosedCase, Cure, holding
from bellcrank.diagnosis.counts import Counts
from bellcrank.diagnosis.findings import counting
from bellcrank.diagnosis.network import CompiledPack
from bellcrank.errors import OutOfRange
from bellcrank.knowledge.model import Check
from bellcrank.knowledge.records import LEAK_ROW
from bellcrank.stats.updating import sums_of
from bellcrank.stats.weighing import weigh

CONFIRMED = 0.9  # [-] a cause this sure takes a result of a check that looks at it for itself
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
        arrived = weigh(weighed.network, evidence).arrived[0]
        cured = [_cured(weighed, closed, cure) for cure in cures]
    except OutOfRange:  # too much to be weighed exactly: it teaches nothing
        return Counts()
    there = dict(zip(weighed.network.names, arrived.tolist(), strict=True))
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
        results=_results(weighed, closed.case, there, cured),
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
    compiled: CompiledPack, case: Case, there: Mapping[str, float], cured: Sequence[_Cured]
) -> Mapping[tuple[str, str, str], float]:
    counted: defaultdict[tuple[str, str, str], float] = defaultdict(float)
    for dated in counting(compiled, case):
        check = compiled.checks[dated.found.check]
        level = level_of(compiled, dated.found)
        for cause, part in _whose(_chances(check, there, cured, dated.after)).items():
            for result, share in _latent(check, cause, level).items():
                if part * share >= LEAST_COUNTED:
                    counted[check.id, cause, result] += part * share
    return dict(counted)


def _chances(check: Check, there: Mapping[str, float], cured: Sequence[_Cured], after: int) -> Mapping[str, float]:
    """Chance of each cause a check looks at that it was there then; a cure took away what it mended."""
    chances = {row.cause: there[row.cause] for row in check.likelihoods}
    for one in cured:
        mended = bool(one.cure.repairs) and after > one.before
        known = {**dict.fromkeys(one.ruled_out, 0.0), **one.parts}
        chances |= {cause: 0.0 if mended else part for cause, part in known.items() if cause in chances}
    return chances


def _whose(chances: Mapping[str, float]) -> Mapping[str, float]:
    """Say whose a result is: the one confirmed cause's, or shared among causes and a sound machine by their chances."""
    sure = [cause for cause, chance in chances.items() if chance >= CONFIRMED]
    if len(sure) == 1:
        return {sure[0]: 1.0}
    none = math.prod(1 - chance for chance in chances.values())
    total = sum(chances.values())
    shared = {cause: (1 - none) * chance / total for cause, chance in chances.items() if chance > 0}
    return {LEAK_ROW: none, **shared}


def _latent(check: Check, cause: str, level: int) -> Mapping[str, float]:
    """Say how far a cause itself went when a result was seen: what a sound machine shows anyway may have gone further.

    Rows are kept without what a sound machine shows (net), results are seen with it: the higher of both is seen.
    """
    results = [one.id for one in check.results]
    row = next((one.probabilities for one in check.likelihoods if one.cause == cause), None)
    if row is None:
        return {results[level]: 1.0}
    alone = [row[m] * check.leak[level] for m in range(level)]
    own = row[level] * sum(check.leak[: level + 1])
    total = sum(alone) + own
    if not total:
        return {results[level]: 1.0}
    return {results[m]: chance / total for m, chance in enumerate([*alone, own])}
